package dossier_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Every piece is told once, and those told together have one verdict and, where
// one leads, one leader.
func TestEveryPieceIsToldOnce(t *testing.T) {
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			var places []int
			for _, told := range d.Told {
				places = append(places, told.Pieces...)
				first := d.Exceedances[told.Pieces[0]]
				for _, i := range told.Pieces {
					x := d.Exceedances[i]
					if x.Verdict != first.Verdict || dossier.Leads(&told) && x.Leader != first.Leader {
						t.Errorf("%s: got %q told with %q, want one verdict and one leader", path, x.Title, first.Title)
					}
				}
				if told.Title == "" || told.When == "" || told.Answer == "" {
					t.Errorf("%s: got %+v, want a title, a time and an answer", path, told)
				}
			}
			slices.Sort(places)
			for i := range d.Exceedances {
				if i >= len(places) || places[i] != i {
					t.Fatalf("%s: got pieces %v told, want each of %d once", path, places, len(d.Exceedances))
				}
			}
		}
	}
}

// A drifted cell is told once over its intervals; a band that begins under the
// rated load likewise; what is named comes first.
func TestWhatIsToldTogether(t *testing.T) {
	drifted := dossiers(t, "demo/drifted.case.json")[0]
	if n := len(drifted.Told); n > len(drifted.Exceedances)/2 {
		t.Errorf("drifted: got %d pieces told in %d, want most told together", len(drifted.Exceedances), n)
	}
	mixed := dossiers(t, "demo/mixed.case.json")[0]
	if first := mixed.Exceedances[mixed.Told[0].Pieces[0]]; first.Verdict == cause.Undecided {
		t.Errorf("mixed: got %q first, want what is named", mixed.Told[0].Title)
	}
	last := mixed.Told[len(mixed.Told)-1]
	if len(last.Pieces) < 2 || !strings.Contains(last.Answer, "may lie under the rated load") || !strings.Contains(last.Title, "up to") {
		t.Errorf("mixed: got %+v last, want all hours that may lie under the rated load", last)
	}
}

// The list of what to ask for adds up what each record tells of the pieces, best
// first, and says of every record that can be asked for how to get it.
func TestSettle(t *testing.T) {
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			before := math.Inf(1)
			for _, s := range d.Settle {
				sum := 0.0
				for _, b := range s.Pieces {
					i := slices.IndexFunc(d.Exceedances[b.Piece].AskFor, func(a dossier.Ask) bool { return a.Record == s.Record })
					if i < 0 || d.Exceedances[b.Piece].AskFor[i].Bits != b.Bits {
						t.Errorf("%s, %s: got %v bits of piece %d, want what the piece says", path, s.Name, b.Bits, b.Piece)
					}
					sum += b.Bits
				}
				if math.Abs(sum-s.Bits) > 0.001 || s.Bits > before || s.Doubt < 0 || s.Doubt > 1 {
					t.Errorf("%s, %s: got %v bits and %v of the doubt after %v bits, want the sum %v in order", path, s.Name, s.Bits, s.Doubt, before, sum)
				}
				before = s.Bits
			}
		}
	}
	for _, record := range cause.Records() {
		if do, tell, named := dossier.HowToGet(record); !named || do == "" || tell == "" {
			t.Errorf("%s: got no words of how to get it, want a row for each record", record)
		}
	}
	if do, _, named := dossier.HowToGet("a moon phase"); named || do != "Get a moon phase" {
		t.Errorf("got %q, want the record's own words where no row names it", do)
	}
}

// Where the peak and the hours of its band come out differently, both say so and
// how both can be true.
func TestBeside(t *testing.T) {
	for _, path := range []string{"told/apart.case.json"} {
		d := dossiers(t, path)[0]
		n := 0
		for _, x := range d.Exceedances {
			if x.Beside == "" {
				continue
			}
			n++
			if x.What == cause.Peak && !strings.Contains(x.Beside, "no contradiction") && !strings.Contains(x.Beside, "Both can be true") {
				t.Errorf("%s: got %q, want how both can be true", path, x.Beside)
			}
		}
		if n < 2 {
			t.Errorf("%s: got %d pieces that speak of another, want the peak and its band", path, n)
		}
	}
	for _, x := range dossiers(t, "demo/lashed.case.json")[0].Exceedances {
		if x.Beside != "" {
			t.Errorf("lashed: got %q, want nothing where both say the same", x.Beside)
		}
	}
}

// The result as data holds what another person needs to work each ratio and each
// weight out again, in the way that the sheet says.
func TestAnotherPersonGetsTheSame(t *testing.T) {
	n := 0
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			value := func(id assume.ID) float64 { return rowOf(d, id).Value }
			prior := [4]float64{value(assume.PriorWorked), value(assume.PriorLashed), value(assume.PriorShock), value(assume.PriorDrift)}
			for _, x := range d.Exceedances {
				n++
				var like [4]float64
				best, all := math.Inf(-1), 0.0
				for c := range like {
					for _, r := range x.Reasons {
						like[c] += r.Log10.Get(cause.All[c])
					}
					best = max(best, like[c])
				}
				for c := range like {
					like[c] = (1-value(assume.ModelDoubt))*math.Pow(10, value(assume.Reliance)*(like[c]-best)) + value(assume.ModelDoubt)
					all += like[c] * prior[c]
				}
				leader, rival := slices.Index(cause.All, x.Leader), slices.Index(cause.All, x.Ratio.Against)
				if got, want := like[leader]/like[rival], x.Ratio.Value; math.Abs(got/want-1) > 0.02 {
					t.Errorf("%s, %s: got a ratio of %v, want %v", path, x.Title, got, want)
				}
				for c := range like {
					if got, want := like[c]*prior[c]/all, x.Posterior.Get(cause.All[c]); math.Abs(got-want) > 0.005 {
						t.Errorf("%s, %s: got a weight of %v for %s, want %v", path, x.Title, got, cause.All[c], want)
					}
				}
			}
		}
	}
	if n < 20 {
		t.Errorf("got %d pieces, want at least 20", n)
	}
}

// A rated load that carries no person blocks: no cause is named, and neither
// "over" nor "not over" is said.
func TestRatedForNobody(t *testing.T) {
	for rated, blocked := range map[string]bool{"5": true, "59": true, "60": false, "105": false, "200": false} {
		d := assess(t, strings.NewReplacer(`"rated_load_kg":240`, `"rated_load_kg":`+rated, `"peak_kg":221`, `"peak_kg":2210`).Replace(with("")))
		if d.Blocked() != blocked {
			t.Errorf("%s kg: got blocked %v, want %v", rated, d.Blocked(), blocked)
		}
		if !blocked {
			continue
		}
		if !strings.HasPrefix(d.Answers.Summary, "Nothing can be concluded yet") || !strings.Contains(d.Answers.Summary, "out of use") || !strings.HasPrefix(d.Answers.Over, "Not known") {
			t.Errorf("%s kg: got %q and %q, want nothing concluded and the machine kept out of use", rated, d.Answers.Summary, d.Answers.Over)
		}
		for _, x := range d.Exceedances {
			if x.Verdict != cause.Undecided || !strings.Contains(x.Answer, "carries no person") {
				t.Errorf("%s kg: got %q, want no cause named", rated, x.Answer)
			}
		}
	}
}

// One kg over the rated load does not read as none.
func TestJustOver(t *testing.T) {
	for peak, want := range map[string]string{"241": "100.4 % of", "240.3": "240.3 kg, 100.1 % of", "240.01": "just over 240 kg, just over 100 % of", "252": "252 kg, 105 % of"} {
		d := assess(t, strings.Replace(with(""), `"peak_kg":221`, `"peak_kg":`+peak, 1))
		if !strings.Contains(d.Answers.Summary, want) {
			t.Errorf("%s kg: got %q, want %q in it", peak, d.Answers.Summary, want)
		}
		if text := written(t, d); strings.Contains(text, "100 % of the rated load ("+peak) {
			t.Errorf("%s kg: got it written as 100 %% of the rated load", peak)
		}
	}
}

// What would turn a leader over is named with its value, or it is said that
// nothing does by itself.
func TestWhatTurnsItOver(t *testing.T) {
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			for i := range d.Exceedances {
				x := &d.Exceedances[i]
				text := dossier.TurnsOver(x)
				flips := slices.ContainsFunc(x.Matters, func(m dossier.Matter) bool { return m.FlipsAt != nil })
				if text == "" {
					if x.Ratio.Value >= 1 && !x.MayBeUnder && len(x.Matters) > 0 {
						t.Errorf("%s, %s: got nothing said, want what turns it over", path, x.Title)
					}
					continue
				}
				if strings.HasPrefix(text, "No") == flips {
					t.Errorf("%s, %s: got %q with flips %v", path, x.Title, text, flips)
				}
				if x.Verdict != cause.Undecided && flips {
					t.Errorf("%s, %s: got %q of a cause that is named", path, x.Title, text)
				}
			}
		}
	}
}

// The members that are told apart are in the result as data.
func TestToldAndSettleAreData(t *testing.T) {
	d := dossiers(t, "demo/mixed.case.json")[0]
	var out struct {
		Told   []struct{ Pieces []int }
		Settle []struct {
			Record, Do string
			Pieces     []struct{ Piece int }
		}
	}
	text, _, _ := strings.Cut(written(t, d), "\n")
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	if len(out.Told) != len(d.Told) || len(out.Settle) != len(d.Settle) || len(out.Settle) == 0 || out.Settle[0].Do == "" || len(out.Settle[0].Pieces) == 0 {
		t.Errorf("got %+v, want what is told together and what to ask for", out)
	}
}

// Hours in an open band that begins under the rated load may lie under it, with
// no peak to close it too; those that may be older say that.
func TestWhyHoursMayNotBeOver(t *testing.T) {
	open := assess(t, `{"format":"ratchetmark case 1","machine":{"id":"T","rated_load_kg":230},"readings":[{"at":"2026-02-02T08:10:00Z","peak_kg":null,"bands":[{"from_kg":0,"to_kg":200,"hours":100},{"from_kg":200,"to_kg":null,"hours":3}]}]}`)
	if len(open.Exceedances) != 1 || !strings.Contains(open.Exceedances[0].Answer, "the band holds loads under it as well") {
		t.Errorf("got %+v, want hours that may lie under the rated load", open.Exceedances)
	}
	const bands = `"bands":[{"from_kg":0,"to_kg":230,"hours":%s},{"from_kg":230,"to_kg":null,"hours":5}]`
	old := assess(t, `{"format":"ratchetmark case 1","machine":{"id":"T","rated_load_kg":230},"readings":[{"at":"2026-02-02T08:10:00Z","peak_kg":200,`+strings.Replace(bands, "%s", "100", 1)+`},{"at":"2026-03-02T08:10:00Z","peak_kg":200,`+strings.Replace(bands, "%s", "90", 1)+`}]}`)
	last := old.Exceedances[len(old.Exceedances)-1]
	if !last.MayBeUnder || !strings.Contains(last.Answer, "may be older than the interval") || !old.Blocked() && len(old.Findings) == 0 {
		t.Errorf("got %+v, want hours that may be older, and a finding", last)
	}
}

// A list that the case holds a part of is not asked for as if there were none.
func TestTheRestOfAList(t *testing.T) {
	drifted := dossiers(t, "demo/drifted.case.json")[0]
	for _, v := range []struct {
		name   string
		change func(c *record.Case)
		want   string
		rest   bool
	}{
		{"alarms at hand", func(*record.Case) {}, "the rest of the event list", true},
		{"the peak's rises alone", func(c *record.Case) {
			c.Events = slices.DeleteFunc(slices.Clone(c.Events), func(e record.Event) bool { return e.Kind != record.PeakRise })
		}, "the event list", false},
		{"no days", func(*record.Case) {}, "powered hours by day", false},
		{"one day", func(c *record.Case) {
			c.Daily = []record.Daily{{Date: record.Date{Time: drifted.History.Intervals[4].To.Truncate(24 * time.Hour)}, Powered: record.Of(record.Hour(3))}}
		}, "powered hours of the other days", true},
		{"one trip", func(c *record.Case) { c.Custody = c.Custody[:2] }, "who had the machine in between", true},
		{"no custody", func(c *record.Case) { c.Custody = nil }, "who had the machine", false},
	} {
		d := assessed(t, "demo/drifted.case.json", v.change)
		i := slices.IndexFunc(d.Settle, func(s dossier.Settle) bool { return s.Name == v.want })
		if i < 0 {
			t.Errorf("%s: got %+v, want %q", v.name, d.Settle, v.want)
			continue
		}
		if got := strings.Contains(d.Settle[i].Do, "at hand, but"); got != v.rest {
			t.Errorf("%s: got %q, want to be told of what is at hand: %v", v.name, d.Settle[i].Do, v.rest)
		}
	}
}

package intake_test

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// brief writes what a case holds on a line: "EX-61 240 | 2026-03-02T08:10:00Z
// on 412.5 peak 312 [0-240:165 240-:3] | hire 2026-01-01 2026-02-01".
func brief(c record.Case) string {
	var b strings.Builder
	b.WriteString(c.Machine.ID)
	if c.Machine.RatedLoad != nil {
		fmt.Fprintf(&b, " %v", *c.Machine.RatedLoad)
	}
	for _, r := range c.Readings {
		b.WriteString(" |")
		if !r.At.IsZero() {
			b.WriteString(" " + r.At.Format(time.RFC3339))
		}
		if r.Powered != nil {
			fmt.Fprintf(&b, " on %v", *r.Powered)
		}
		if r.Peak != nil {
			fmt.Fprintf(&b, " peak %v", *r.Peak)
		}
		if r.PeakAt != nil {
			b.WriteString(" at " + r.PeakAt.Format(time.RFC3339))
		}
		if r.Bands != nil {
			b.WriteString(" [" + briefBands(r.Bands) + "]")
		}
	}
	for _, u := range c.Custody {
		fmt.Fprintf(&b, " | %s %s %s", u.Holder, dayOr(u.From), dayOr(u.To))
	}
	return b.String()
}

func dayOr(t time.Time) string {
	if t.IsZero() {
		return "-"
	}
	return t.Format(time.DateOnly)
}

func briefBands(bands []record.Band) string {
	var out []string
	for _, x := range bands {
		to := ""
		if x.To != nil {
			to = fmt.Sprint(*x.To)
		}
		out = append(out, fmt.Sprintf("%v-%s:%v", x.From, to, x.Hours))
	}
	return strings.Join(out, " ")
}

// briefs writes the cases of a batch, divided by "; ".
func briefs(batch intake.Batch) string {
	var out []string
	for _, r := range batch.Records {
		out = append(out, brief(r.Case))
	}
	return strings.Join(out, "; ")
}

// asked lists the questions of a batch as "decimal of hours: 1,234 2,345 (point
// 1234, comma 1.234)".
func askedIn(batch intake.Batch) (out []string) {
	for _, q := range batch.Questions {
		var choices []string
		for _, c := range q.Choices {
			choices = append(choices, c.Answer+" "+c.Means)
		}
		out = append(out, fmt.Sprintf("%s of %s: %s (%s)", q.Kind, q.Column, strings.Join(q.Values, " "), strings.Join(choices, ", ")))
	}
	return out
}

// answer reads a file again with the answer to its first question: the guide of
// the sheet that is asked about, with what was answered.
func answer(name string, data []byte, batch intake.Batch, word string) (intake.Batch, error) {
	g := batch.Sheets[batch.Questions[0].Sheet].Guide
	switch word {
	case "point", "comma":
		g.Decimal = word
	case "day-first", "month-first":
		g.Dates = word
	}
	if _, err := intake.ReadGuide(mustJSON(g)); err != nil {
		return intake.Batch{}, err
	}
	return intake.Read(name, bytes.NewReader(data), intake.GuidesOf(g), nil)
}

// What can be read two ways is asked, with the file's own values and what each
// answer makes of the first; nothing is guessed, and with the answer it reads.
func TestQuestions(t *testing.T) {
	for _, v := range questions {
		settle(t, v.vector, v.faults(t))
	}
}

func (v *question) faults(t *testing.T) (wrong []string) {
	name, data := shapeBytes(t, v.vector)
	batch, err := intake.ReadBytes(name, data)
	if err != nil {
		return []string{fmt.Sprintf("got %v, want it read", err)}
	}
	say := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	if got := briefs(batch); got != v.unasked {
		say("got %q before an answer, want %q", got, v.unasked)
	}
	if got := said(batch); !slices.Equal(got, v.found) {
		say("got the findings %q, want %q", got, v.found)
	}
	if got := askedIn(batch); !slices.Equal(got, v.asked) {
		say("got the questions %q, want %q", got, v.asked)
		return wrong
	}
	for _, word := range slices.Sorted(maps.Keys(v.answers)) {
		again, err := answer(name, data, batch, word)
		if err != nil {
			say("%s: got %v, want it read with the answer", word, err)
		}
		if got := briefs(again); got != v.answers[word] {
			say("%s: got %q, want %q", word, got, v.answers[word])
		}
		if got := askedIn(again); len(got) != v.left {
			say("%s: got the questions %q, want %d left", word, got, v.left)
		}
	}
	return wrong
}

type question struct {
	vector  string
	unasked string // what is read before an answer
	found   []string
	asked   []string
	answers map[string]string // answer, and what is read then
	left    int               // questions that the answer leaves
}

var questions = []question{
	{"ask.decimal-hours.csv", "EX-61 240 | 2026-03-02T08:10:00Z",
		[]string{"number-ambiguous 3:41", "number-ambiguous 4:41"},
		[]string{"decimal of hours: 1,234 2,345 (point 1234, comma 1.234)"},
		map[string]string{
			"point": "EX-61 240 | 2026-03-02T08:10:00Z [0-240:1234 240-:2345]",
			"comma": "EX-61 240 | 2026-03-02T08:10:00Z [0-240:1.234 240-:2.345]",
		}, 0},
	{"ask.decimal-mixed.csv", "EX-61 240 | 2026-03-02T08:10:00Z on 412.5 [240-:2.5]",
		[]string{"number-ambiguous 3:47"},
		[]string{"decimal of hours: 1.234 (point 1.234, comma 1234)"},
		map[string]string{
			"point": "EX-61 240 | 2026-03-02T08:10:00Z on 412.5 [0-240:1.234 240-:2.5]",
			"comma": "EX-61 240 | 2026-03-02T08:10:00Z on 412.5 [0-240:1234 240-:2.5]",
		}, 0},
	{"ask.decimal-machine.csv", "1.234.567 240 |",
		[]string{"number-ambiguous 3:24", "number-ambiguous 4:27"},
		[]string{"decimal of hours: 165.125 99.250 (point 165.125, comma 165125)"},
		map[string]string{
			"point": "1.234.567 240 | [0-240:165.125 240-:99.25]",
			"comma": "1.234.567 240 | [0-240:165125 240-:99250]",
		}, 0},
	{"ask.decimal-peak.txt", "EX-61 240 |",
		[]string{"number-ambiguous 4:1"},
		[]string{"decimal of Peak: 1.234 kg (point 1.234, comma 1234)"},
		map[string]string{"point": "EX-61 240 | peak 1.234", "comma": "EX-61 240 | peak 1234"}, 0},
	{"ask.decimal-label.csv", "EX-61 2400 | [0-900:165]",
		[]string{"number-ambiguous 4:8"},
		[]string{"decimal of band: 1.000-2.000 kg (point 1-2, comma 1000-2000)"},
		map[string]string{"point": "EX-61 2400 | [0-900:165 1-2:99]", "comma": "EX-61 2400 | [0-900:165 1000-2000:99]"}, 0},
	{"ask.dates.csv", "EX-61 240",
		[]string{"date-ambiguous 3:11", "date-ambiguous 4:11"},
		[]string{"dates of reading_at: 03/04/2026 05/06/2026 (day-first 3 April 2026, month-first 4 March 2026)"},
		map[string]string{
			"day-first":   "EX-61 240 | 2026-04-03T00:00:00Z peak 200 | 2026-06-05T00:00:00Z peak 210",
			"month-first": "EX-61 240 | 2026-03-04T00:00:00Z peak 200 | 2026-05-06T00:00:00Z peak 210",
		}, 0},
	{"ask.dates-peak.csv", "EX-61 240 | 2026-03-02T08:10:00Z peak 200",
		[]string{"date-ambiguous 3:36"},
		[]string{"dates of peak_at: 02/03/2026 (day-first 2 March 2026, month-first 3 February 2026)"},
		map[string]string{
			"day-first":   "EX-61 240 | 2026-03-02T08:10:00Z peak 200 at 2026-03-02T00:00:00Z",
			"month-first": "EX-61 240 | 2026-03-02T08:10:00Z peak 200 at 2026-02-03T00:00:00Z",
		}, 0},
	{"ask.dates-mixed.csv", "EX-61 240 | 2026-04-13T00:00:00Z peak 200 | 2026-04-14T00:00:00Z peak 210",
		[]string{"dates-mixed 4:1", "date-ambiguous 5:11"},
		[]string{"dates of reading_at: 05/06/2026 (day-first 5 June 2026, month-first 6 May 2026)"},
		map[string]string{
			"day-first": "EX-61 240 | 2026-04-13T00:00:00Z peak 200 | 2026-04-14T00:00:00Z peak 210 | 2026-06-05T00:00:00Z peak 220",
		}, 0},
	{"ask.both.csv", "EX-61 240",
		[]string{"date-ambiguous 3:11"},
		[]string{"dates of reading_at: 03/04/2026 (day-first 3 April 2026, month-first 4 March 2026)"},
		map[string]string{"day-first": "EX-61 240 | 2026-04-03T00:00:00Z peak 200"}, 1},
	{"ask.dates-custody.csv", "EX-61 240 | peak 200 | hire - -",
		[]string{"date-ambiguous 6:7", "date-ambiguous 6:18"},
		[]string{"dates of from: 01/02/2026 (day-first 1 February 2026, month-first 2 January 2026)", "dates of to: 03/02/2026 (day-first 3 February 2026, month-first 2 March 2026)"},
		map[string]string{
			"day-first":   "EX-61 240 | peak 200 | hire 2026-02-01 2026-02-04",
			"month-first": "EX-61 240 | peak 200 | hire 2026-01-02 2026-03-03",
		}, 0},
}

// A file that is no record is refused, and the refusal says what was found,
// what was expected and what to do; its tables are shown all the same.
func TestRetoldRefused(t *testing.T) {
	for name, v := range refused {
		settle(t, name, refusedFaults(t, name, v.found, v.rows))
	}
}

func refusedFaults(t *testing.T, name, found string, rows int) (wrong []string) {
	file, data := shapeBytes(t, name)
	batch, err := intake.ReadBytes(file, data)
	var r *intake.Refusal
	if !errors.As(err, &r) {
		return []string{fmt.Sprintf("got %v and %q, want a refusal", err, briefs(batch))}
	}
	if r.Found != found || r.Expected == "" || r.Hint == "" {
		wrong = append(wrong, fmt.Sprintf("got %+v, want found %q", r, found))
	}
	shown := 0
	for _, s := range batch.Sheets {
		shown += len(s.Rows)
	}
	if shown != rows {
		wrong = append(wrong, fmt.Sprintf("got %d rows shown, want %d", shown, rows))
	}
	return wrong
}

var refused = map[string]struct {
	found string
	rows  int
}{
	"refuse.unknown.csv":      {`no row is a heading that is known; the first is "Kennung,Tafel,Wann,Zähler A,Zähler B"`, 2},
	"refuse.no-heading.csv":   {`no row is a heading that is known; the first is "EX-61,scissor,240,2026-03-02T08:10:00Z,4…"`, 2},
	"refuse.prose.txt":        {`no row is a heading that is known; the first is "The machine of this invented example was…"`, 2},
	"refuse.prose-colon.txt":  {`no row is a heading that is known; the first is "Dear depot: please find the invented rec…"`, 2},
	"refuse.no-hours.csv":     {"the heading row has no column with the hours", 2},
	"refuse.no-band.csv":      {"the heading row has no column with the band", 2},
	"refuse.heading-only.csv": {"there is a heading row but no row of a reading", 1},
	"refuse.count.csv":        {`the heading "Load band,Number of lifts" has bands, and not a column of hours that is known`, 3},
	"refuse.trace.csv":        {"the heading row has no column with the hours", 3},
	"refuse.list.json":        {"the number 1 that is not a case", 0},
	"refuse.text.json":        {`no row is a heading that is known; the first is "a text"`, 1},
	"refuse.empty-parts.json": {"there is no table in it", 3},
	"guide.plain.csv":         {`no row is a heading that is known; the first is "Kennung,Tafel,Wann,Zähler A,Zähler B"`, 2},
	"guide.data.csv":          {`no row is a heading that is known; the first is "EX-61,scissor,240,2026-03-02T08:10:00Z,4…"`, 2},
}

// A value that does not fit is taken as missing and found, in its place; the
// rest of the file is read, and nothing is asked.
func TestRetoldInDoubt(t *testing.T) {
	for _, v := range doubted {
		settle(t, v.vector, doubtedFaults(t, v.vector, v.want, v.found))
	}
}

func doubtedFaults(t *testing.T, vector, want string, found []string) (wrong []string) {
	name, data := shapeBytes(t, vector)
	batch, err := intake.ReadBytes(name, data)
	if err != nil {
		return []string{fmt.Sprintf("got %v, want it read", err)}
	}
	if got := briefs(batch); got != want {
		wrong = append(wrong, fmt.Sprintf("got %q, want %q", got, want))
	}
	if got := said(batch); !slices.Equal(got, found) {
		wrong = append(wrong, fmt.Sprintf("got the findings %q, want %q", got, found))
	}
	if got := askedIn(batch); len(got) > 0 {
		wrong = append(wrong, fmt.Sprintf("got the questions %q, want none", got))
	}
	return wrong
}

var doubted = []struct {
	vector, want string
	found        []string
}{
	{"doubt.unit-of-hours.csv", "EX-61 | 2026-03-02T08:10:00Z [240-:99]", []string{"value-unreadable 3:7", "value-unreadable 3:43", "bands-incomplete 3:43"}},
	{"doubt.unit-unknown.csv", "EX-61 | 2026-03-02T08:10:00Z", []string{"value-unreadable 3:7", "value-unreadable 3:36", "value-unreadable 3:45"}},
	{"doubt.share-alone.csv", "EX-61 240 | 2026-03-02T08:10:00Z", []string{"share-without-hours 3:11"}},
	{"doubt.percent-alone.csv", "EX-61 | 2026-03-02T08:10:00Z", []string{"edges-without-rated-load 3:7"}},
	{"doubt.custody-of-nobody.csv", "EX-61 240 | peak 200; EX-62 240 | peak 210", []string{"machine-unnamed 7:1"}},
	{"doubt.two-unnamed.book", "Left 240 | 2026-03-02T08:10:00Z peak 200; Right 230 | 2026-03-02T08:10:00Z peak 210", []string{"machine-from-sheet Left B2", "2: machine-from-sheet Right B2"}},
	{"doubt.turned.csv", " | 2026-01-05T00:00:00Z [0-240:120 240-:80] | 2026-03-02T00:00:00Z [0-240:165 240-:99]", []string{"table-turned 2:1"}},
	{"doubt.year-short.csv", "EX-61 240", []string{"row-undated 3:11"}},
	{"doubt.zone-name.csv", "EX-61 240", []string{"row-undated 3:11"}},
	{"doubt.serial-date.csv", "EX-61 240 | 2026-03-02T08:09:36Z peak 200", []string{"zone-assumed 3:11", "date-from-number 3:11"}},
	{"doubt.label-words.csv", "EX-61 240 | 2026-03-02T08:10:00Z [0-240:165]", []string{"value-unreadable 4:32", "bands-incomplete 4:32"}},
	{"doubt.approx.txt", "EX-61 240 |", []string{"value-unreadable 4:1", "value-unreadable 5:1"}},
	{"doubt.column-twice.csv", "EX-61 240 | 2026-03-02T08:10:00Z peak 200", []string{"column-twice 2:42"}},
	{"doubt.differs.csv", "EX-61 240 | 2026-03-02T08:10:00Z peak 200 | 2026-03-03T08:10:00Z peak 210", []string{"value-differs 4:7"}},
	{"doubt.formula.csv", "EX-61 240 | 2026-03-02T08:10:00Z", []string{"value-unreadable 3:32", "value-unreadable 3:38"}},
	{"doubt.minutes-clock.csv", "EX-61 240 | 2026-03-02T08:10:00Z peak 200", []string{"value-unreadable 3:32"}},
	{"doubt.hire-running.csv", "EX-61 240 | peak 200 | hire 2026-01-01 -", nil},
	{"doubt.same-hours.csv", "EX-61 240 | 2026-03-02T08:10:00Z peak 312", []string{"column-unknown 2:58", "hours-alike 3:11"}},
	{"doubt.comma-unquoted.csv", "EX-61 240 | 2026-03-02T08:10:00Z [240-:99]", []string{"row-ragged 3:1"}},
}

package model

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/assume"
)

// keys lists the entries of a device.
func keys(d *device) (out []string) {
	for key := range d.cases {
		out = append(out, key)
	}
	return out
}

// reopened opens the only entry of a device in a page of its own.
func reopened(t *testing.T, d *device) *Model {
	t.Helper()
	m := New(d.page())
	if len(m.Recent) != 1 {
		t.Fatalf("got %d entries, want 1", len(m.Recent))
	}
	m.OpenKept(m.Recent[0].Key)
	return m
}

// Whatever is done to a machine, its entry gives the same result again, hash
// list and findings included.
func TestReopenedIsTheSame(t *testing.T) {
	for _, c := range []struct {
		name  string
		files []File
		act   func(m *Model)
	}{
		{"opened", []File{lashed()}, func(*Model) {}},
		{"with findings", []File{fileOf("bad", "peak-below-occupied-band.case.json")}, func(*Model) {}},
		{"with findings of reading", []File{fileOf("bad", "unknown-fields.case.json")}, func(*Model) {}},
		{"delimited", []File{fileOf("delimited", "two-readings-semicolon.csv")}, func(*Model) {}},
		{"joined", []File{fileOf("delimited", "two-readings-semicolon.csv")}, func(m *Model) { m.Open([]File{lashed()}) }},
		{"assumed", []File{lashed()}, func(m *Model) { assumed(t, m, assume.CyclesPerHour, "6") }},
		{"put back", []File{lashed()}, func(m *Model) {
			assumed(t, m, assume.CyclesPerHour, "6")
			usual(m, assume.CyclesPerHour)
		}},
		{"told", []File{lashed()}, func(m *Model) {
			tell(t, m, "stress-range", "82")
			tell(t, m, "standard", "EN 1993-1-9")
			tell(t, m, "category", "71")
			tell(t, m, "disposal", "2029-04-01")
		}},
		{"told in a file", []File{fileOf("structure", "crack.case.json")}, func(*Model) {}},
		{"corrected", []File{lashed()}, func(m *Model) {
			m.Correct()
			m.Form.Readings[0].Peak = "777"
			m.Changed()
			m.Finish()
		}},
		{"typed", nil, func(m *Model) { typed(m); m.Finish() }},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDevice()
			m := New(d)
			m.Open(c.files)
			c.act(m)
			again := reopened(t, d)
			if again.Page != Sheet || len(again.Opened) != 1 {
				t.Fatalf("got page %d and notices %v, want the sheet", again.Page, again.Notices)
			}
			if got, want := result(t, &again.Case().Dossier), result(t, &m.Case().Dossier); got != want {
				t.Errorf("got %s, want %s", got, want)
			}
			if a, b := again.Case(), m.Case(); a.Typed != b.Typed || a.Changed != b.Changed {
				t.Errorf("got typed %v, changed %v, want %v, %v", a.Typed, a.Changed, b.Typed, b.Changed)
			}
		})
	}
}

// Every file of the test data is kept and comes back as it was.
func TestEveryFileIsTheSameAgain(t *testing.T) {
	for _, name := range []string{"bands-changed", "counter-backwards", "custody-overlap", "daily-over-24", "duplicate-band", "duplicate-key", "huge-number",
		"no-rated-load", "no-reading", "readings-out-of-order", "wrong-types", "html-in-fields"} {
		m, d := opened(t, fileOf("bad", name+".case.json"))
		again := reopened(t, d)
		if got, want := result(t, &again.Case().Dossier), result(t, &m.Case().Dossier); got != want {
			t.Errorf("%s: got %s, want %s", name, got, want)
		}
	}
}

// The findings of reading a file keep their place, which their JSON leaves out.
func TestFindingsKeepTheirPath(t *testing.T) {
	m, d := opened(t, fileOf("bad", "unknown-fields.case.json"))
	want := m.Case().Group.Findings
	if len(want) == 0 || want[0].Path == "" {
		t.Fatalf("got findings of reading %v, want some with a path", want)
	}
	got := reopened(t, d).Case().Group.Findings
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// Each change of the form is on the device when it has been made; a page that
// ends there has lost nothing, what cannot be read included.
func TestEachKeystrokeIsKept(t *testing.T) {
	d := newDevice()
	m := New(d)
	m.TypeNew()
	m.Changed()
	if len(d.cases) != 0 {
		t.Errorf("got %d entries for an empty form, want none", len(d.cases))
	}
	for i := range len("23o") {
		m.Form.Rated = "23o"[:i+1]
		m.Changed()
		if d.puts != i+1 || len(d.cases) != 1 {
			t.Fatalf("got %d writes and %d entries after %d keys", d.puts, len(d.cases), i+1)
		}
		again := New(d.page())
		again.TypeNew()
		if got := again.Form.Rated; got != m.Form.Rated {
			t.Errorf("got %q, want %q", got, m.Form.Rated)
		}
	}
	m.Form.Rated = ""
	m.Changed()
	if len(d.cases) != 0 {
		t.Errorf("got %d entries after all was taken back, want none", len(d.cases))
	}
}

// A correction and a new machine that is being typed keep apart, each with its own.
func TestDraftsDoNotShareASlot(t *testing.T) {
	m, d := opened(t, lashed())
	typed(m)
	m.GoSheet()
	m.Correct()
	m.Form.Readings[0].Peak = "77x"
	m.Changed()
	if len(d.cases) != 2 {
		t.Fatalf("got %d entries, want the machine and the new one", len(d.cases))
	}
	check := func(m *Model, when string) {
		t.Helper()
		m.TypeNew()
		if m.Form.ID != "T-1" || m.Form.Editing() || m.Form.Readings[0].Peak != "241" {
			t.Errorf("%s: got %s with a peak of %s, want the new machine", when, m.Form.ID, m.Form.Readings[0].Peak)
		}
		m.GoSheet()
		m.Correct()
		if m.Form.ID != "NF-07" || !m.Form.Editing() || m.Form.Readings[0].Peak != "77x" {
			t.Errorf("%s: got %s with a peak of %s, want the correction", when, m.Form.ID, m.Form.Readings[0].Peak)
		}
	}
	check(m, "same page")
	again := New(d.page())
	for _, k := range again.Recent {
		if !k.Draft {
			if k.State != "lashed, being corrected" {
				t.Errorf("got state %q, want it being corrected", k.State)
			}
			again.OpenKept(k.Key)
		}
	}
	check(again, "another page")
	again.Form.Readings[0].Peak = "770"
	again.Changed()
	again.Finish()
	if again.Page != Sheet || again.Form.ID != "T-1" {
		t.Errorf("got page %d and %q in the form, want the sheet, and the new machine again", again.Page, again.Form.ID)
	}
	last := New(d.page())
	last.OpenKept(last.Recent[0].Key)
	if last.Case() == nil || last.Case().draft != nil || *last.Case().Group.Case.Readings[0].Peak != 770 {
		t.Errorf("got %+v, want the corrected machine without a draft", last.Case())
	}
}

// What the form does not show stays with a correction that outlived the page,
// and an assumption that was set meanwhile too.
func TestCorrectionKeepsTheRest(t *testing.T) {
	m, d := opened(t, lashed())
	m.Correct()
	m.Form.Readings[0].Peak = "333"
	m.Changed()
	again := reopened(t, d)
	assumed(t, again, assume.CyclesPerHour, "6")
	again.Correct()
	again.Finish()
	c := again.Case().Group.Case
	if len(c.Custody) != len(m.Case().Group.Case.Custody) || c.Assumptions["cycles_per_hour"].Value != 6 || *c.Readings[0].Peak != 333 {
		t.Errorf("got %+v, want custody, the assumption and the peak", c)
	}
	again.Correct()
	again.Form.Rated = "1"
	again.Changed()
	again.DropCorrection()
	if again.Page != Sheet || strings.Contains(again.Recent[0].State, "corrected") {
		t.Errorf("got page %d, state %q, want the correction forgotten", again.Page, again.Recent[0].State)
	}
	if again.Correct(); again.Form.Rated != "230" {
		t.Errorf("got a rated load of %s, want 230", again.Form.Rated)
	}
}

// A file that joins a machine while it is being corrected takes nothing away.
func TestCorrectionApartFromAFurtherFile(t *testing.T) {
	m, d := opened(t, fileOf("delimited", "two-readings-semicolon.csv"))
	m.Correct()
	m.Form.Readings[0].Powered = "12z"
	m.Changed()
	m.Open([]File{lashed()})
	if len(m.Opened) != 1 || len(m.Notices) != 1 || len(d.cases) != 2 {
		t.Fatalf("got %d machines, notices %v, %d entries, want 1, one, 2", len(m.Opened), m.Notices, len(d.cases))
	}
	m.TypeNew()
	if m.Form.Readings[0].Powered != "12z" || m.Form.Editing() {
		t.Errorf("got %+v, want the correction as a machine of its own", m.Form)
	}
	m.GoSheet()
	if m.Correct(); len(m.Form.Readings) != 6 {
		t.Errorf("got %d readings to correct, want 6", len(m.Form.Readings))
	}
}

// Two machines of one name are two entries; the same file on another day is none more.
func TestOneEntryForEachMachine(t *testing.T) {
	d := newDevice()
	for range 2 {
		m := New(d.page())
		typed(m)
		m.Finish()
	}
	if len(d.cases) != 2 {
		t.Errorf("got %d entries for two typed machines, want 2", len(d.cases))
	}
	d = newDevice()
	var m *Model
	for range 3 {
		m = New(d.page())
		m.Open([]File{fileOf("delimited", "two-machines-tab.txt")})
	}
	if len(d.cases) != 2 {
		t.Errorf("got %d entries for one file with two machines, want 2: %v", len(d.cases), keys(d))
	}
	assumed(t, m, assume.CyclesPerHour, "6")
	m = New(d.page())
	m.Open([]File{fileOf("delimited", "two-machines-tab.txt")})
	if len(d.cases) != 3 {
		t.Errorf("got %d entries, want the changed machine beside the file's", len(d.cases))
	}
}

// Beginning afresh loses nothing: the earlier machine stays in the list.
func TestAfreshKeepsTheOld(t *testing.T) {
	d := newDevice()
	m := New(d)
	typed(m)
	m.TypeAfresh()
	if !m.Form.Blank() {
		t.Errorf("got %+v, want an empty form", m.Form)
	}
	m.Form.ID = "T-2"
	m.Changed()
	if name, ok := m.Draft(); !ok || name != "T-2" || len(d.cases) != 2 {
		t.Errorf("got draft %q and %d entries, want T-2 and 2", name, len(d.cases))
	}
	m.OpenKept(m.Recent[1].Key)
	if m.Page != Typing || m.Form.ID != "T-1" {
		t.Errorf("got page %d, %s, want T-1 in the form", m.Page, m.Form.ID)
	}
}

// Each refusal is said once, in words, with the way that is left; and nothing
// else changes.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		err   error
		title string
	}{
		{&StoreError{"QuotaExceededError", "the quota has been exceeded"}, "no room left"},
		{&StoreError{"Missing", ""}, "keeps nothing for the app"},
		{&StoreError{"VersionError", "v"}, "newer version"},
		{&StoreError{"Blocked", "b"}, "Another tab"},
		{&StoreError{"Superseded", "s"}, "This tab keeps nothing"},
		{&StoreError{"SecurityError", "denied"}, "refuses to keep"},
		{errors.New("out of order"), "refuses to keep"},
	} {
		t.Run(c.title, func(t *testing.T) {
			d := newDevice()
			d.refuse = c.err
			m := New(d)
			typed(m)
			m.Changed()
			m.Finish()
			if len(m.Notices) != 1 || !strings.Contains(m.Notices[0].Title, c.title) {
				t.Fatalf("got notices %v, want one about %q", m.Notices, c.title)
			}
			if text := strings.Join(m.Notices[0].Lines, " "); !strings.Contains(text, c.err.Error()) || !strings.Contains(text, "as a file") {
				t.Errorf("got %q, want the reason and the way out", text)
			}
			if m.Page != Sheet {
				t.Errorf("got page %d, want the sheet", m.Page)
			}
			m.SaveCase()
			m.SaveAll()
			if d.saved["T-1.case.json"] == "" || d.saved[allCases] == "" {
				t.Errorf("got %v saved, want the case", d.saved)
			}
			m.ForgetNotices()
			assumed(t, m, assume.CyclesPerHour, "7")
			if len(m.Notices) != 0 {
				t.Errorf("got %v again, want it said once", m.Notices)
			}
			d.failed(&StoreError{"Other", "another one"})
			if want := 1; c.title != "refuses to keep" && len(m.Notices) != want {
				t.Errorf("got %d notices, want another refusal said too", len(m.Notices))
			}
		})
	}
}

// Saving everything holds what is being typed, as far as it can be read.
func TestSaveAllHoldsDrafts(t *testing.T) {
	m, d := opened(t, lashed())
	typed(m)
	m.Form.Rated = "23o"
	m.Changed()
	m.TypeAfresh()
	m.Form.ID = "T-2"
	m.Changed()
	m.GoSheet()
	m.Correct()
	m.Form.Readings[0].Peak = "77x"
	m.Form.Persons = "3"
	m.Changed()
	m.SaveAll()
	lines := strings.Split(strings.TrimSpace(d.saved[allCases]), "\n")
	var got []string
	for _, line := range lines {
		got = append(got, strings.Split(strings.Split(line, `"id":"`)[1], `"`)[0])
	}
	if want := "NF-07 NF-07 T-1 T-2"; strings.Join(got, " ") != want {
		t.Fatalf("got %v, want %s", got, want)
	}
	if !strings.Contains(lines[1], `"persons":3`) || !strings.Contains(lines[2], `"persons":2`) {
		t.Errorf("got %s, want what can be read of it", d.saved[allCases])
	}
}

// What earlier versions kept is taken over once, and removed when it is safe.
func TestTheOldDraftIsTakenOver(t *testing.T) {
	for _, c := range []struct {
		name, text string
		refuse     error
		want       int
		left       bool
	}{
		{"a draft", `{"ID":"OLD-1","Kind":"boom","Rated":"23o","Readings":[{"Bands":[{"From":"0"}]}]}`, nil, 1, false},
		{"a refusal leaves it", `{"ID":"OLD-1","Readings":[{}]}`, errors.New("no"), 0, true},
		{"nonsense", `{"ID`, nil, 0, false},
		{"no readings", `{"ID":"OLD-1"}`, nil, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := newDevice()
			d.left[leftDraft], d.refuse = c.text, c.refuse
			m := New(d)
			if _, left := d.left[leftDraft]; left != c.left || len(d.cases) != c.want {
				t.Fatalf("got left %v and %d entries, want %v and %d", left, len(d.cases), c.left, c.want)
			}
			if c.want == 0 {
				return
			}
			if m.TypeNew(); m.Form.ID != "OLD-1" || m.Form.Rated != "23o" {
				t.Errorf("got %+v, want the old draft", m.Form)
			}
			if n := len(New(d.page()).Recent); n != 1 {
				t.Errorf("got %d entries, want it taken over once", n)
			}
		})
	}
}

// Changes made faster than the clock ticks keep their order.
func TestStampsAreInOrder(t *testing.T) {
	m := New(newDevice())
	var last time.Time
	for range 5 {
		now := m.stamp()
		if !now.After(last) {
			t.Errorf("got %v after %v", now, last)
		}
		last = now
	}
}

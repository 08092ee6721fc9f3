package model

import (
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/assume"
)

// names lists the entries that the search finds.
func names(m *Model) string {
	var out []string
	for _, k := range m.Found() {
		name := k.Title()
		if k.Gone() {
			name += "(gone)"
		}
		out = append(out, name)
	}
	return strings.Join(out, " ")
}

// last is the element that was shown last, with the keyboard on it.
func last(m *Model) string {
	shown := m.host.(*device).shown
	return shown[len(shown)-1]
}

// depot is a device with the worked example and a machine that is being typed.
func depot(t *testing.T) *device {
	t.Helper()
	d := newDevice()
	m := New(d)
	for _, name := range []string{"clean", "drifted", "lashed", "mixed", "worked"} {
		m.Open([]File{fileOf("demo", name+".case.json")})
	}
	typed(m)
	return d
}

func TestListIsNewestFirst(t *testing.T) {
	d := depot(t)
	m := New(d.page())
	all := names(m)
	if got := strings.Fields(all); len(got) != 6 || got[0] != "T-1" || m.Recent[0].State != "being typed" {
		t.Fatalf("got %s, %q, want 6 entries, the typed one first", all, m.Recent[0].State)
	}
	key := m.Recent[5].Key
	m.OpenKept(key)
	if got := names(m); got != all {
		t.Errorf("got %s after opening the last, want %s: opening changes nothing", got, all)
	}
	assumed(t, m, assume.CyclesPerHour, "6")
	if m.Recent[0].Key != key || New(d.page()).Recent[0].Key != key {
		t.Errorf("got %s, want the changed one first", names(m))
	}
}

func TestSearch(t *testing.T) {
	m := New(depot(t).page())
	worked := ""
	for _, k := range m.Recent {
		if strings.Contains(k.State, "undecided") {
			worked = k.Title()
		}
	}
	if worked == "" {
		t.Fatal("got no undecided machine, want one")
	}
	for _, c := range []struct{ text, want, not string }{
		{"", worked, "ZZ"},
		{"nf-07", "NF-07", "T-1"},
		{"BEING typed", "T-1", "NF-07"},
		{"lift boom", "NF-07", "ZZ"},
		{"undecided", worked, "T-1"},
		{"invented", "NF-07", "T-1"},
		{"no such thing", "", "NF-07"},
	} {
		m.Search = c.text
		if got := names(m); !strings.Contains(got, c.want) || strings.Contains(got, c.not) {
			t.Errorf("%q: got %s, want %s in it and %s not", c.text, got, c.want, c.not)
		}
	}
	found := 0
	for _, k := range m.Recent {
		for _, name := range k.Who {
			m.Search = strings.ToUpper(name)
			if !strings.Contains(names(m), k.Title()) {
				t.Errorf("%s in custody does not find %s", name, k.Title())
			}
			found++
		}
	}
	if found == 0 {
		t.Error("got nobody in custody, want the search tried with somebody")
	}
}

func TestWhen(t *testing.T) {
	d := newDevice()
	m := New(d)
	zone := time.FixedZone("", -5*3600)
	for _, c := range []struct {
		at   time.Time
		want string
	}{
		{d.now, "changed today at 08:10"},
		{d.now.Add(-8 * time.Hour), "changed today at 00:10"},
		{d.now.Add(-9 * time.Hour), "changed yesterday at 23:10"},
		{d.now.AddDate(0, 0, -2), "changed on 28 February 2026 at 08:10"},
		{time.Date(2025, 12, 31, 20, 5, 0, 0, zone), "changed on 31 December 2025 at 20:05"},
	} {
		if got := m.When(&Kept{Changed: c.at}); got != c.want {
			t.Errorf("%v: got %q, want %q", c.at, got, c.want)
		}
	}
}

func TestOpenWhatIsOpen(t *testing.T) {
	m, _ := opened(t, fileOf("demo", "clean.case.json"), lashed())
	m.GoStart()
	m.OpenKept(m.Recent[1].Key)
	if len(m.Opened) != 2 || m.Page != Sheet || m.Case().key != m.Recent[1].Key {
		t.Errorf("got %d machines, page %d, want the one that is open shown", len(m.Opened), m.Page)
	}
}

func TestDeleteAndRestore(t *testing.T) {
	for _, name := range []string{"on the sheet", "being corrected", "being typed", "in another page"} {
		t.Run(name, func(t *testing.T) {
			d := depot(t)
			m := New(d.page())
			key := m.Recent[3].Key
			switch name {
			case "on the sheet":
				m.OpenKept(key)
			case "being corrected":
				m.OpenKept(key)
				m.Correct()
				m.Form.Rated = "23o"
				m.Changed()
			case "being typed":
				key = m.Recent[0].Key
				m.TypeNew()
			}
			m.GoStart()
			before, entry := names(m), d.cases[key]
			m.AskDelete(key)
			if m.Asking != key || len(d.cases) != 6 || last(m) != "keep-"+key {
				t.Fatalf("got %d entries, asking %q, want it asked first", len(d.cases), m.Asking)
			}
			m.AskDelete(key)
			if m.Asking != "" || len(d.cases) != 6 || last(m) != "delete-"+key {
				t.Fatal("keeping it does not keep it")
			}
			m.AskDelete(key)
			m.Delete(key)
			if _, still := d.cases[key]; still || m.Asking != "" || last(m) != "restore-"+key {
				t.Fatalf("got %d entries, want it deleted", len(d.cases))
			}
			if len(m.Opened) != 0 || m.Form.Editing() || !m.Form.Blank() {
				t.Errorf("got %d machines and %+v, want it closed", len(m.Opened), m.Form)
			}
			m.list()
			if got := names(m); !strings.Contains(got, "(gone)") || strings.ReplaceAll(got, "(gone)", "") != before {
				t.Errorf("got %s, want it in its place: %s", got, before)
			}
			m.Restore(key)
			if d.cases[key] != entry || names(m) != before || last(m) != "open-"+key {
				t.Errorf("got %s, want the entry as it was: %s", names(m), before)
			}
			if m.OpenKept(key); m.Page == Start {
				t.Errorf("got notices %v, want it opened", m.Notices)
			}
		})
	}
}

// A deleted draft is not offered again, and a deleted machine is not written again.
func TestDeletedStaysDeleted(t *testing.T) {
	d := newDevice()
	m := New(d)
	typed(m)
	m.GoStart()
	m.Delete(m.Recent[0].Key)
	if _, ok := m.Draft(); ok {
		t.Error("got a draft, want none")
	}
	m.TypeNew()
	m.Form.ID = "T-9"
	m.Changed()
	if len(d.cases) != 1 || names(m) != "T-9 T-1(gone)" {
		t.Errorf("got %s, want the deleted one to stay so", names(m))
	}
	if got := names(New(d.page())); got != "T-9" {
		t.Errorf("got %s in another page, want T-9", got)
	}
}

// All as one file, on another device, is the same again: cases, order and figures.
func TestRoundTrip(t *testing.T) {
	d := depot(t)
	page := d.page()
	m := New(page)
	m.SaveKeptAll()
	first := page.saved[allCases]
	if n := strings.Count(first, "\n"); n != 6 {
		t.Fatalf("got %d cases in the file, want 6", n)
	}
	other := newDevice()
	there := New(other)
	there.Open([]File{{Name: allCases, Data: []byte(first), Size: int64(len(first))}})
	if got, want := names(there), names(m); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	there.SaveKeptAll()
	if got := other.saved[allCases]; got != first {
		t.Errorf("got %s, want %s", got, first)
	}
	compared := 0
	for _, k := range m.Recent[1:] { // the first one is still being typed there
		m.OpenKept(k.Key)
		mine := m.Case().Dossier
		for _, o := range there.Opened {
			if o.Dossier.Machine.ID == mine.Machine.ID {
				its := o.Dossier
				if len(its.Findings) != len(mine.Findings) {
					t.Errorf("%s: got findings %v, want %v", k.Title(), its.Findings, mine.Findings)
				}
				its.Inputs, its.Findings, its.Answers.Handover = mine.Inputs, mine.Findings, mine.Answers.Handover // they name the file
				if got, want := result(t, &its), result(t, &mine); got != want {
					t.Errorf("%s: got %s, want %s", k.Title(), got, want)
				}
				compared++
			}
		}
	}
	if compared != 5 {
		t.Errorf("got %d machines compared, want 5", compared)
	}
}

func TestSaveOne(t *testing.T) {
	d := depot(t)
	page := d.page()
	m := New(page)
	for _, k := range m.Recent {
		m.SaveKept(k.Key)
		if got := page.saved[k.Title()+".case.json"]; !strings.Contains(got, `"id": "`+k.Title()+`"`) {
			t.Errorf("got %.80q, want the case of %s", got, k.Title())
		}
	}
}

// An entry that another page deleted is said to be gone, the others are saved.
func TestGoneElsewhere(t *testing.T) {
	d := depot(t)
	page := d.page()
	m := New(page)
	key := m.Recent[2].Key
	delete(d.cases, key)
	m.SaveKeptAll()
	if len(m.Notices) != 1 || strings.Count(page.saved[allCases], "\n") != 5 || len(m.Recent) != 5 {
		t.Errorf("got notices %v, %d entries, want one, 5", m.Notices, len(m.Recent))
	}
	m.Notices = nil
	delete(d.cases, m.Recent[1].Key)
	m.OpenKept(m.Recent[1].Key)
	if len(m.Notices) != 1 || m.Page != Start || len(m.Recent) != 4 {
		t.Errorf("got notices %v, page %d, want it said", m.Notices, m.Page)
	}
	delete(d.cases, m.Recent[1].Key)
	m.Delete(m.Recent[1].Key)
	if len(m.Recent) != 3 {
		t.Errorf("got %d entries, want 3", len(m.Recent))
	}
}

// A machine that is being typed here stays at hand when another page deletes it.
func TestTypedHereDeletedThere(t *testing.T) {
	d := newDevice()
	m := New(d)
	typed(m)
	m.GoStart()
	delete(d.cases, m.Recent[0].Key)
	d.again()
	if m.TypeNew(); names(m) != "T-1" || m.Form.ID != "T-1" {
		t.Fatalf("got %q in the list and %q in the form, want T-1", names(m), m.Form.ID)
	}
	m.Form.Persons = "3"
	m.Changed()
	if len(d.cases) != 1 {
		t.Errorf("got %d entries, want it kept again with its next change", len(d.cases))
	}
}

// What another page changed is not overwritten: a change made here is kept apart.
func TestTwoPages(t *testing.T) {
	for _, what := range []string{"a machine", "a machine being typed"} {
		t.Run(what, func(t *testing.T) {
			d := newDevice()
			a := New(d)
			edit := func(m *Model, value string) { assumed(t, m, assume.CyclesPerHour, value) }
			if what == "a machine" {
				a.Open([]File{lashed()})
			} else {
				typed(a)
				edit = func(m *Model, value string) { m.Form.Persons = value; m.Changed() }
			}
			key := a.Recent[0].Key
			second := d.page()
			second.now = d.now.Add(time.Minute)
			b := New(second)
			b.OpenKept(key)
			edit(b, "6")
			newer := d.cases[key]
			d.now = d.now.Add(2 * time.Minute)
			d.again()
			if len(a.Notices) != 1 || !strings.Contains(a.Notices[0].Title, "another tab") {
				t.Fatalf("got notices %v, want one about another tab", a.Notices)
			}
			edit(a, "7")
			if d.cases[key] != newer || len(d.cases) != 2 {
				t.Fatalf("got %d entries, want the newer one as it was and this one beside it", len(d.cases))
			}
			edit(a, "8")
			if len(d.cases) != 2 {
				t.Errorf("got %d entries, want no further one", len(d.cases))
			}
			a.Notices = nil
			second.again()
			d.again()
			if len(a.Notices) != 0 {
				t.Errorf("got %v, want it said once", a.Notices)
			}
			a.OpenKept(key)
			if what == "a machine" {
				if got := a.Case().Group.Case.Assumptions["cycles_per_hour"].Value; got != 6 {
					t.Errorf("got %v, want the newer one opened", got)
				}
			} else if a.Form.Persons != "6" {
				t.Errorf("got %s, want the newer one opened", a.Form.Persons)
			}
		})
	}
}

// Opening the newer one of two takes the place of the older one on the sheet.
func TestTheNewerTakesThePlace(t *testing.T) {
	d := newDevice()
	a := New(d)
	a.Open([]File{lashed()})
	second := d.page()
	second.now = d.now.Add(time.Minute)
	b := New(second)
	b.OpenKept(b.Recent[0].Key)
	assumed(t, b, assume.CyclesPerHour, "6")
	d.again()
	a.OpenKept(a.Recent[0].Key)
	if len(a.Opened) != 1 || a.Case().Group.Case.Assumptions["cycles_per_hour"].Value != 6 {
		t.Errorf("got %d machines, want the newer one alone", len(a.Opened))
	}
}

// A list that was asked for before something was written does not take it away.
func TestLateList(t *testing.T) {
	d := newDevice()
	d.late = true
	m := New(d)
	m.Open([]File{lashed()})
	old := d.answer
	d.answer, d.late = nil, false
	for _, answer := range old {
		answer()
	}
	if names(m) != "NF-07" || d.lists != 2 {
		t.Errorf("got %q after %d lists, want NF-07 and the list read again", names(m), d.lists)
	}
}

// An entry that this version cannot read stays, is listed and can be deleted.
func TestUnreadableEntry(t *testing.T) {
	d := newDevice()
	d.cases["k"] = kept{"not JSON", "nor this"}
	m := New(d)
	if len(m.Recent) != 1 || !strings.Contains(m.Recent[0].State, "cannot be read") {
		t.Fatalf("got %+v, want it listed", m.Recent)
	}
	m.OpenKept("k")
	if len(m.Notices) != 1 || len(d.cases) != 1 {
		t.Errorf("got notices %v, want one, and the entry left alone", m.Notices)
	}
	m.Delete("k")
	if len(d.cases) != 0 {
		t.Error("it cannot be deleted")
	}
}

package model

import (
	"os"
	"strings"
	"testing"

	"ratchetmark/internal/assume"
)

func fileOf(folder, name string) File {
	data, err := os.ReadFile("../../testdata/" + folder + "/" + name)
	if err != nil {
		panic(err)
	}
	return File{Name: name, Size: int64(len(data)), Data: data}
}

func lashed() File { return fileOf("demo", "lashed.case.json") }

func opened(t *testing.T, files ...File) (*Model, *device) {
	t.Helper()
	d := newDevice()
	m := New(d)
	m.Open(files)
	if m.Page != Sheet {
		t.Fatalf("got page %d, want the sheet; notices %v", m.Page, m.Notices)
	}
	return m, d
}

func TestOpenShowsTheSheet(t *testing.T) {
	m, d := opened(t, lashed())
	if got := m.Case().Dossier.Machine.ID; got != "NF-07" {
		t.Errorf("got machine %s, want NF-07", got)
	}
	if got := m.Case().Dossier.Inputs[0].Name; got != "lashed.case.json" {
		t.Errorf("got input %s, want lashed.case.json", got)
	}
	if len(d.shown) == 0 || d.shown[0] != "sheet" {
		t.Errorf("got %v in view, want the sheet", d.shown)
	}
}

// A file that cannot be read leaves what is on the sheet as it was.
func TestRefusalLeavesTheSheet(t *testing.T) {
	m, _ := opened(t, lashed())
	before := m.Case().Dossier.Answers
	m.Open([]File{fileOf("bad", "photo.jpg")})
	if len(m.Notices) != 1 || !strings.Contains(strings.Join(m.Notices[0].Lines, " "), "JPEG") {
		t.Errorf("got notices %v, want one about a JPEG picture", m.Notices)
	}
	if len(m.Opened) != 1 || m.Case().Dossier.Answers != before {
		t.Error("the sheet changed")
	}
}

func TestOneOfTwoFilesIsRefused(t *testing.T) {
	m, _ := opened(t, fileOf("bad", "empty.csv"), lashed())
	if len(m.Opened) != 1 || len(m.Notices) != 1 {
		t.Errorf("got %d machines and %d notices, want 1 and 1", len(m.Opened), len(m.Notices))
	}
}

func TestTheSameFileTwice(t *testing.T) {
	m, _ := opened(t, lashed())
	m.Open([]File{lashed()})
	if len(m.Opened) != 1 || len(m.Notices) != 1 {
		t.Errorf("got %d machines and %d notices, want 1 and 1", len(m.Opened), len(m.Notices))
	}
}

// Two files about one machine become one case, even after it was changed by hand.
func TestFilesOfOneMachineJoin(t *testing.T) {
	m, _ := opened(t, fileOf("delimited", "two-readings-semicolon.csv"))
	assumed(t, m, assume.CyclesPerHour, "6")
	m.Open([]File{lashed()})
	if len(m.Opened) != 1 {
		t.Fatalf("got %d machines, want 1", len(m.Opened))
	}
	o := m.Case()
	if got := len(o.Group.Case.Readings); got != 6 {
		t.Errorf("got %d readings, want the 6 of the case file, 2 of which stand in both", got)
	}
	if got := len(o.Dossier.Inputs); got != 2 {
		t.Errorf("got %d inputs, want 2", got)
	}
	if got := o.Group.Case.Assumptions["cycles_per_hour"].Value; got != 6 {
		t.Errorf("got %v load cycles per hour, want the 6 set by hand", got)
	}
}

func TestCancelGivesUp(t *testing.T) {
	d := newDevice()
	d.hold = true
	m := New(d)
	m.Open([]File{lashed()})
	if m.Busy == nil || m.Busy.Percent() < 49 || m.Busy.Percent() > 50 {
		t.Fatalf("got %+v, want half done", m.Busy)
	}
	m.Cancel()
	if m.Busy != nil || !d.halted {
		t.Error("the reading goes on")
	}
	d.finish(read([]File{lashed()})) // too late
	if len(m.Opened) != 0 || m.Page != Start {
		t.Error("a reading that was given up reached the sheet")
	}
}

func TestAFaultIsCaughtAndAllCanBeSaved(t *testing.T) {
	m, d := opened(t, lashed())
	m.Do(func() { panic("a fault") })
	if !strings.Contains(m.Crash, "a fault") {
		t.Fatalf("got %q, want the fault", m.Crash)
	}
	m.SaveAll()
	if got := d.saved["ratchetmark.case.json"]; !strings.Contains(got, "NF-07") {
		t.Errorf("got %q, want the case", got)
	}
	m.ForgetCrash()
	if m.Crash != "" || m.Case() == nil {
		t.Error("going on lost the case")
	}
}

func TestAssume(t *testing.T) {
	for _, c := range []struct {
		name, part, text string
		value            float64
		refused          bool
	}{
		{"a value within", "value", "6", 6, false},
		{"a value above its interval widens it", "value", "20", 20, false},
		{"a decimal comma", "value", "5,5", 5.5, false},
		{"nonsense", "value", "many", 5, true},
		{"out of range", "value", "-1", 5, true},
		{"a low above the usual", "low", "9", 5, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			m, _ := opened(t, lashed())
			fill(t, m, "cycles_per_hour-"+c.part, c.text)
			o := m.Case()
			if x := at(t, m, "cycles_per_hour-"+c.part); x.Problem != "" != c.refused || x.Text != c.text {
				t.Errorf("got %q, problem %q, want refused %v with the text kept", x.Text, x.Problem, c.refused)
			}
			for _, a := range o.Dossier.Assumptions {
				if a.ID == assume.CyclesPerHour && (a.Value != c.value || a.Low > a.Value || a.High < a.Value) {
					t.Errorf("got %v (%v to %v), want %v", a.Value, a.Low, a.High, c.value)
				}
			}
			if o.Changed == c.refused {
				t.Errorf("got changed %v", o.Changed)
			}
			usual(m, assume.CyclesPerHour)
			if len(unread(o.typed)) != 0 || len(o.Group.Case.Assumptions) != 0 {
				t.Error("the usual value did not come back")
			}
		})
	}
}

func TestFileName(t *testing.T) {
	for id, want := range map[string]string{"NF-07": "NF-07", "": "machine", "../../x": "x", "a b/c": "a-b-c", "<script>": "script"} {
		if got := fileName(id); got != want {
			t.Errorf("%q: got %q, want %q", id, got, want)
		}
	}
}

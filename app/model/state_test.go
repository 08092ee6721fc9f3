package model

import "testing"

// A machine of which a load over the rated one cannot be excluded is not listed as one with nothing over.
func TestStateOfWhatIsNotSure(t *testing.T) {
	for _, v := range []struct{ folder, name, want string }{
		{"demo", "clean.case.json", "nothing over"},
		{"bad", "check-reads-wrong.case.json", "nothing over, but not sure"},
		{"bad", "overlap.case.json", "nothing over, but not sure"},
		{"bad", "no-rated-load.case.json", "incomplete"},
	} {
		m, _ := opened(t, fileOf(v.folder, v.name))
		if got := m.Case().State(); got != v.want {
			t.Errorf("%s: got %q, want %q", v.name, got, v.want)
		}
	}
}

// What was typed to correct a machine is before the person again when it is opened in another page.
func TestOpenWhatIsBeingCorrected(t *testing.T) {
	m, d := opened(t, fileOf("demo", "clean.case.json"))
	m.Enter(OfCheck)
	m.Form.Checks[0][2] = "118"
	m.Changed()
	again := New(d.page())
	again.OpenKept(again.Recent[0].Key)
	if again.Page != Typing || !again.Form.Editing() || len(again.Form.Checks) != 1 || again.Form.Checks[0][2] != "118" {
		t.Errorf("got page %d with checks %q, want the form with the check that was begun", again.Page, again.Form.Checks)
	}
	again.GoSheet()
	if again.Page != Sheet || again.Case() == nil {
		t.Errorf("got page %d, want the sheet behind it", again.Page)
	}
}

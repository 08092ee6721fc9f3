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

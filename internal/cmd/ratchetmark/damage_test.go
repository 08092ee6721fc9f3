package main

import (
	"encoding/json"
	"strings"
	"testing"
)

// Exit codes as of the other commands, and the members of the format document.
func TestDamage(t *testing.T) {
	for _, v := range []struct {
		input string
		args  []string
		want  int
	}{
		{"", []string{testdata + "damage/en1993.json"}, 0},
		{"", []string{testdata + "damage/one-slope.json"}, 0},
		{`{"curve":{"standard":"EN 1993-1-9","category":71,"gamma_mf":1.35},"spectrum":[{"range_mpa":100,"cycles":10000}]}`, []string{"-"}, 0},
		{`{"curve":{"standard":"EN 1993-1-9","category":71,"x":1},"spectrum":[]}`, []string{"-"}, 0}, // a note does not block
		{`{"curve":{"standard":"EN 1993-1-9"},"spectrum":[{"range_mpa":100,"cycles":10000}]}`, []string{"-"}, 1},
		{`{"curve":`, []string{"-"}, 2},
		{"", []string{"no-such-file.json"}, 2},
		{"", nil, 2},
	} {
		code, out, errors := run(v.input, append([]string{"damage"}, v.args...)...)
		if code != v.want {
			t.Errorf("%v %s: got exit code %d, want %d; %s", v.args, v.input, code, v.want, errors)
		}
		if (out != "") != (code < 2) || (errors != "") != (code == 2) {
			t.Errorf("%v: got %q and %q with exit code %d", v.args, out, errors, code)
		}
	}
}

func TestDamageJSON(t *testing.T) {
	_, out, _ := run("", "damage", testdata+"damage/en1993.json")
	var got struct {
		Damage *float64
		Terms  []map[string]any
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	if got.Damage == nil || len(got.Terms) != 5 {
		t.Fatalf("got %s, want a damage and 5 terms", out)
	}
	for _, name := range []string{"range_mpa", "cycles", "endurance", "damage", "share"} {
		if _, ok := got.Terms[4][name]; !ok {
			t.Errorf("got no %s, want it", name)
		}
	}
	if got.Terms[4]["endurance"] != nil || strings.Count(out, "\n") != 1 {
		t.Errorf("got %s, want null below the cut-off and one line", out)
	}
}

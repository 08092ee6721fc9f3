package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/record"
	"ratchetmark/internal/simulate"
)

// life is a line that simulate prints.
type life struct {
	Case      json.RawMessage
	Truth     []simulate.Truth
	Available simulate.Availability
}

func lives(t *testing.T, out string) []life {
	t.Helper()
	var all []life
	for line := range strings.Lines(out) {
		var l life
		in := json.NewDecoder(strings.NewReader(line))
		in.DisallowUnknownFields()
		if err := in.Decode(&l); err != nil {
			t.Fatalf("got %.80q, want a line of JSON: %v", line, err)
		}
		all = append(all, l)
	}
	return all
}

// What simulate invents, assess reads without a word and holds no conclusion
// back; and the pieces with a truth are exactly those that assess finds.
func TestAssessOfSimulatedLives(t *testing.T) {
	code, out, errors := run("", "simulate", "--lives", "200", "--seed", "5")
	if code != 0 || errors != "" {
		t.Fatalf("got exit code %d and %q, want 0", code, errors)
	}
	all := lives(t, out)
	var stream bytes.Buffer
	for _, l := range all {
		stream.Write(append(l.Case, '\n'))
	}
	code, out, errors = run(stream.String(), "assess", "--json", "-")
	results := slices.Collect(strings.Lines(out))
	if code != 0 || errors != "" || len(results) != len(all) {
		t.Fatalf("got exit code %d, %q and %d results, want 0 and %d", code, errors, len(results), len(all))
	}
	pieces := 0
	for i, line := range results {
		var d struct {
			Exceedances []struct {
				What     string
				Interval int
				From     record.Kilogram `json:"from_kg"`
				Hours    *struct{ Low, High float64 }
			}
		}
		if err := json.Unmarshal([]byte(line), &d); err != nil {
			t.Fatal(err)
		}
		var got, want []string
		for _, x := range d.Exceedances {
			got = append(got, fmt.Sprint(x.What, x.Interval, x.From))
		}
		for _, x := range all[i].Truth {
			want = append(want, fmt.Sprint(x.What, x.Interval, x.From))
		}
		slices.Sort(got)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("life %d: got pieces %v, want %v", i, got, want)
		}
		pieces += len(want)
	}
	if pieces < 200 {
		t.Errorf("got %d pieces in 200 lives, want more", pieces)
	}
}

func TestSimulateLevels(t *testing.T) {
	for name, level := range levels {
		_, out, _ := run("", "simulate", "--lives", "3", "--with", name)
		all := lives(t, out)
		if len(all) != 3 {
			t.Fatalf("%s: got %d lives, want 3", name, len(all))
		}
		for _, l := range all {
			if l.Available != level {
				t.Errorf("%s: got %q, want %q", name, l.Available, level)
			}
		}
	}
	_, out, _ := run("", "simulate", "--lives", "4")
	for i, l := range lives(t, out) {
		if want := simulate.Availabilities[i]; l.Available != want {
			t.Errorf("life %d: got %q, want %q", i, l.Available, want)
		}
	}
}

func TestSimulateSeed(t *testing.T) {
	_, one, _ := run("", "simulate", "--lives", "5", "--seed", "3")
	_, again, _ := run("", "simulate", "--lives", "5", "--seed", "3")
	_, two, _ := run("", "simulate", "--lives", "5", "--seed", "4")
	if one != again || one == two {
		t.Errorf("got the same lives for one seed: %v, for two: %v; want true, false", one == again, one == two)
	}
}

func TestSimulateUsage(t *testing.T) {
	for _, v := range []struct {
		args []string
		want int
	}{
		{[]string{"--lives", "0"}, 2}, {[]string{"--lives", "1000001"}, 2}, {[]string{"--lives", "many"}, 2},
		{[]string{"--with", "everything"}, 2}, {[]string{"--seed", "-1"}, 2}, {[]string{"file"}, 2}, {[]string{"-h"}, 0},
	} {
		code, out, errors := run("", append([]string{"simulate"}, v.args...)...)
		if code != v.want || !strings.Contains(errors, simulateUsage) || out != "" {
			t.Errorf("%v: got exit code %d, %q and %q, want %d and the usage", v.args, code, out, errors, v.want)
		}
	}
	var stderr bytes.Buffer
	if code := dispatch([]string{"simulate", "--lives", "1"}, streams{strings.NewReader(""), full{}, &stderr}); code != 2 || stderr.Len() == 0 {
		t.Errorf("output that cannot be written: got exit code %d and %q, want 2 and words", code, stderr.String())
	}
}

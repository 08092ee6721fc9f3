package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// answers runs the command on standard input and reads its lines.
func answers(t *testing.T, input string) (code int, lines []map[string]any, errors string) {
	t.Helper()
	code, out, errors := run(input, "lash", "-")
	for line := range strings.Lines(out) {
		var a map[string]any
		if err := json.Unmarshal([]byte(line), &a); err != nil {
			t.Fatalf("got %q, want a line of JSON: %v", line, err)
		}
		lines = append(lines, a)
	}
	return code, lines, errors
}

// Exit codes as of the other commands: 0 answered, 1 answered with a blocking
// finding, 2 could not read.
func TestLashExitCodes(t *testing.T) {
	for _, v := range []struct {
		input string
		want  int
		lines int
		says  string
	}{
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.3}`, 0, 1, ""},
		{`{"mass_kg":3000,"tension_dan":400,"mu":0.3,"colour":1}`, 0, 1, ""}, // unknown members are findings, not errors
		{"{\"mass_kg\":3000,\"tension_dan\":400,\"mu\":0.3}\n{\"mass_kg\":3000,\"tension_dan\":400,\"mu\":0.9}\n", 1, 2, ""},
		{"", 2, 0, "the file is empty"},
		{"{\"mass_kg\":3000,\n  \"mu\":x}", 2, 0, "standard input:2:8: the JSON is broken"},
		{"[1]", 2, 0, "standard input:1:1: found a value that is no object"},
		{"null", 2, 0, "no object"},
		{"{}\n5", 2, 1, "standard input:2:1"},
		{`{"mass_kg":30`, 2, 0, "the JSON is broken"},
	} {
		code, lines, errors := answers(t, v.input)
		if code != v.want || len(lines) != v.lines || !strings.Contains(errors, v.says) || (code == 2) != (errors != "") {
			t.Errorf("%q: got exit code %d, %d lines and %q, want %d, %d and %q", v.input, code, len(lines), errors, v.want, v.lines, v.says)
		}
	}
	for _, args := range [][]string{{"lash"}, {"lash", "a", "b"}, {"lash", "no-such-file.json"}} {
		if code, out, errors := run("", args...); code != 2 || out != "" || errors == "" {
			t.Errorf("%q: got exit code %d, %q and %q, want 2 and words", args, code, out, errors)
		}
	}
	var stderr bytes.Buffer
	if code := dispatch([]string{"lash", "-"}, streams{strings.NewReader(`{"mass_kg":3000,"tension_dan":400,"mu":0.3}`), full{}, &stderr}); code != 2 || stderr.Len() == 0 {
		t.Errorf("full disk: got exit code %d and %q, want 2 and words", code, stderr.String())
	}
}

// The fields of the format document are there by their names, null where they
// were not asked for.
func TestLashFields(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "lash", "questions.json"))
	if err != nil {
		t.Fatal(err)
	}
	code, lines, errors := answers(t, string(data))
	if code != 0 || len(lines) != 4 {
		t.Fatalf("got exit code %d, %d lines, %s", code, len(lines), errors)
	}
	for i, want := range []map[string]any{
		{"needed": 5.0, "required_dan": 1226.25, "available_dan": nil, "ok": nil, "shortfall_pct": nil},
		{"needed_lc_dan": 2120.44, "required_dan": 3835.71},
		{"needed": nil},
		{"needed": 4.0, "ok": true, "counted_lb": 13200.0, "required_lb": 6999.68, "shortfall_pct": 0.0},
	} {
		for name, value := range want {
			got, there := lines[i][name]
			x, isNumber := value.(float64)
			y, both := got.(float64)
			if !there || isNumber && (!both || math.Abs(x-y) > 0.01) || !isNumber && got != value {
				t.Errorf("question %d, %s: got %v (there %v), want %v", i+1, name, got, there, value)
			}
		}
		if len(lines[i]["notes"].([]any)) == 0 || lines[i]["status"] == "" {
			t.Errorf("question %d: got no notes or no status, want what it does not cover and how it is known", i+1)
		}
	}
	kg := lines[2]["apparent_kg"].(map[string]any)
	if kg["low"] != 356.78 || kg["high"] != 713.56 || kg["estimate"].(float64) <= 356.78 {
		t.Errorf("got %v, want 356.78 to 713.56 kg", kg)
	}
}

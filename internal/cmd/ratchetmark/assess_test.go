package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const testdata = "../../../testdata/"

// run runs the command as a shell would.
func run(input string, args ...string) (code int, out, errors string) {
	var stdout, stderr bytes.Buffer
	code = dispatch(args, streams{strings.NewReader(input), &stdout, &stderr})
	return code, stdout.String(), stderr.String()
}

// Exit codes of the format document: 0 assessed, 1 assessed with blocking
// findings, 2 could not read.
func TestExitCodes(t *testing.T) {
	for _, v := range []struct {
		files []string
		want  int
	}{
		{[]string{"demo/clean.case.json"}, 0},
		{[]string{"demo/lashed.case.json", "demo/worked.case.json"}, 0},
		{[]string{"demo/mixed.case.json"}, 0},     // a doubt does not block
		{[]string{"bad/unsorted.case.json"}, 0},   // nor does a note
		{[]string{"bad/overlap.case.json"}, 1},    //
		{[]string{"bad/no-reading.case.json"}, 1}, //
		{[]string{"bad/nan.csv"}, 1},
		{[]string{"demo/clean.case.json", "bad/nan.csv"}, 1},
		{[]string{"bad/photo.jpg"}, 2},
		{[]string{"bad/truncated.case.json"}, 2},
		{[]string{"bad/nan.csv", "bad/photo.jpg"}, 2},
		{[]string{"no-such-file.csv"}, 2},
		{[]string{"demo"}, 2}, // a folder
	} {
		args := []string{"assess", "--json"}
		for _, f := range v.files {
			args = append(args, testdata+f)
		}
		if code, _, errors := run("", args...); code != v.want {
			t.Errorf("%v: got exit code %d, want %d; %s", v.files, code, v.want, errors)
		}
	}
}

// Every file of testdata gives an exit code, and words with code 2 only.
func TestEveryFileOfTestdata(t *testing.T) {
	for _, pattern := range []string{"demo/*", "delimited/*", "bad/*", "told/*"} {
		files, err := filepath.Glob(testdata + pattern)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: got %v and %d files, want some", pattern, err, len(files))
		}
		for _, f := range files {
			code, out, errors := run("", "assess", f)
			if code < 0 || code > 2 || (code == 2) != (errors != "") || (code == 2) != (out == "") {
				t.Errorf("%s: got exit code %d, %d bytes out and %q, want words for a file that cannot be read and a dossier else", f, code, len(out), errors)
			}
		}
	}
}

// --json prints one line for each machine.
func TestJSONLines(t *testing.T) {
	for files, want := range map[string][]string{
		"demo/lashed.case.json":                          {"NF-07"},
		"delimited/two-machines-tab.txt":                 {"NF-11", "NF-16"},
		"demo/clean.case.json demo/worked.case.json":     {"NF-02", "NF-11"},
		"demo/worked.case.json delimited/template.csv":   {"NF-11", "EXAMPLE-1"},
		"demo/clean.case.json delimited/one-reading.csv": {"NF-02"}, // two files, one machine
	} {
		args := []string{"assess", "--json"}
		for _, f := range strings.Fields(files) {
			args = append(args, testdata+f)
		}
		_, out, _ := run("", args...)
		if got := machines(t, out); strings.Join(got, " ") != strings.Join(want, " ") {
			t.Errorf("%s: got %v, want %v", files, got, want)
		}
	}
}

// machines reads lines of JSON and returns the machine of each.
func machines(t *testing.T, out string) []string {
	t.Helper()
	var names []string
	for line := range strings.Lines(out) {
		var d struct{ Machine struct{ ID string } }
		if err := json.Unmarshal([]byte(line), &d); err != nil {
			t.Fatalf("got %q, want a line of JSON: %v", line, err)
		}
		names = append(names, d.Machine.ID)
	}
	return names
}

// "-" is standard input: a stream of cases gives one result a line, and the
// figures are those of the files.
func TestStandardInput(t *testing.T) {
	var stream strings.Builder
	for _, name := range []string{"lashed", "clean"} {
		data, err := os.ReadFile(testdata + "demo/" + name + ".case.json")
		if err != nil {
			t.Fatal(err)
		}
		var line bytes.Buffer
		if err := json.Compact(&line, data); err != nil {
			t.Fatal(err)
		}
		stream.Write(append(line.Bytes(), '\n'))
	}
	code, out, _ := run(stream.String(), "assess", "--json", "-")
	if got := machines(t, out); code != 0 || strings.Join(got, " ") != "NF-07 NF-02" {
		t.Errorf("got exit code %d and %v, want 0 and NF-07 NF-02", code, got)
	}
	if !strings.Contains(out, `"name":"standard input"`) {
		t.Error("got no name of the input, want standard input")
	}
	_, file, _ := run("", "assess", "--json", testdata+"demo/lashed.case.json")
	if first, _, _ := strings.Cut(out, "\n"); figures(t, first) != figures(t, file) {
		t.Errorf("got\n%s\nwant\n%s", figures(t, first), figures(t, file))
	}
	if code, _, errors := run("", "assess", "-"); code != 2 || !strings.Contains(errors, "standard input: the file is empty") {
		t.Errorf("empty: got exit code %d and %q, want 2", code, errors)
	}
}

// figures returns a result without the names of its inputs.
func figures(t *testing.T, line string) string {
	t.Helper()
	var d map[string]any
	if err := json.Unmarshal([]byte(line), &d); err != nil {
		t.Fatal(err)
	}
	delete(d, "inputs")
	out, _ := json.Marshal(d)
	return string(out)
}

// An error names the file, what was found and what was expected; the hint
// stands on a line of its own.
func TestErrorWords(t *testing.T) {
	_, _, errors := run("", "assess", testdata+"bad/missing-column.csv")
	want := "ratchetmark assess: " + testdata + "bad/missing-column.csv:2: the heading row has no column with the hours; expected a case file, or a table whose headings say which column is the band and which the hours\n" +
		"  hint: point out what each column is, or compare with the template that can be saved from the start page\n"
	if errors != want {
		t.Errorf("got\n%swant\n%s", errors, want)
	}
	if _, _, errors := run("", "assess", "no-such-file.csv"); strings.Count(errors, "\n") != 1 || !strings.Contains(errors, "no-such-file.csv") {
		t.Errorf("got %q, want one line that names the file", errors)
	}
}

// What can be read is assessed, even next to a file that cannot.
func TestOneBadFileAmongGood(t *testing.T) {
	code, out, errors := run("", "assess", "--json", testdata+"bad/photo.jpg", testdata+"demo/clean.case.json")
	if got := machines(t, out); code != 2 || len(got) != 1 || !strings.Contains(errors, "photo.jpg") {
		t.Errorf("got exit code %d, %v and %q, want 2, the good machine, and the bad file named", code, got, errors)
	}
}

func TestUsage(t *testing.T) {
	for _, v := range []struct {
		args []string
		want int
		says string
	}{
		{nil, 2, "usage: ratchetmark COMMAND"},
		{[]string{"asses"}, 2, "usage: ratchetmark COMMAND"},
		{[]string{""}, 2, "usage: ratchetmark COMMAND"},
		{[]string{"assess"}, 2, "usage: ratchetmark assess [--json] [--guide FILE] FILE..."},
		{[]string{"assess", "--xml", "x"}, 2, "usage: ratchetmark assess [--json] [--guide FILE] FILE..."},
		{[]string{"assess", "-h"}, 0, "usage: ratchetmark assess [--json] [--guide FILE] FILE..."},
	} {
		code, out, errors := run("", v.args...)
		if code != v.want || !strings.Contains(errors, v.says) || out != "" {
			t.Errorf("%q: got exit code %d, %q and %q, want %d and %q", v.args, code, out, errors, v.want, v.says)
		}
	}
	_, _, errors := run("")
	for _, command := range commands {
		if !strings.Contains(errors, "  "+command.usage) {
			t.Errorf("got %q, want a line for %s", errors, command.name)
		}
	}
}

// A full disk is an error, not a silent success.
func TestOutputThatCannotBeWritten(t *testing.T) {
	for _, args := range [][]string{{"assess", testdata + "demo/clean.case.json"}, {"assess", "--json", testdata + "demo/clean.case.json"}} {
		var stderr bytes.Buffer
		if code := dispatch(args, streams{strings.NewReader(""), full{}, &stderr}); code != 2 || stderr.Len() == 0 {
			t.Errorf("%v: got exit code %d and %q, want 2 and words", args, code, stderr.String())
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, os.ErrInvalid }

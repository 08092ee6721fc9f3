package main

import (
	"bytes"
	"flag"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write what the program prints now into README.md")

const (
	readme      = "../../../README.md"
	reportBegin = "<!-- report: begin -->\n"
	reportEnd   = "<!-- report: end -->"
	reportLines = 79
)

// The report in the README is what the command prints, cut to its first lines.
func TestReadmeReport(t *testing.T) {
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), reportBegin)
	block, after, ended := strings.Cut(rest, reportEnd)
	if !ok || !ended {
		t.Fatalf("got no %q and %q in the README", reportBegin, reportEnd)
	}
	want := report(t)
	if *update {
		if err := os.WriteFile(readme, []byte(before+reportBegin+want+reportEnd+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if block != want {
		t.Errorf("got a report in the README that differs from what the command prints:\n%s\nwant\n%s\nhint: run this test with -update and look at the change", block, want)
	}
}

// report returns the first lines of the report as an indented block.
func report(t *testing.T) string {
	t.Helper()
	t.Chdir("../../..")
	var out, complaints bytes.Buffer
	if code := dispatch([]string{"assess", "testdata/demo/lashed.case.json"}, streams{nil, &out, &complaints}); code != 0 {
		t.Fatalf("got exit code %d: %s", code, complaints.String())
	}
	t.Chdir("internal/cmd/ratchetmark")
	lines := strings.Split(out.String(), "\n")
	var b strings.Builder
	b.WriteString("\n")
	for _, line := range lines[:reportLines] {
		b.WriteString(strings.TrimRight("    "+line, " ") + "\n")
	}
	b.WriteString("\n")
	return b.String()
}

package main

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"
)

// shownOf are the fields of an answer that the README shows, in their order.
var shownOf = []string{"needed", "required_dan", "needed_lc_dan", "apparent_kg", "counted_lb", "required_lb", "ok"}

// The questions in the README and their answers are those of the command.
func TestReadmeLash(t *testing.T) {
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	questions, err := os.ReadFile(testdata + "lash/questions.json")
	if err != nil {
		t.Fatal(err)
	}
	var out, complaints bytes.Buffer
	if code := dispatch([]string{"lash", testdata + "lash/questions.json"}, streams{nil, &out, &complaints}); code != 0 {
		t.Fatalf("got exit code %d: %s", code, complaints.String())
	}
	var answers strings.Builder
	for line := range strings.Lines(out.String()) {
		var a map[string]json.RawMessage
		if err := json.Unmarshal([]byte(line), &a); err != nil {
			t.Fatal(err)
		}
		var parts []string
		for _, name := range shownOf {
			if value := a[name]; value != nil && string(value) != "null" {
				parts = append(parts, `"`+name+`":`+string(value))
			}
		}
		answers.WriteString("{" + strings.Join(parts, ",") + ", ...}\n")
	}
	now := string(text)
	for name, lines := range map[string]string{"questions": string(questions), "answers": answers.String()} {
		now = between(t, now, name, lines)
	}
	if *update && now != string(text) {
		if err := os.WriteFile(readme, []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if now != string(text) {
		t.Errorf("got other questions or answers in the README than the command's:\n%s\nhint: run this test with -update and look at the change", now)
	}
}

// between puts lines, indented, between the marks of a name.
func between(t *testing.T, text, name, lines string) string {
	t.Helper()
	begin, end := "<!-- "+name+": begin -->\n", "<!-- "+name+": end -->"
	before, rest, ok := strings.Cut(text, begin)
	_, after, ended := strings.Cut(rest, end)
	if !ok || !ended {
		t.Fatalf("got no %q and %q in the README", begin, end)
	}
	var b strings.Builder
	b.WriteString("\n")
	for line := range strings.Lines(lines) {
		b.WriteString("    " + line)
	}
	b.WriteString("\n")
	return before + begin + b.String() + end + after
}

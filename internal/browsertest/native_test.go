package browsertest

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"
)

// testdata is the folder of the project's records.
const testdata = "../../testdata"

// buildCommand builds the native command once for all tests; the browser's folder holds it.
var buildCommand = sync.OnceValues(func() (string, error) {
	program := filepath.Join(shared.folder, "ratchetmark")
	build := exec.Command("go", "build", "-o", program, "./internal/cmd/ratchetmark")
	build.Dir = "../.."
	said, err := build.CombinedOutput()
	if err != nil {
		return "", &exec.Error{Name: "go build: " + string(said), Err: err}
	}
	return program, nil
})

// native is what the command printed and its exit code.
type native struct {
	code     int
	out, err string
}

// lines returns the results that the command printed, one for each machine.
func (n native) lines() []string {
	var lines []string
	for line := range bytes.Lines([]byte(n.out)) {
		lines = append(lines, string(line))
	}
	return lines
}

// assess runs "assess --json" on a file, from the file's own folder: the name in the result is then the one a browser knows.
func assess(t *testing.T, file string) native {
	t.Helper()
	program, err := buildCommand()
	if err != nil {
		t.Fatal(err)
	}
	command := exec.Command(program, "assess", "--json", filepath.Base(file))
	command.Dir = filepath.Dir(file)
	var out, complaints bytes.Buffer
	command.Stdout, command.Stderr = &out, &complaints
	if err := command.Run(); err != nil && command.ProcessState == nil {
		t.Fatal(err)
	}
	return native{command.ProcessState.ExitCode(), out.String(), complaints.String()}
}

// result is what the tests read of a saved result.
type result struct {
	Method  string
	Inputs  []struct{ Name, SHA256 string }
	Machine struct{ ID string }
	Answers struct{ Summary, Cost string }

	Findings []struct{ Code, Where, Message string }

	Capacity, Exposure json.RawMessage

	Exceedances []json.RawMessage
	Assumptions []struct {
		ID, Name string
		Value    float64
		Edited   bool
		Group    string
	}
	Cautions []string
}

// resultOf reads a saved result.
func resultOf(t *testing.T, data []byte) (r result) {
	t.Helper()
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatalf("got %.200q, want a result: %v", data, err)
	}
	return r
}

// saveResult saves the result of the machine on the sheet.
func saveResult(p *Page) []byte {
	p.t.Helper()
	_, data := p.Download(func() { p.Click("#save-result") })
	return data
}

// figuresOf returns what a record leads to, without what depends on where it came from.
func figuresOf(t *testing.T, data []byte) string {
	t.Helper()
	r := resultOf(t, data)
	text, err := json.Marshal([]any{r.Machine.ID, r.Answers, r.Capacity, r.Exceedances, r.Exposure, r.Assumptions, r.Cautions})
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// openFile opens a file through the file picker of the start page.
func openFile(p *Page, name string) {
	p.t.Helper()
	p.Files("#file", name)
	p.until("the file is read", `!document.querySelector("#busy") && !!document.querySelector("#sheet, #notices, #pointing")`)
	if p.Count("#pointing") > 0 { // what the command does without a guide
		press(p, "#leave-pointed")
		p.WaitFor("#sheet, #notices")
	}
}

// press clicks an element without a mouse, for tests that are not about where it stands.
func press(p *Page, selector string) {
	p.t.Helper()
	p.WaitFor(selector)
	p.Do("document.querySelector(" + quote(selector) + ").click()")
}

// unfold opens a part of the page that can be closed, unless it is open.
func unfold(p *Page, details string) {
	p.t.Helper()
	p.Settle()
	if !Eval[bool](p, "document.querySelector("+quote(details)+").open") {
		p.Click(details + " > summary")
		p.Settle()
	}
}

// setAssumption types a value for an assumption.
func setAssumption(p *Page, field, text string) {
	p.t.Helper()
	unfold(p, "#assumed-use")
	p.Type(field, text)
	p.Settle()
}

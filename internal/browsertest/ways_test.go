package browsertest

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// typed is a machine as its screen shows it: the columns of delimited text, by name, a row for each band.
type typed struct {
	machine  map[string]string
	readings []typedReading
}

type typedReading struct {
	counters map[string]string
	bands    []map[string]string
}

// caseOf reads the one machine in a file of testdata/delimited, in the simplest way, without the app's code.
func caseOf(t *testing.T, name string) typed {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(testdata, "delimited", name))
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(string(data), "\ufeff")))
	r.Comment = '#'
	if strings.Contains(string(data), "machine;kind") {
		r.Comma = ';'
	}
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var c typed
	last := ""
	for _, row := range rows[1:] {
		cells := map[string]string{}
		for i, column := range rows[0] {
			cells[column] = row[i]
		}
		if c.machine == nil {
			c.machine = cells
		}
		if at := cells["reading_at"]; at != last {
			last = at
			c.readings = append(c.readings, typedReading{counters: cells})
		}
		reading := &c.readings[len(c.readings)-1]
		reading.bands = append(reading.bands, cells)
	}
	return c
}

// typeCase types a machine into the form of the start page, as it would be copied from a screen. Each lower edge is left to
// follow the upper edge below it.
func typeCase(p *Page, c typed) {
	p.t.Helper()
	p.Click("#type")
	p.WaitFor("#typing")
	p.Type("#id", c.machine["machine"])
	p.Choose("#kind", c.machine["kind"])
	p.Type("#rated", c.machine["rated_load_kg"])
	p.Type("#persons", c.machine["persons"])
	p.Type("#sensing", c.machine["load_sensing_kg"])
	for i, r := range c.readings {
		if i > 0 {
			p.Click("#add-reading")
		}
		typeReading(p, i+1, r, i == 0)
	}
}

func typeReading(p *Page, n int, r typedReading, edges bool) {
	p.t.Helper()
	at := fmt.Sprintf("#r%d-", n)
	p.Choose(at+"at", strings.TrimSuffix(r.counters["reading_at"], "Z"))
	p.Type(at+"powered", r.counters["powered_h"])
	p.Type(at+"moving", r.counters["moving_h"])
	p.Type(at+"peak", r.counters["peak_kg"])
	p.Choose(at+"peak-at", strings.TrimSuffix(r.counters["peak_at"], "Z"))
	for j, band := range r.bands {
		here := fmt.Sprintf("%sb%d-", at, j+1)
		if p.Count(here+"hours") == 0 {
			p.Click(at + "add-band")
		}
		if edges {
			p.Type(here+"to", band["to_kg"])
		}
		p.Type(here+"hours", band["hours"])
	}
}

// pasteRecord pastes a text into the box on the start page and has it read.
func pasteRecord(p *Page, text string) {
	p.t.Helper()
	unfold(p, "#start details")
	p.Paste("#paste", text)
	p.Click("#read-paste")
}

// All ways in lead to the same sheet: a file that is picked, the same one dropped or pasted, and the same figures typed.
func TestWaysLeadToTheSameSheet(t *testing.T) {
	ways := []struct {
		name string
		open func(p *Page, name string, data []byte)
	}{
		{"picked", func(p *Page, name string, _ []byte) { openFile(p, filepath.Join(testdata, "delimited", name)) }},
		{"dropped", func(p *Page, name string, data []byte) { p.Drop("#app", name, "text/csv", data) }},
		{"pasted", func(p *Page, _ string, data []byte) { pasteRecord(p, string(data)) }},
		{"typed", func(p *Page, name string, _ []byte) { typeCase(p, caseOf(t, name)); p.Click("#finish") }},
	}
	for _, name := range []string{"one-reading.csv", "two-readings-semicolon.csv"} {
		data, err := os.ReadFile(filepath.Join(testdata, "delimited", name))
		if err != nil {
			t.Fatal(err)
		}
		want, summary := "", ""
		for _, way := range ways {
			p := Open(t, Tablet)
			way.open(p, name, data)
			p.WaitFor("#sheet")
			got := figuresOf(t, saveResult(p))
			if want == "" {
				want, summary = got, p.Text("#summary")
			}
			if got != want {
				t.Errorf("%s, %s: got %s\nwant %s", name, way.name, around(got, want), around(want, got))
			}
			if text := p.Text("#summary"); text != summary {
				t.Errorf("%s, %s: got %q, want %q", name, way.name, text, summary)
			}
		}
	}
}

// The three ways in stand side by side on the start page, each with its own control.
func TestStartOffersThreeWays(t *testing.T) {
	p := Open(t, Phone)
	if got := p.Count("#start .entrance"); got != 3 {
		t.Errorf("got %d ways in, want 3", got)
	}
	for _, control := range []string{"#start label[for=file]", "#type", "#example"} {
		p.WaitFor(control)
	}
	if text := p.Text(".motto"); !strings.Contains(text, "Nothing you open leaves this device") {
		t.Errorf("got %q, want it to say that nothing leaves the device", text)
	}
}

package model

import (
	"bytes"
	"encoding/json"
	"maps"
	"strings"
	"unicode"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Print prints the page.
func (m *Model) Print() { m.host.Print() }

// SaveCase saves the machine on the sheet as a case file.
func (m *Model) SaveCase() {
	if o := m.Case(); o != nil {
		m.saveCase(o.Group.Case)
	}
}

// SaveForm saves what is being typed as a case file, as far as it can be read.
func (m *Model) SaveForm() { m.saveCase(m.Form.Case()) }

// SaveAll saves every machine that is open, one case after the other: the way
// out after a fault. What is being typed is in it as far as it can be read.
func (m *Model) SaveAll() {
	var all []record.Case
	for _, o := range m.Opened {
		all = append(all, entryOf(o).cases()...)
	}
	m.saveCases(allCases, append(all, m.beingTyped()...))
}

// allCases is the file in which many cases are saved.
const allCases = "ratchetmark.case.json"

// saveCases saves cases one after the other, one a line.
func (m *Model) saveCases(name string, cases []record.Case) {
	var b bytes.Buffer
	for _, c := range cases {
		c.Format = record.Format
		data, err := json.Marshal(c)
		if err != nil {
			continue
		}
		b.Write(data)
		b.WriteByte('\n')
	}
	m.host.Save(name, "application/json", b.Bytes())
}

func (m *Model) saveCase(c record.Case) {
	c.Format = record.Format
	data, err := json.MarshalIndent(c, "", " ")
	if err != nil {
		m.Notices = append(m.Notices, Notice{Title: "The case could not be saved", Lines: []string{err.Error()}})
		return
	}
	m.host.Save(fileName(c.Machine.ID)+".case.json", "application/json", append(data, '\n'))
}

// SaveResult saves the dossier as data, as the command prints it.
func (m *Model) SaveResult() {
	o := m.Case()
	if o == nil {
		return
	}
	var b bytes.Buffer
	if err := dossier.WriteJSON(&b, &o.Dossier); err != nil {
		m.Notices = append(m.Notices, Notice{Title: "The result could not be saved", Lines: []string{err.Error()}})
		return
	}
	m.host.Save(fileName(o.Group.Case.Machine.ID)+".result.json", "application/json", b.Bytes())
}

// SaveTemplate saves the form for delimited text.
func (m *Model) SaveTemplate() {
	m.host.Template(func(data []byte, err error) {
		if err != nil {
			m.Notices = append(m.Notices, Notice{Title: "The template could not be fetched", Lines: []string{err.Error()}})
			return
		}
		m.host.Save("ratchetmark-template.csv", "text/csv", data)
	})
}

// fileName makes a machine's name fit for a file.
func fileName(id string) string {
	name := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) || r == '-' || r == '_' {
			return r
		}
		return '-'
	}, id)
	if name = strings.Trim(name, "-"); name == "" {
		return "machine"
	}
	return name
}

// Refused is a value that was typed for an assumption and cannot be used.
type Refused struct{ Part, Text, Why string }

// Assume sets an assumption for the case on the sheet. Which of the three
// values is set is told by part: "low", "value" or "high". What cannot be used
// is kept as typed, with the reason, and the value in use stays.
func (m *Model) Assume(id assume.ID, part, text string) {
	o := m.Case()
	if o == nil {
		return
	}
	set, _ := capacity.Assumptions(&o.Group.Case)
	row := set.Get(id)
	own := record.Assumed{Low: row.Low, Value: row.Value, High: row.High}
	if o.Refused == nil {
		o.Refused = map[assume.ID]Refused{}
	}
	var f Form
	x := number[float64](&f, record.Path("assumptions").At(id), text)
	if x == nil {
		why := "a number is expected"
		if len(f.Problems) > 0 {
			why = f.Problems[0].Message
		}
		o.Refused[id] = Refused{part, text, why}
		return
	}
	own = row.With(own, part, *x)
	if fault := row.Fault(own); fault != "" {
		o.Refused[id] = Refused{part, text, fault + "; expected " + row.Expected()}
		return
	}
	delete(o.Refused, id)
	o.assume(id, own)
	m.keepCase(o)
}

// Usual puts the usual value of an assumption back.
func (m *Model) Usual(id assume.ID) {
	if o := m.Case(); o != nil {
		own := maps.Clone(o.Group.Case.Assumptions)
		delete(own, string(id))
		o.Group.Case.Assumptions = own
		delete(o.Refused, id)
		o.Changed = !o.Typed
		o.assess()
		m.keepCase(o)
	}
}

// assume sets an assumption and makes the dossier anew.
func (o *Opened) assume(id assume.ID, own record.Assumed) {
	c := &o.Group.Case
	all := map[string]record.Assumed{}
	for k, v := range c.Assumptions {
		all[k] = v
	}
	all[string(id)] = own
	c.Assumptions = all
	o.Changed = !o.Typed
	o.assess()
}

package model

import (
	"bytes"
	"encoding/json"
	"strings"
	"unicode"

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

// Package model is the state of the app and what a person can do to it, without
// a word about how it is shown. Components of package app are views of a
// [Model]; all they call are its methods.
package model

import (
	"errors"
	"fmt"
	"runtime/debug"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Page is what the app shows.
type Page int

// The pages.
const (
	Start Page = iota
	Typing
	Sheet
	Pointed  // where a person points out what a file leaves open
	CardPage // what a transport crew reads at the truck
)

// Model is the state of the app.
type Model struct {
	Page    Page
	Opened  []*Opened // the machines on the sheet
	Current int       // index of the one that is shown
	Form    Form
	Pasting string // text in the paste box
	Pounds  bool   // loads on the ruler in lb
	Notices []Notice
	Busy    *Busy
	Crash   string // what went wrong within the program; empty while nothing has

	Recent   []*Kept   // what is kept on the device, newest first; empty until it is read
	Search   string    // text in the search box of the list
	Pointing *Pointing // the file in which something is pointed out; nil without one

	Asking string // key of the entry whose deletion is asked about

	guides    []batch.Guide // kept on the device
	unsettled []Unsettled   // files in which something is still to be pointed out
	host      Host
	unfolded  map[string]bool
	spoken    string // of what was just done, for a screen reader
	keeping
}

// Opened is one machine on the sheet.
type Opened struct {
	Group   batch.Grouped
	Dossier dossier.Dossier
	Changed bool // by hand, since it was read
	Typed   bool // entered by hand from the beginning
	Asked   bool // something beside the record was asked on the sheet

	key     string   // of its entry on the device; empty until it is kept
	typedAs finished // what was done to the form that it came from
	draft   *Form    // the form that corrects it, as it is being typed; nil without one
	stale   bool     // its entry was changed in another tab

	others cause.Habits // what the other machines of the sheet show of hauliers

	typed   map[string]TypedText // into the fields of the sheet, by their ids
	history *history             // of what was set there
}

// Notice is something to tell the person, above what is on the page.
type Notice struct {
	Title string
	Lines []string
}

// Busy is long work under way.
type Busy struct {
	Progress
	Long   bool // it has gone on long enough to be told about
	cancel func()
}

// Percent returns how much of the work is done, in percent.
func (b *Busy) Percent() int {
	if b.Total <= 0 {
		return 0
	}
	return int(100 * b.Done / b.Total)
}

// New returns the model of an app that has just started.
func New(host Host) *Model {
	m := &Model{host: host}
	m.Form = EmptyForm()
	m.recall()
	m.recallGuides()
	return m
}

// Do runs an action. A panic within it is caught and shown, and what the
// person entered stays and can be saved.
func (m *Model) Do(action func()) {
	defer m.Catch()
	action()
}

// Catch is to be deferred where the page calls back outside of an action: it
// does for a panic what [Model.Do] does.
func (m *Model) Catch() {
	if trouble := recover(); trouble != nil {
		m.Fail(trouble)
	}
}

// Fail notes a fault of the program itself.
func (m *Model) Fail(trouble any) {
	if m.Crash == "" {
		m.host.Redraw()
	}
	m.Crash = fmt.Sprintf("%v\n\n%s", trouble, debug.Stack())
	m.Busy = nil
}

// ForgetCrash goes on after a fault.
func (m *Model) ForgetCrash() { m.Crash = "" }

// Case returns the machine that is shown; nil when there is none.
func (m *Model) Case() *Opened {
	if m.Current < 0 || m.Current >= len(m.Opened) {
		return nil
	}
	return m.Opened[m.Current]
}

// Choose shows another of the opened machines.
func (m *Model) Choose(i int) {
	if i >= 0 && i < len(m.Opened) {
		m.Current = i
	}
}

// GoStart shows the start page; what is open stays open.
func (m *Model) GoStart() { m.Page, m.Notices = Start, nil }

// GoSheet shows the sheet again.
func (m *Model) GoSheet() {
	if len(m.Opened) > 0 {
		m.Page = Sheet
	}
}

// ForgetNotices takes the notices off the page.
func (m *Model) ForgetNotices() { m.Notices = nil }

// Open reads files and puts them on the sheet. What is on it stays, whatever
// comes of the files.
func (m *Model) Open(files []File) {
	if len(files) == 0 || m.Busy != nil {
		return
	}
	m.Notices = nil
	busy := &Busy{Progress: Progress{Name: files[0].Name}}
	m.Busy = busy
	busy.cancel = m.host.Read(files, m.guides,
		func(p Progress) { busy.Progress, busy.Long = p, true },
		func(o Outcome) {
			if m.Busy == busy {
				m.Busy = nil
				m.take(o)
			}
		})
}

// Paste reads the text in the paste box as if it were a file.
func (m *Model) Paste() {
	m.Open([]File{{Name: "pasted text", Size: int64(len(m.Pasting)), Data: []byte(m.Pasting)}})
}

// Example opens the worked example.
func (m *Model) Example() {
	if m.Busy != nil {
		return
	}
	m.Notices = nil
	busy := &Busy{Progress: Progress{Name: "worked example"}}
	m.Busy = busy
	m.host.Example(func(o Outcome) {
		if m.Busy == busy {
			m.Busy = nil
			m.take(o)
		}
	})
}

// Cancel gives up the work under way.
func (m *Model) Cancel() {
	if m.Busy != nil && m.Busy.cancel != nil {
		m.Busy.cancel()
	}
	m.Busy = nil
}

// take puts what was read on the sheet and says what could not be read.
func (m *Model) take(o Outcome) {
	for _, err := range o.Errors {
		m.Notices = append(m.Notices, noticeOf(err))
	}
	m.unsettled = append(m.unsettled, o.Open...)
	defer m.point()
	for _, b := range o.Batches {
		m.bring(b)
	}
	fresh := m.notOpenYet(o.Batches)
	if len(fresh) == 0 {
		return
	}
	var groups []batch.Grouped
	for _, o := range m.Opened {
		groups = append(groups, o.Group)
	}
	first := -1 // machine that the fresh files say something about
	for i, g := range batch.Join(groups, fresh) {
		switch {
		case i >= len(m.Opened):
			m.Opened = append(m.Opened, &Opened{})
		case len(g.Sources) == len(m.Opened[i].Group.Sources):
			continue
		}
		m.Opened[i].regroup(g)
		m.Opened[i].assess()
		m.apart(m.Opened[i])
		m.keepCase(m.Opened[i])
		if first < 0 {
			first = i
		}
	}
	m.meet()
	m.Current = max(first, 0)
	m.Page = Sheet
	m.host.Show("sheet")
}

// notOpenYet leaves out files that are on the sheet already, and says so.
func (m *Model) notOpenYet(batches []batch.Batch) []batch.Batch {
	var fresh []batch.Batch
	for _, b := range batches {
		if len(b.Records) == 0 {
			continue
		}
		if !m.holds(b.SHA256) {
			fresh = append(fresh, b)
			continue
		}
		m.Notices = append(m.Notices, Notice{Title: b.Name + " is open already", Lines: []string{"A file with the same bytes is on the sheet; nothing was changed."}})
		m.Page = Sheet
	}
	return fresh
}

func (m *Model) holds(sha string) bool {
	for _, o := range m.Opened {
		for _, s := range o.Group.Sources {
			if s.SHA256 == sha {
				return true
			}
		}
	}
	return false
}

// regroup takes over what files say. Where that changes what is set on the sheet,
// it cannot be undone any more: undoing would take that away too.
func (o *Opened) regroup(g batch.Grouped) {
	before := o.stands()
	o.Group = g
	if !o.isStill(before) {
		o.history = nil
	}
}

// assess makes the dossier anew.
func (o *Opened) assess() {
	g := o.Group
	if o.Changed {
		g.Findings = append(g.Findings[:len(g.Findings):len(g.Findings)], changedByHand)
	}
	o.Dossier = dossier.Among(&g, o.others)
}

var changedByHand = record.Finding{
	Code: "changed-by-hand", Severity: record.Note, Where: "the whole record",
	Message: "readings, rules, assumptions or how it rides were changed by hand after the file was read", Expected: "the file as it was read, with the usual rules and assumptions",
	Effect: "the file named below does not give this result; the saved case does", Hint: "save the case and hand that over",
}

// noticeOf tells why a file was refused.
func noticeOf(err error) Notice {
	var r *record.Refusal
	if !errors.As(err, &r) {
		return Notice{Title: "The file could not be read", Lines: []string{err.Error()}}
	}
	lines := []string{"Found at " + r.Place() + ": " + r.Found + ".", "Expected: " + r.Expected + "."}
	if r.Hint != "" {
		lines = append(lines, "What to do: "+r.Hint+".")
	}
	return Notice{Title: r.File + " could not be read", Lines: lines}
}

// SwitchUnit shows loads on the ruler in the other unit.
func (m *Model) SwitchUnit() { m.Pounds = !m.Pounds }

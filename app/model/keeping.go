package model

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strconv"
	"time"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// CaseShelf is the shelf of the device on which machines are kept.
const CaseShelf = "cases"

// Kept is an entry of the list: what is shown of it, and what is searched.
type Kept struct {
	Key     string      `json:"-"`
	Name    string      `json:"name,omitempty"`
	Kind    record.Kind `json:"kind,omitempty"`
	State   string      `json:"state"`
	Note    string      `json:"note,omitempty"`
	Who     []string    `json:"who,omitempty"` // in custody
	Changed time.Time   `json:"changed"`       // last, with the zone it was changed in
	Draft   bool        `json:"draft,omitempty"`
	Files   []string    `json:"files,omitempty"` // SHA-256 of each; none when more than the files is in it

	form *Form  // of a draft, once it was opened in this page
	gone string // the body, once the entry was deleted
}

// entry is all that is kept of one machine.
type entry struct {
	Case     record.Case          `json:"case"` // of a draft: what the form does not show
	Findings []record.Finding     `json:"findings,omitempty"`
	Paths    []record.Path        `json:"paths,omitempty"` // of the findings, which their JSON leaves out
	Origins  record.Origins       `json:"origins,omitempty"`
	Sources  []batch.Source       `json:"sources,omitempty"`
	Typed    bool                 `json:"typed,omitempty"`
	Changed  bool                 `json:"changed,omitempty"`
	Asked    bool                 `json:"asked,omitempty"`
	Unread   map[string]TypedText `json:"unread,omitempty"` // into the fields of the sheet
	Draft    bool                 `json:"draft,omitempty"`  // a new machine that is still being typed
	Form     *Form                `json:"form,omitempty"`   // as it is being typed
}

// keeping is what the model knows of what it keeps.
type keeping struct {
	typing  string    // key of the new machine in the form; empty before its first change
	last    time.Time // of all changes
	changes int       // how often this page has changed what is kept
	said    []string  // refusals of the device that were told about
}

// keepCase keeps a machine of the sheet. It is to be called after every change.
func (m *Model) keepCase(o *Opened) {
	h := headOf(o)
	if o.key == "" || o.stale {
		o.key, o.stale = m.keyFor(h), false
	}
	h.Key = o.key
	m.put(h, entryOf(o))
}

// headOf sums a machine of the sheet up.
func headOf(o *Opened) *Kept {
	c := &o.Group.Case
	h := &Kept{Name: c.Machine.ID, Kind: c.Machine.Kind, State: o.State(), Note: c.Note, Who: who(c)}
	switch {
	case o.draft != nil:
		h.State += ", being corrected"
	case !o.Typed && !o.Changed && !o.Asked && unread(o.typed) == nil:
		for _, s := range o.Group.Sources {
			h.Files = append(h.Files, s.SHA256)
		}
	}
	return h
}

func entryOf(o *Opened) *entry {
	g := &o.Group
	e := &entry{Case: g.Case, Findings: g.Findings, Origins: g.Origins, Sources: g.Sources, Typed: o.Typed, Changed: o.Changed, Asked: o.Asked, Unread: unread(o.typed), Form: o.draft}
	for _, f := range g.Findings {
		e.Paths = append(e.Paths, f.Path)
	}
	return e
}

// opened makes a machine of the sheet of an entry: the same dossier again.
func (e *entry) opened(key string) *Opened {
	o := &Opened{Typed: e.Typed, Changed: e.Changed, Asked: e.Asked, typed: e.Unread, key: key}
	o.Group = batch.Grouped{Record: batch.Record{Case: e.Case, Findings: e.Findings, Origins: e.Origins}, Sources: e.Sources}
	if o.Group.Origins == nil {
		o.Group.Origins = record.Origins{}
	}
	for i, path := range e.Paths[:min(len(e.Paths), len(e.Findings))] {
		e.Findings[i].Path = path
	}
	if o.draft = e.Form; o.draft != nil {
		o.draft.base, o.draft.editing = e.Case, o
	}
	o.assess()
	return o
}

// beingTyped returns the new machines that are being typed in this page, the
// one in the form last.
func (m *Model) beingTyped() (out []record.Case) {
	for i := len(m.Recent) - 1; i >= 0; i-- {
		if k := m.Recent[i]; k.form != nil && (k.Key != m.typing || m.Form.editing != nil) {
			f := *k.form
			out = append(out, f.Case())
		}
	}
	if f := m.Form; f.editing == nil && !f.Blank() {
		out = append(out, f.Case())
	}
	return out
}

// form returns the form of an entry that is being typed.
func (e *entry) form() Form {
	f := EmptyForm()
	if e.Form != nil && len(e.Form.Readings) > 0 {
		f = *e.Form
	}
	f.base = e.Case
	return f
}

// cases returns what an entry gives when it is saved: the machine, and what is
// being typed of it as far as it can be read.
func (e *entry) cases() []record.Case {
	var out []record.Case
	if !e.Draft {
		out = append(out, e.Case)
	}
	if e.Form != nil {
		f := e.form()
		out = append(out, f.Case())
	}
	return out
}

// keepForm keeps the form that is shown: with its machine if it corrects one,
// else as an entry of its own.
func (m *Model) keepForm() {
	f := m.Form
	if o := f.editing; o != nil {
		o.draft = &f
		m.keepCase(o)
		return
	}
	if f.Blank() {
		m.endDraft()
		return
	}
	if m.typing == "" {
		m.typing = newKey()
	}
	m.keepDraft(m.typing, f)
}

// keepDraft keeps a new machine that is being typed.
func (m *Model) keepDraft(key string, f Form) {
	kept := f
	c := f.Case() // f is a copy: the problems of the form that is shown stay as they are
	h := &Kept{Key: key, Name: f.ID, Kind: c.Machine.Kind, State: "being typed", Note: c.Note, Who: who(&c), Draft: true, form: &kept}
	m.put(h, &entry{Case: f.base, Form: &f, Draft: true})
}

// endDraft forgets the new machine in the form: nothing of it is left.
func (m *Model) endDraft() {
	if m.typing == "" {
		return
	}
	key := m.typing
	m.typing = ""
	m.strike(key)
	m.changes++
	m.host.Forget(CaseShelf, key, m.refused)
}

// put writes an entry, at the head of the list.
func (m *Model) put(h *Kept, e *entry) {
	h.Changed = m.stamp()
	body, err := json.Marshal(e)
	if err != nil {
		m.refused(err)
		return
	}
	m.strike(h.Key)
	m.Recent = append([]*Kept{h}, m.Recent...)
	m.write(h, string(body))
}

// write hands an entry to the device.
func (m *Model) write(h *Kept, body string) {
	head, err := json.Marshal(h)
	if err != nil {
		m.refused(err)
		return
	}
	m.changes++
	m.host.Keep(CaseShelf, h.Key, string(head), body, m.refused)
}

// strike takes an entry off the list.
func (m *Model) strike(key string) {
	if i := m.index(key); i >= 0 {
		m.Recent = append(m.Recent[:i:i], m.Recent[i+1:]...)
	}
}

// stamp returns the time, and never the same twice: it orders the list.
func (m *Model) stamp() time.Time {
	now := m.host.Now()
	if !now.After(m.last) {
		now = m.last.Add(1)
	}
	m.last = now
	return now
}

// newKey makes the key of a new entry. It is not made of the machine's name:
// two machines may share one.
func newKey() string { return strconv.FormatUint(rand.Uint64(), 36) }

// keyFor returns the key for a machine that is not kept yet. The same files
// opened on another day lead to the entry they led to before, as long as
// nothing but the files is in it.
func (m *Model) keyFor(h *Kept) string {
	for _, k := range m.Recent {
		if len(h.Files) > 0 && !k.Gone() && k.Name == h.Name && slices.Equal(k.Files, h.Files) && m.openedAs(k.Key) == nil {
			return k.Key
		}
	}
	return newKey()
}

// openedAs returns the machine of the sheet with a key; nil without one.
func (m *Model) openedAs(key string) *Opened {
	for _, o := range m.Opened {
		if o.key == key {
			return o
		}
	}
	return nil
}

// who lists in whose custody a machine was, each once.
func who(c *record.Case) (names []string) {
	for _, k := range c.Custody {
		if k.Who != "" && !slices.Contains(names, k.Who) {
			names = append(names, k.Who)
		}
	}
	return names
}

// apart gives the correction of a machine an entry of its own, once the machine
// is no longer the one that is being corrected.
func (m *Model) apart(o *Opened) {
	if o.draft == nil {
		return
	}
	f := *o.draft
	f.editing, o.draft = nil, nil
	if m.Form.editing == o {
		m.resume()
	}
	m.keepDraft(newKey(), f)
	m.Notices = append(m.Notices, Notice{Title: "What you were correcting of " + dossier.Name(&o.Dossier) + " is kept apart",
		Lines: []string{"A further file changed the machine meanwhile. Your correction is on the start page, as a machine that is being typed."}})
}

// fault is what is said when the device does not keep things.
type fault struct{ name, title, line string }

// faults are the refusals that are told apart, by the name of the error; the
// last row is for all others.
var faults = []fault{
	{"Missing", "This browser keeps nothing for the app", "It has no IndexedDB."},
	{"QuotaExceededError", "There is no room left on this device", "Delete kept cases that are no longer needed, or make room on the device."},
	{"VersionError", "A newer version of the app keeps the cases on this device", "Load the page again to get that version."},
	{"Blocked", "Another tab holds back what is kept on this device", "Close the other tabs with this app, then load the page again."},
	{"Superseded", "This tab keeps nothing any more", "A newer version of the app was opened in another tab. Load the page again to go on with it."},
	{"", "The browser refuses to keep anything on this device", "It does so in a private window, or where storage is turned off."},
}

// refused tells, once for each kind of refusal, that things are not kept.
func (m *Model) refused(err error) {
	name := ""
	if e, ok := err.(*StoreError); ok {
		name = e.Name
	}
	f := faults[len(faults)-1]
	for _, row := range faults {
		if row.name == name {
			f = row
		}
	}
	if slices.Contains(m.said, f.name) {
		return
	}
	m.said = append(m.said, f.name)
	m.Notices = append(m.Notices, Notice{Title: f.title, Lines: []string{
		f.line, "The browser said: " + err.Error() + ".",
		"What is open and typed is not kept when you leave the page. Save it as a file before: that still works.",
	}})
}

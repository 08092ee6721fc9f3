package model

import (
	"encoding/json"
	"strings"
	"time"

	"ratchetmark/internal/record"
)

// Gone reports whether the entry was deleted since the page was loaded.
func (k *Kept) Gone() bool { return k.gone != "" }

// leftDraft is where earlier versions of the app kept what was being typed, and
// the key under which it is taken over.
const leftDraft = "ratchetmark.typing"

// recall begins to read what the device keeps. The page does not wait for it.
func (m *Model) recall() {
	if text := m.host.Left(leftDraft); text != "" {
		var f Form
		if json.Unmarshal([]byte(text), &f) == nil && len(f.Readings) > 0 && !f.Blank() {
			m.keepDraft(leftDraft, f)
		} else {
			m.host.DropLeft(leftDraft)
		}
	}
	m.host.Watch(m.list, m.refused)
	m.list()
}

// list reads the list anew. Two pages of the app may be open, and the last one
// to write an entry wins; so that none does unawares, the list is read again
// whenever a page comes back into view or another one writes, and a machine
// that was changed elsewhere is marked: see [Model.compare].
func (m *Model) list() {
	asked := m.changes
	m.host.Kept(CaseShelf, func(heads []KeptHead, err error) {
		switch {
		case err != nil:
			m.refused(err)
		case asked != m.changes:
			m.list() // the answer is older than what this page has written since
		default:
			m.listed(heads)
		}
	})
}

// listed takes the list over.
func (m *Model) listed(heads []KeptHead) {
	before := m.Recent
	m.Recent = nil
	for _, kept := range heads {
		k := &Kept{State: "cannot be read by this version"}
		if json.Unmarshal([]byte(kept.Head), k) != nil {
			k.Name = kept.Key
		}
		k.Key = kept.Key
		m.insert(k)
		if k.Key == leftDraft {
			m.host.DropLeft(leftDraft) // it is on the shelf now
		}
	}
	for _, was := range before {
		if k := m.row(was.Key); k != nil {
			m.compare(was, k)
		} else if was.Gone() || was.form != nil { // this page alone still has it
			m.insert(was)
		}
	}
}

// insert puts an entry into the list, which is short: before the older ones.
func (m *Model) insert(k *Kept) {
	m.Recent = append(m.Recent, k)
	for i := len(m.Recent) - 1; i > 0 && m.Recent[i-1].Changed.Before(k.Changed); i-- {
		m.Recent[i-1], m.Recent[i] = k, m.Recent[i-1]
	}
}

// compare marks what another page has changed since this one wrote or read it:
// a further change made here goes to an entry of its own.
func (m *Model) compare(was, k *Kept) {
	if !k.Changed.After(was.Changed) {
		k.form = was.form
		return
	}
	switch o := m.openedAs(k.Key); {
	case o != nil:
		o.stale = true
	case was.form != nil && k.Key == m.typing:
		m.typing = ""
	default:
		return // it is fetched when it is opened
	}
	m.Notices = append(m.Notices, Notice{Title: k.Title() + " was changed in another tab", Lines: []string{
		"What this tab shows of it is older. Open it from the list on the start page to see the newer one.",
		"A change made here is kept as an entry of its own.",
	}})
}

// Found returns the entries that the search finds, newest first: all of them
// while nothing is searched for. Every word must stand somewhere in an entry.
func (m *Model) Found() (found []*Kept) {
	words := strings.Split(strings.ToLower(m.Search), " ")
	for _, k := range m.Recent {
		text, all := strings.ToLower(k.Title()+"\n"+k.KindWords()+"\n"+k.State+"\n"+k.Note+"\n"+strings.Join(k.Who, "\n")), true
		for _, word := range words {
			all = all && strings.Contains(text, word)
		}
		if all {
			found = append(found, k)
		}
	}
	return found
}

// Title names the machine.
func (h *Kept) Title() string {
	if h.Name == "" {
		return "machine without a name"
	}
	return h.Name
}

// KindWords names the kind of machine.
func (h *Kept) KindWords() string {
	switch h.Kind {
	case record.Boom, record.Scissor, record.Mast:
		return string(h.Kind) + " lift"
	case "":
		return ""
	}
	return "another kind"
}

// When says when an entry was last changed, by the clock of the place where it was.
func (m *Model) When(h *Kept) string {
	now, day := m.host.Now(), h.Changed.Format(time.DateOnly)
	clock := h.Changed.Format("15:04")
	switch day {
	case now.Format(time.DateOnly):
		return "changed today at " + clock
	case now.AddDate(0, 0, -1).Format(time.DateOnly):
		return "changed yesterday at " + clock
	}
	return "changed on " + h.Changed.Format("2 January 2006") + " at " + clock
}

// row returns an entry of the list; nil when it is not in it.
func (m *Model) row(key string) *Kept {
	if i := m.index(key); i >= 0 {
		return m.Recent[i]
	}
	return nil
}

// index returns the place of an entry in the list; -1 when it is not in it.
func (m *Model) index(key string) int {
	for i, k := range m.Recent {
		if k.Key == key {
			return i
		}
	}
	return -1
}

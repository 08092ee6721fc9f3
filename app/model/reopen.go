package model

import (
	"encoding/json"
	"slices"

	"ratchetmark/internal/record"
)

// OpenKept opens a kept entry: on the sheet, or in the form if it is still
// being typed or corrected. What is open already is shown.
func (m *Model) OpenKept(key string) {
	o := m.openedAs(key)
	if o != nil && !o.stale {
		m.show(o)
		return
	}
	if k := m.row(key); k != nil && k.form != nil {
		m.showDraft(k)
		return
	}
	m.fetch(key, func(k *Kept, e *entry) {
		if e == nil {
			return
		}
		if e.Draft {
			f := e.form()
			k.form = &f
			m.showDraft(k)
			return
		}
		if o != nil {
			m.takeOff(key) // the older one
		}
		fresh := e.opened(key)
		m.Opened = append(m.Opened, fresh)
		m.meet()
		m.show(fresh)
		if fresh.draft != nil {
			m.Correct() // what was typed is not to look lost
		}
	})
}

func (m *Model) show(o *Opened) {
	m.Current, m.Page = slices.Index(m.Opened, o), Sheet
	m.host.Show("sheet")
}

func (m *Model) showDraft(k *Kept) {
	m.Form, m.typing, m.Page = *k.form, k.Key, Typing
	m.host.Show("typing")
}

// fetch gets an entry from the device; nil, after it was said, when it cannot be had.
func (m *Model) fetch(key string, finish func(k *Kept, e *entry)) {
	m.host.Fetch(CaseShelf, key, func(body string, err error) {
		e := &entry{}
		if err == nil {
			err = json.Unmarshal([]byte(body), e)
		}
		k := m.row(key)
		if k == nil || err != nil {
			m.cannot("opened", key, err)
			e = nil
		}
		finish(k, e)
	})
}

// cannot says that an entry could not be had, and reads the list again.
func (m *Model) cannot(what, key string, err error) {
	if k := m.row(key); k != nil && err != nil {
		m.Notices = append(m.Notices, Notice{Title: k.Title() + " could not be " + what, Lines: []string{"The reason: " + err.Error() + "."}})
	}
	m.list()
}

// AskDelete asks whether an entry is to be deleted; a second time, it takes the
// question back.
func (m *Model) AskDelete(key string) {
	if m.Asking == key {
		m.Asking = ""
		m.host.Show("delete-" + key)
		return
	}
	m.Asking = key
	m.host.Show("keep-" + key)
}

// Delete removes an entry from the device, and from the sheet or the form if it
// is open. Until the page is left, [Model.Restore] brings it back.
func (m *Model) Delete(key string) {
	m.Asking = ""
	m.host.Fetch(CaseShelf, key, func(body string, err error) {
		if e := m.inMemory(key); e != nil { // it may be newer, where the device refused it
			if data, err := json.Marshal(e); err == nil {
				body = string(data)
			}
		}
		k := m.row(key)
		if k == nil || body == "" {
			m.cannot("deleted", key, err)
			return
		}
		k.gone = body
		m.takeOff(key)
		m.changes++
		m.host.Forget(CaseShelf, key, m.refused)
		m.host.Show("restore-" + key)
	})
}

// Restore puts a deleted entry back on the device.
func (m *Model) Restore(key string) {
	if k := m.row(key); k != nil && k.Gone() {
		m.write(k, k.gone)
		k.gone = ""
		m.host.Show("open-" + key)
	}
}

// inMemory returns an entry that is open in this page; nil if it is not.
func (m *Model) inMemory(key string) *entry {
	if k := m.row(key); k != nil && k.form != nil {
		return &entry{Case: k.form.base, Form: k.form, Draft: true}
	}
	if o := m.openedAs(key); o != nil && !o.stale {
		return entryOf(o)
	}
	return nil
}

// takeOff closes an entry.
func (m *Model) takeOff(key string) {
	if o := m.openedAs(key); o != nil {
		i := slices.Index(m.Opened, o)
		m.Opened = append(m.Opened[:i:i], m.Opened[i+1:]...)
		m.meet()
		if m.Current > i || m.Current == len(m.Opened) {
			m.Current = max(m.Current-1, 0)
		}
		if m.Form.editing == o {
			m.resume()
		}
	}
	if k := m.row(key); k != nil {
		k.form = nil
	}
	if key == m.typing {
		m.typing = ""
		if m.Form.editing == nil {
			m.resume()
		}
	}
}

// SaveKept saves an entry as a case file.
func (m *Model) SaveKept(key string) {
	m.kept(key, func(e *entry) {
		if e == nil {
			return
		}
		if cases := e.cases(); len(cases) == 1 {
			m.saveCase(cases[0])
		} else {
			m.saveCases(fileName(e.Case.Machine.ID)+".case.json", cases)
		}
	})
}

// SaveKeptAll saves all entries as one file, oldest first: opened again, they
// are in the list as they were. One that cannot be had is said, and left out.
func (m *Model) SaveKeptAll() {
	var keys []string
	for i := len(m.Recent) - 1; i >= 0; i-- {
		if k := m.Recent[i]; !k.Gone() {
			keys = append(keys, k.Key)
		}
	}
	var all []record.Case
	var next func()
	next = func() {
		if len(keys) == 0 {
			m.saveCases(allCases, all)
			return
		}
		key := keys[0]
		keys = keys[1:]
		m.kept(key, func(e *entry) {
			if e != nil {
				all = append(all, e.cases()...)
			}
			next()
		})
	}
	next()
}

// kept gets an entry from this page if it is open, else from the device.
func (m *Model) kept(key string, finish func(*entry)) {
	if e := m.inMemory(key); e != nil {
		finish(e)
		return
	}
	m.fetch(key, func(_ *Kept, e *entry) { finish(e) })
}

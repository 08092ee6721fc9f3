package model

import (
	"time"

	"ratchetmark/internal/batch"
)

// Host is what the app needs of the device it runs on. Everything that leaves
// the model goes through it; nothing of it leaves the device.
//
// The functions handed to it are called with the page locked for changes; the
// host redraws the page afterwards.
type Host interface {
	// Read reads files that the person picked, dropped or pasted, tables by the
	// guides that fit them. It returns a function that gives up the reading.
	Read(files []File, guides []batch.Guide, progress func(Progress), finish func(Outcome)) (cancel func())
	// Example fetches the worked example, which is part of the app.
	Example(finish func(Outcome))
	// Template fetches the form for delimited text, which is part of the app.
	Template(finish func(data []byte, err error))
	// Save offers data to the person as a file.
	Save(name, mediaType string, data []byte)
	// Print prints the page.
	Print()
	// Keep keeps an entry on a shelf of the device, in place of the one with
	// the same key. It is on its way when Keep returns: a page that ends right
	// after has lost nothing. The head is what a list needs, the body the rest.
	// failed is called, later, only if the device refuses; see [StoreError].
	Keep(shelf, key, head, body string, failed func(error))
	// Kept lists the heads of a shelf, what was handed to Keep before included.
	Kept(shelf string, finish func(heads []KeptHead, err error))
	// Fetch returns the body of an entry, or why it cannot be had.
	Fetch(shelf, key string, finish func(body string, err error))
	// Forget removes an entry from the device.
	Forget(shelf, key string, failed func(error))
	// Watch calls again whenever another page of the app may have changed what
	// is kept, and failed when the device stops keeping anything.
	Watch(again func(), failed func(error))
	// Left returns a text that earlier versions of the app kept under a key,
	// or an empty one; DropLeft removes it.
	Left(key string) string
	DropLeft(key string)
	// Now returns the time, in the time zone of the device.
	Now() time.Time
	// Redraw draws the page again, soon.
	Redraw()
	// Show brings the element with this id into view and gives it the focus.
	Show(id string)
}

// File is a file that a person picked. Handle is the host's own.
type File struct {
	Name   string
	Size   int64
	Data   []byte // of a pasted text; nil when the host reads the handle
	Handle any
}

// Progress tells how far long work is.
type Progress struct {
	Name        string
	Done, Total int64
}

// Outcome is what came of reading files.
type Outcome struct {
	Batches []batch.Batch
	Open    []Unsettled // what has to be pointed out first
	Errors  []error
}

// KeptHead is the head of an entry on a shelf.
type KeptHead struct{ Key, Head string }

// StoreError says why the device keeps nothing. Name is a DOMException's (Web
// IDL, IndexedDB 3.0; from memory), or one of the host's own: "Missing",
// "Blocked", "Superseded".
type StoreError struct{ Name, Text string }

// Error gives the browser's own words.
func (e *StoreError) Error() string {
	if e.Text == "" {
		return e.Name
	}
	return e.Text
}

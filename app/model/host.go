package model

import "ratchetmark/internal/intake"

// Host is what the app needs of the device it runs on. Everything that leaves
// the model goes through it; nothing of it leaves the device.
//
// The functions handed to it are called with the page locked for changes; the
// host redraws the page afterwards.
type Host interface {
	// Read reads files that the person picked, dropped or pasted. It returns a
	// function that gives up the reading.
	Read(files []File, progress func(Progress), finish func(Outcome)) (cancel func())
	// Example fetches the worked example, which is part of the app.
	Example(finish func(Outcome))
	// Template fetches the form for delimited text, which is part of the app.
	Template(finish func(data []byte, err error))
	// Save offers data to the person as a file.
	Save(name, mediaType string, data []byte)
	// Print prints the page.
	Print()
	// Keep keeps a text on the device under a key; an empty text forgets it.
	Keep(key, text string) error
	// Kept returns a text kept on the device, or an empty one.
	Kept(key string) string
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
	Batches []intake.Batch
	Errors  []error
}

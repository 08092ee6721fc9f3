package model

import (
	"bytes"
	"maps"
	"slices"
	"time"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/digest"
	"ratchetmark/internal/intake"
)

// kept is an entry on a shelf.
type kept struct{ head, body string }

// device is a host that keeps everything in memory and does it at once.
type device struct {
	*shelves
	now    time.Time
	saved  map[string]string
	shown  []string
	prints int
	refuse error // what keeping, reading and forgetting are answered with
	lists  int   // how often the list was read
	late   bool  // lists are answered by answer
	answer []func()
	again  func()
	failed func(error)
	hold   bool // reading does not end by itself
	finish func(Outcome)
	halted bool
}

// shelves are what stays on a device when the page is gone.
type shelves struct {
	cases  map[string]kept
	guides map[string]kept
	left   map[string]string
	puts   int
	pages  int
}

func newDevice() *device {
	return (&device{shelves: &shelves{cases: map[string]kept{}, guides: map[string]kept{}, left: map[string]string{}}}).page()
}

// page is another page of the app on the same device, a minute later.
func (d *device) page() *device {
	d.pages++
	return &device{shelves: d.shelves, now: time.Date(2026, 3, 2, 8, 9+d.pages, 0, 0, time.FixedZone("", 3600)), saved: map[string]string{}}
}

func (d *device) Read(files []File, guides []batch.Guide, progress func(Progress), finish func(Outcome)) func() {
	d.finish = finish
	for _, f := range files {
		progress(Progress{Name: f.Name, Done: f.Size / 2, Total: f.Size})
	}
	if !d.hold {
		finish(read(files, guides...))
	}
	return func() { d.halted = true }
}

func read(files []File, guides ...batch.Guide) (out Outcome) {
	for _, f := range files {
		b, err := digest.Read(f.Name, bytes.NewReader(f.Data), intake.GuidesOf(guides...), nil)
		out.Add(f, b, err)
	}
	return out
}

func (d *device) Example(finish func(Outcome)) { finish(read([]File{lashed()})) }

func (d *device) Template(finish func([]byte, error)) { finish([]byte("machine\n"), nil) }

func (d *device) Save(name, _ string, data []byte) { d.saved[name] = string(data) }

func (d *device) Redraw() {}

func (d *device) Print() { d.prints++ }

func (d *device) Keep(shelf, key, head, body string, failed func(error)) {
	if d.refuse != nil {
		failed(d.refuse)
		return
	}
	switch shelf {
	case CaseShelf:
	case GuideShelf:
		d.guides[key] = kept{head, body}
		return
	default:
		panic("got shelf " + shelf)
	}
	d.puts++
	d.cases[key] = kept{head, body}
}

func (d *device) Kept(shelf string, finish func([]KeptHead, error)) {
	if shelf == GuideShelf {
		var heads []KeptHead
		for key, g := range d.guides {
			heads = append(heads, KeptHead{key, g.head})
		}
		finish(heads, d.refuse)
		return
	}
	d.lists++
	if d.refuse != nil {
		finish(nil, d.refuse)
		return
	}
	var heads []KeptHead
	for _, key := range slices.Sorted(maps.Keys(d.cases)) {
		heads = append(heads, KeptHead{key, d.cases[key].head})
	}
	if d.late {
		d.answer = append(d.answer, func() { finish(heads, nil) })
		return
	}
	finish(heads, nil)
}

func (d *device) Fetch(_, key string, finish func(string, error)) {
	e, ok := d.cases[key]
	switch {
	case d.refuse != nil:
		finish("", d.refuse)
	case !ok:
		finish("", &StoreError{"NotKept", "it is not on this device any more"})
	default:
		finish(e.body, nil)
	}
}

func (d *device) Forget(_, key string, failed func(error)) {
	if d.refuse != nil {
		failed(d.refuse)
		return
	}
	delete(d.cases, key)
}

func (d *device) Watch(again func(), failed func(error)) { d.again, d.failed = again, failed }

func (d *device) Left(key string) string { return d.left[key] }

func (d *device) DropLeft(key string) { delete(d.left, key) }

func (d *device) Now() time.Time { return d.now }

func (d *device) Show(id string) { d.shown = append(d.shown, id) }

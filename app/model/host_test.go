package model

import (
	"errors"

	"ratchetmark/internal/digest"
)

// device is a host that keeps everything in memory and does it at once.
type device struct {
	kept   map[string]string
	saved  map[string]string
	shown  []string
	prints int
	full   bool // refuses to keep anything
	hold   bool // reading does not end by itself
	finish func(Outcome)
	halted bool
}

func newDevice() *device { return &device{kept: map[string]string{}, saved: map[string]string{}} }

func (d *device) Read(files []File, progress func(Progress), finish func(Outcome)) func() {
	d.finish = finish
	for _, f := range files {
		progress(Progress{Name: f.Name, Done: f.Size / 2, Total: f.Size})
	}
	if !d.hold {
		finish(read(files))
	}
	return func() { d.halted = true }
}

func read(files []File) (out Outcome) {
	for _, f := range files {
		batch, err := digest.ReadBytes(f.Name, f.Data)
		if err != nil {
			out.Errors = append(out.Errors, err)
			continue
		}
		out.Batches = append(out.Batches, batch)
	}
	return out
}

func (d *device) Example(finish func(Outcome)) { finish(read([]File{lashed()})) }

func (d *device) Template(finish func([]byte, error)) { finish([]byte("machine\n"), nil) }

func (d *device) Save(name, _ string, data []byte) { d.saved[name] = string(data) }

func (d *device) Redraw() {}

func (d *device) Print() { d.prints++ }

func (d *device) Keep(key, text string) error {
	if d.full {
		return errors.New("the quota has been exceeded")
	}
	d.kept[key] = text
	return nil
}

func (d *device) Kept(key string) string { return d.kept[key] }

func (d *device) Show(id string) { d.shown = append(d.shown, id) }

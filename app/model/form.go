package model

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// Form is a case as a person types it: every field as it was typed, so that
// nothing typed is lost because it cannot be read yet.
type Form struct {
	Entries
	Problems []Problem `json:"-"`

	base    record.Case // what the form does not show
	editing *Opened     // the machine the form was filled from; nil for a new one
	history *history
	folds   folds
}

// Entries is all that is typed into a form.
type Entries struct {
	Plate
	Readings []FormReading
	Custody  []FormLine `json:",omitempty"`
	Events   []FormLine `json:",omitempty"`
	Daily    []FormLine `json:",omitempty"`
	Checks   []FormLine `json:",omitempty"`
	TieDowns []FormLine `json:",omitempty"`
}

// Plate is what is typed of the machine itself.
type Plate struct{ ID, Kind, Rated, Persons, Sensing, InService string }

// FormReading is one reading as it is typed.
type FormReading struct {
	Counters
	Bands  []FormBand
	Folded bool `json:",omitempty"` // the edges of the bands are not shown: they are known

	fold fold
}

// Counters is what is typed of a reading, but for its bands.
type Counters struct{ At, Powered, Moving, Peak, PeakAt string }

// FormBand is one band as it is typed. A blank upper edge is the open band.
type FormBand struct{ From, To, Hours string }

// Problem is a field that cannot be read yet.
type Problem struct {
	Path    record.Path
	Message string
}

// EmptyForm returns a form with one reading and a usual set of empty bands.
func EmptyForm() Form {
	return Form{Entries: Entries{
		Plate:    Plate{Kind: string(record.Boom)},
		Readings: []FormReading{{Bands: []FormBand{{From: "0"}, {}, {}, {}}}},
	}}
}

// Blank reports whether nothing has been typed into the form.
func (f *Form) Blank() bool {
	return f.text() == EmptyForm().text()
}

// text writes the form so that it can be kept on the device.
func (f Form) text() string {
	f.Problems = nil
	data, err := json.Marshal(f)
	if err != nil {
		return ""
	}
	return string(data)
}

// FormOf returns a form filled with a case.
func FormOf(c record.Case) Form {
	f := Form{base: c}
	f.Plate = Plate{
		ID: c.Machine.ID, Kind: string(c.Machine.Kind), Rated: numberText(c.Machine.RatedLoad),
		Sensing: numberText(c.Machine.LoadSensing),
	}
	if p := c.Machine.Persons; p != nil {
		f.Persons = strconv.Itoa(*p)
	}
	if d := c.Machine.InService; d != nil {
		f.InService = d.String()
	}
	for _, r := range c.Readings {
		f.Readings = append(f.Readings, formReading(r))
	}
	if len(f.Readings) == 0 {
		f.Readings = EmptyForm().Readings
	}
	f.fillContext(c)
	return f
}

// timeText writes a time as a date and time field shows it.
func timeText(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	if t.UTC().Second() != 0 || t.Nanosecond() != 0 {
		return t.UTC().Format("2006-01-02T15:04:05.999999999")
	}
	return t.UTC().Format("2006-01-02T15:04")
}

func formReading(r record.Reading) FormReading {
	out := FormReading{Folded: len(r.Bands) > 0}
	out.Counters = Counters{At: timeText(r.At), Powered: numberText(r.Powered), Moving: numberText(r.Moving), Peak: numberText(r.Peak)}
	if r.PeakAt != nil {
		out.PeakAt = timeText(*r.PeakAt)
	}
	for _, b := range r.Bands {
		out.Bands = append(out.Bands, FormBand{numberText(&b.From), numberText(b.To), numberText(&b.Hours)})
	}
	return out
}

func numberText[T ~float64](x *T) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(float64(*x), 'f', -1, 64)
}

// Case reads the form. Fields that cannot be read are in Problems.
func (f *Form) Case() record.Case {
	f.Problems = nil
	c := f.base
	c.Format = record.Format
	m := &c.Machine
	m.ID, m.Kind = strings.TrimSpace(f.ID), record.Kind(f.Kind)
	m.RatedLoad = number[record.Kilogram](f, "machine/rated_load_kg", f.Rated)
	m.LoadSensing = number[record.Kilogram](f, "machine/load_sensing_kg", f.Sensing)
	m.Persons = f.whole("machine/persons", f.Persons)
	m.InService = f.date("machine/in_service", f.InService)
	c.Readings = nil
	for i, r := range f.Readings {
		c.Readings = append(c.Readings, f.reading(record.Path("readings").At(i+1), r))
	}
	f.readContext(&c)
	f.require(c)
	return c
}

// require points out what a sheet cannot be made without.
func (f *Form) require(c record.Case) {
	if strings.TrimSpace(f.Rated) == "" {
		f.problem("machine/rated_load_kg", "the rated load is needed; it is on the plate")
	}
	for i, r := range c.Readings {
		at := record.Path("readings").At(i + 1)
		if len(r.Bands) == 0 && r.Peak == nil && f.Problem(at.At("peak_kg")) == "" {
			f.problem(at.At("peak_kg"), "hours per band or a peak are needed")
		}
	}
}

func (f *Form) reading(at record.Path, r FormReading) record.Reading {
	out := record.Reading{
		Powered: number[record.Hour](f, at.At("powered_h"), r.Powered),
		Moving:  number[record.Hour](f, at.At("moving_h"), r.Moving),
		Peak:    number[record.Kilogram](f, at.At("peak_kg"), r.Peak),
	}
	if t, ok := f.time(at.At("at"), r.At); ok {
		out.At = t
	}
	if t, ok := f.time(at.At("peak_at"), r.PeakAt); ok {
		out.PeakAt = &t
	}
	for j, b := range r.Bands {
		if b == (FormBand{}) {
			continue // a row that was not used
		}
		if band, ok := b.read(); ok {
			out.Bands = append(out.Bands, band)
			continue
		}
		here := at.At("bands").At(j + 1)
		from := number[record.Kilogram](f, here.At("from_kg"), b.From)
		hours := number[record.Hour](f, here.At("hours"), b.Hours)
		if from == nil && strings.TrimSpace(b.From) == "" {
			f.problem(here.At("from_kg"), "a lower edge is missing")
		}
		if hours == nil && strings.TrimSpace(b.Hours) == "" && !r.onlyEdges() {
			f.problem(here.At("hours"), "the hours are missing; write 0 for none")
		}
		to := number[record.Kilogram](f, here.At("to_kg"), b.To)
		if from != nil && hours != nil {
			out.Bands = append(out.Bands, record.Band{From: *from, To: to, Hours: *hours})
		}
	}
	return out
}

// read reads a band without a word about what is wrong with it; ok is false
// where anything is.
func (b FormBand) read() (band record.Band, ok bool) {
	from, ok := value(b.From)
	hours, too := value(b.Hours)
	band = record.Band{From: record.Kilogram(from), Hours: record.Hour(hours)}
	if ok = ok && too; ok && strings.TrimSpace(b.To) != "" {
		var to float64
		to, ok = value(b.To)
		band.To = record.Of(record.Kilogram(to))
	}
	return band, ok
}

// onlyEdges reports whether no band of the reading has hours: a peak was all
// that was read.
func (r FormReading) onlyEdges() bool {
	for _, b := range r.Bands {
		if strings.TrimSpace(b.Hours) != "" {
			return false
		}
	}
	return true
}

func (f *Form) problem(at record.Path, message string) {
	f.Problems = append(f.Problems, Problem{at, message})
}

// Problem returns what is wrong with a field; empty when nothing is.
func (f *Form) Problem(at record.Path) string {
	for _, p := range f.Problems {
		if p.Path == at {
			return p.Message
		}
	}
	return ""
}

func number[T ~float64](f *Form, at record.Path, text string) *T {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	x, err := wording.Number(text, wording.Unknown)
	switch {
	case errors.Is(err, wording.ErrAmbiguous):
		f.problem(at, fmt.Sprintf("%q can be read two ways; write it without a mark for thousands", text))
		return nil
	case err != nil:
		f.problem(at, err.Error())
		return nil
	}
	return record.Of(T(x))
}

func (f *Form) whole(at record.Path, text string) *int {
	x := number[float64](f, at, text)
	if x == nil {
		return nil
	}
	if *x != float64(int32(*x)) {
		f.problem(at, "a whole number is expected")
		return nil
	}
	return record.Of(int(*x))
}

// Editing reports whether the form was filled from a machine on the sheet.
func (f *Form) Editing() bool { return f.editing != nil }

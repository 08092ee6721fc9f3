package model

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// Form is the readings as a person types them: every field as it was typed,
// so that nothing typed is lost because it cannot be read yet.
type Form struct {
	ID, Kind, Rated, Persons, Sensing, Mass, InService string
	Readings                                           []FormReading
	Problems                                           []Problem `json:"-"`

	base    record.Case // what the form does not show
	editing *Opened     // the machine the form was filled from; nil for a new one
}

// FormReading is one reading as it is typed.
type FormReading struct {
	At, Powered, Moving, Peak, PeakAt string
	Bands                             []FormBand
}

// FormBand is one band as it is typed. A blank upper edge is the open band.
type FormBand struct{ From, To, Hours string }

// Problem is a field that cannot be read yet.
type Problem struct {
	Path    record.Path
	Message string
}

// EmptyForm returns a form with one reading and a usual set of empty bands.
func EmptyForm() Form {
	return Form{Kind: string(record.Boom), Readings: []FormReading{{Bands: []FormBand{{From: "0"}, {}, {}, {}}}}}
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
	f := Form{
		ID: c.Machine.ID, Kind: string(c.Machine.Kind), Rated: numberText(c.Machine.RatedLoad),
		Sensing: numberText(c.Machine.LoadSensing), Mass: numberText(c.Machine.Mass), base: c,
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
	return f
}

// timeText writes a time as a date and time field shows it.
func timeText(t time.Time) string {
	if t.UTC().Second() != 0 {
		return t.UTC().Format("2006-01-02T15:04:05")
	}
	return t.UTC().Format("2006-01-02T15:04")
}

func formReading(r record.Reading) FormReading {
	out := FormReading{Powered: numberText(r.Powered), Moving: numberText(r.Moving), Peak: numberText(r.Peak)}
	if !r.At.IsZero() {
		out.At = timeText(r.At)
	}
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
	m.Mass = number[record.Kilogram](f, "machine/mass_kg", f.Mass)
	m.Persons = f.whole("machine/persons", f.Persons)
	m.InService = f.date("machine/in_service", f.InService)
	c.Readings = nil
	for i, r := range f.Readings {
		c.Readings = append(c.Readings, f.reading(record.Path("readings").At(i+1), r))
	}
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
	x, err := intake.ParseNumber(text)
	switch {
	case err == intake.ErrAmbiguous:
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

package app

import (
	"fmt"

	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// Entry is the form in which readings are typed.
type Entry struct {
	Model *model.Model
}

func (c *Entry) form() *model.Form { return &c.Model.Form }

func (c *Entry) reading(i int) *model.FormReading { return &c.Model.Form.Readings[i] }

func (c *Entry) band(i, j int) *model.FormBand { return &c.Model.Form.Readings[i].Bands[j] }

func (c *Entry) title() string {
	if c.form().Editing() {
		return "Correct the readings"
	}
	return "Type the readings"
}

func (c *Entry) readingTitle(i int) string {
	if len(c.form().Readings) == 1 {
		return "The reading, from the screen"
	}
	return fmt.Sprintf("Reading %d", i+1)
}

// kindChoice is a kind of machine as it is offered.
type kindChoice struct{ value, words string }

func (c *Entry) kinds() []kindChoice {
	return []kindChoice{
		{string(record.Boom), "Boom lift"}, {string(record.Scissor), "Scissor lift"},
		{string(record.Mast), "Mast lift"}, {string(record.Other), "Another kind"},
	}
}

func (c *Entry) kind(event vugu.DOMEvent) {
	c.form().Kind = event.PropString("target", "value")
	c.Model.Do(c.Model.Changed)
}

// key makes the id of a field of a reading.
func (c *Entry) key(i int, field string) string { return fmt.Sprintf("r%d-%s", i+1, field) }

// bandKey makes the id of a field of a band.
func (c *Entry) bandKey(i, j int, field string) string {
	return fmt.Sprintf("r%d-b%d-%s", i+1, j+1, field)
}

func (c *Entry) path(i int, field string) record.Path {
	return record.Path("readings").At(i + 1).At(field)
}

func (c *Entry) bandPath(i, j int, field string) record.Path {
	return record.Path("readings").At(i + 1).At("bands").At(j + 1).At(field)
}

// machineFields are the fields of the plate, but for the kind.
func (c *Entry) machineFields() []fieldSpec {
	f := c.form()
	return []fieldSpec{
		{Key: "id", Kind: "text", Label: "Name or number", Text: &f.ID, Path: "machine/id"},
		{Key: "rated", Label: "Rated load, kg", Text: &f.Rated, Path: "machine/rated_load_kg"},
		{Key: "persons", Label: "Persons", Text: &f.Persons, Path: "machine/persons"},
		{Key: "sensing", Label: "Load sensing acts at, kg", Text: &f.Sensing, Path: "machine/load_sensing_kg"},
		{Key: "in-service", Kind: "date", Label: "In service since", Text: &f.InService, Path: "machine/in_service"},
	}
}

// readingFields are the fields of a reading, but for its bands.
func (c *Entry) readingFields(i int) []fieldSpec {
	r := c.reading(i)
	return []fieldSpec{
		{Key: c.key(i, "at"), Kind: "time", Label: "Read at (UTC)", Text: &r.At, Path: c.path(i, "at")},
		{Key: c.key(i, "powered"), Label: "Powered hours", Text: &r.Powered, Path: c.path(i, "powered_h")},
		{Key: c.key(i, "moving"), Label: "Moving hours", Text: &r.Moving, Path: c.path(i, "moving_h")},
		{Key: c.key(i, "peak"), Label: "Peak, kg", Text: &r.Peak, Path: c.path(i, "peak_kg")},
		{Key: c.key(i, "peak-at"), Kind: "time", Label: "Peak set at (UTC)", Text: &r.PeakAt, Path: c.path(i, "peak_at")},
	}
}

// bandFields are the fields of a band.
func (c *Entry) bandFields(i, j int) []fieldSpec {
	b := c.band(i, j)
	return []fieldSpec{
		{Key: c.bandKey(i, j, "from"), Label: "From, kg", Text: &b.From, Path: c.bandPath(i, j, "from_kg")},
		{Key: c.bandKey(i, j, "to"), Label: c.toLabel(i, j), Text: &b.To, Path: c.bandPath(i, j, "to_kg"),
			Edge: func(text string) { c.Model.SetEdge(i, j, text) }},
		{Key: c.bandKey(i, j, "hours"), Label: "Hours", Text: &b.Hours, Path: c.bandPath(i, j, "hours")},
	}
}

func (c *Entry) toLabel(i, j int) string {
	if j == len(c.reading(i).Bands)-1 {
		return "To, kg (blank: open)"
	}
	return "To, kg"
}

func (c *Entry) bandLabel(verb string, i, j int) string {
	return fmt.Sprintf("%s band %d of reading %d", verb, j+1, i+1)
}

func (c *Entry) split(i, j int)      { c.Model.Do(func() { c.Model.SplitBand(i, j) }) }
func (c *Entry) removeBand(i, j int) { c.Model.Do(func() { c.Model.RemoveBand(i, j) }) }
func (c *Entry) addBand(i int)       { c.Model.Do(func() { c.Model.AddBand(i) }) }
func (c *Entry) removeReading(i int) { c.Model.Do(func() { c.Model.RemoveReading(i) }) }

// total compares the hours typed into the bands with the hour meter.
func (c *Entry) total(i int) string {
	sum, ok := c.Model.Sum(i)
	if !ok {
		return "The hours cannot be added up yet."
	}
	text := "The bands add up to " + dossier.H(sum)
	powered, err := intake.ParseNumber(c.reading(i).Powered)
	if err != nil {
		return text + "."
	}
	switch rest := powered - sum; {
	case rest < -0.05:
		return fmt.Sprintf("%s, %s more than the powered hours.", text, dossier.H(-rest))
	case rest > 0.05:
		return fmt.Sprintf("%s; %s of the powered hours are in no band.", text, dossier.H(rest))
	}
	return text + ", as many as the powered hours."
}

func (c *Entry) problems() string {
	if n := len(c.form().Problems); n != 1 {
		return fmt.Sprintf("%d fields cannot be read yet; each says why.", n)
	}
	p := c.form().Problems[0]
	return "One field cannot be read yet: " + p.Path.Words() + ": " + p.Message + "."
}

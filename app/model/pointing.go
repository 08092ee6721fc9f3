package model

import (
	"encoding/json"
	"errors"
	"slices"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// GuideShelf is the shelf of the device on which guides are kept.
const GuideShelf = "guides"

// Unsettled is a file of which something is left open: what its columns are, or
// how its values are written.
type Unsettled struct {
	File  File
	Batch batch.Batch
	Err   error // why it could not be read; nil where it could
}

// Pointing is the file a person is pointing things out in.
type Pointing struct {
	Unsettled             // as it was read first
	Sheet     int         // the table that is shown
	Now       batch.Batch // as it is read with what was pointed out
	NowErr    error
	Waiting   bool // it is being read anew

	guides map[int]batch.Guide // by table: what was pointed out
	cancel func()
}

// Add takes in what came of reading one file.
func (o *Outcome) Add(f File, b batch.Batch, err error) {
	var refusal *record.Refusal
	switch {
	case errors.As(err, &refusal) && pointable(b.Sheets) >= 0, err == nil && (len(b.Questions) > 0 || falls(b)):
		o.Open = append(o.Open, Unsettled{f, b, err})
	case err != nil:
		o.Errors = append(o.Errors, err)
	default:
		o.Batches = append(o.Batches, b)
	}
}

// falls reports whether a table has columns that are not used while the record
// lacks something: one of them may be what it lacks.
func falls(b batch.Batch) bool {
	if !slices.ContainsFunc(b.Sheets, func(s batch.Sheet) bool { return len(s.Left) > 0 }) {
		return pointable(b.Sheets) >= 0 && slices.ContainsFunc(b.Records, func(r batch.Record) bool { return slices.ContainsFunc(r.Findings, settledByPointing) })
	}
	return slices.ContainsFunc(b.Records, func(r batch.Record) bool {
		return record.Blocks(r.Findings) || record.Blocks(record.Check(&r.Case))
	})
}

// settledByPointing reports whether a finding is about what a column is, or its unit.
func settledByPointing(f record.Finding) bool {
	return slices.Contains([]string{"unit-unclear", "unit-unknown", "heading-unread", "hours-alike"}, f.Code)
}

// pointable returns the first table in which something can be pointed out; -1 without one.
func pointable(sheets []batch.Sheet) int {
	return slices.IndexFunc(sheets, func(s batch.Sheet) bool { return len(s.Guide.Heading) > 1 && len(s.Rows) > 1 })
}

// point shows the next of the files in which something is to be pointed out.
func (m *Model) point() {
	if len(m.unsettled) == 0 {
		m.Pointing = nil
		if m.Page == Pointed {
			m.Page = Start
			if len(m.Opened) > 0 {
				m.Page = Sheet
			}
		}
		return
	}
	u := m.unsettled[0]
	m.unsettled = m.unsettled[1:]
	p := &Pointing{Unsettled: u, Now: u.Batch, NowErr: u.Err, guides: map[int]batch.Guide{}}
	p.Sheet = max(0, pointable(u.Batch.Sheets))
	if len(u.Batch.Questions) > 0 {
		p.Sheet = u.Batch.Questions[0].Sheet
	}
	m.Pointing, m.Page = p, Pointed
	m.host.Show("pointing")
}

// Table returns the table that is shown; nil where the file has none.
func (p *Pointing) Table() *batch.Sheet {
	if p.Sheet >= len(p.Batch.Sheets) {
		return nil
	}
	return &p.Batch.Sheets[p.Sheet]
}

// Guide returns how the table that is shown is read at present.
func (p *Pointing) Guide() batch.Guide {
	if g, ok := p.guides[p.Sheet]; ok && len(g.Columns) > 0 {
		g.Columns = slices.Clone(g.Columns)
		return g
	}
	t := p.Table()
	if t == nil {
		return batch.Guide{}
	}
	g := t.Guide
	if own, ok := p.guides[p.Sheet]; ok {
		g.Decimal, g.Dates, g.Zone, g.Counts = own.Decimal, own.Dates, own.Zone, own.Counts
	}
	g.Columns = slices.Clone(g.Columns)
	for len(g.Columns) < len(g.Heading) {
		g.Columns = append(g.Columns, batch.Column{})
	}
	return g
}

// PointTable shows another table of the file.
func (m *Model) PointTable(i int) { m.Pointing.Sheet = i }

// PointColumn says what a column is.
func (m *Model) PointColumn(i int, change func(*batch.Column)) {
	g := m.Pointing.Guide()
	if i < len(g.Columns) {
		change(&g.Columns[i])
		m.pointed(g)
	}
}

// PointHeading says in which of the shown rows the headings stand; data tells
// that the row is one of the table already.
func (m *Model) PointHeading(row int, data bool) {
	t := m.Pointing.Table()
	if t == nil || row < 0 || row >= len(t.Rows) {
		return
	}
	g := m.Pointing.Guide()
	if !slices.Equal(g.Heading, t.Rows[row].Cells) {
		g.Heading = slices.Clone(t.Rows[row].Cells)
		columns := make([]batch.Column, len(g.Heading))
		copy(columns, g.Columns)
		g.Columns = columns
	}
	g.Data = data
	m.pointed(g)
}

// PointZone says in which zone the times are that name none, as "+01:00"; empty: UTC.
func (m *Model) PointZone(zone string) {
	g := m.Pointing.Guide()
	g.Zone = zone
	m.pointed(g)
}

// Answer answers a question about how values are written.
func (m *Model) Answer(q batch.Question, answer string) {
	p := m.Pointing
	g, ok := p.guides[q.Sheet]
	if !ok {
		g = batch.Guide{Heading: p.Batch.Sheets[q.Sheet].Guide.Heading}
	}
	switch q.Kind {
	case batch.AskDates:
		g.Dates = answer
	case batch.AskCounts:
		g.Counts = answer
	case batch.AskLoad:
		p.Sheet = q.Sheet
		g = p.Guide()
		for i, heading := range g.Heading {
			if heading == q.Column && i < len(g.Columns) {
				g.Columns[i].Field = wording.Field(answer)
			}
		}
	default:
		g.Decimal = answer
	}
	p.Sheet = q.Sheet
	m.pointed(g)
}

// Answered returns the answer given to a question; empty without one.
func (p *Pointing) Answered(q batch.Question) string {
	g := p.guides[q.Sheet]
	switch q.Kind {
	case batch.AskDates:
		return g.Dates
	case batch.AskCounts:
		return g.Counts
	case batch.AskLoad:
		for i, heading := range g.Heading {
			if heading == q.Column && i < len(g.Columns) {
				return string(g.Columns[i].Field)
			}
		}
		return ""
	}
	return g.Decimal
}

// pointed notes what was pointed out and reads the file anew with it.
func (m *Model) pointed(g batch.Guide) {
	p := m.Pointing
	g.Format = batch.GuideFormat
	p.guides[p.Sheet] = g
	if p.cancel != nil {
		p.cancel()
	}
	p.Waiting = true
	current := m.Pointing
	p.cancel = m.host.Read([]File{p.File}, m.guidesWith(p), func(Progress) {}, func(o Outcome) {
		if m.Pointing != current {
			return
		}
		current.Waiting, current.cancel = false, nil
		current.take(o)
	})
}

// take takes over what the file gives now.
func (p *Pointing) take(o Outcome) {
	switch {
	case len(o.Batches) > 0:
		p.Now, p.NowErr = o.Batches[0], nil
	case len(o.Open) > 0:
		p.Now, p.NowErr = o.Open[0].Batch, o.Open[0].Err
	case len(o.Errors) > 0:
		p.Now, p.NowErr = batch.Batch{}, o.Errors[0]
	}
}

// guidesWith returns the guides kept on the device and those just made.
func (m *Model) guidesWith(p *Pointing) []batch.Guide {
	out := slices.Clone(m.guides)
	for _, i := range slices.Sorted(keysOf(p.guides)) {
		out = append(out, p.guides[i]) // the later one counts
	}
	return out
}

func keysOf[K comparable, V any](of map[K]V) func(func(K) bool) {
	return func(yield func(K) bool) {
		for k := range of {
			if !yield(k) {
				return
			}
		}
	}
}

// TakePointed puts what is read now on the sheet, keeps the guide for the next
// file with the same headings, and goes on to the next file.
func (m *Model) TakePointed() {
	p := m.Pointing
	if p == nil || p.NowErr != nil || p.Waiting {
		return
	}
	for _, i := range slices.Sorted(keysOf(p.guides)) {
		m.keepGuide(p.guides[i])
	}
	m.Pointing = nil
	m.take(Outcome{Batches: []batch.Batch{p.Now}})
}

// LeavePointed goes on without pointing anything out. What could be read is put
// on the sheet as it is.
func (m *Model) LeavePointed() {
	p := m.Pointing
	m.Pointing = nil
	o := Outcome{}
	if p.Err != nil {
		o.Errors = []error{p.Err}
		m.Page = Start
	} else {
		o.Batches = []batch.Batch{p.Batch}
	}
	m.take(o)
}

// SaveGuide saves what was pointed out in the table that is shown as a file.
func (m *Model) SaveGuide() {
	g := m.Pointing.Guide()
	g.Format = batch.GuideFormat
	data, err := json.MarshalIndent(g, "", " ")
	if err != nil {
		return
	}
	m.host.Save(fileName(m.Pointing.File.Name)+".guide.json", "application/json", append(data, '\n'))
}

// keepGuide keeps a guide on the device, in place of one for the same heading.
func (m *Model) keepGuide(g batch.Guide) {
	key, err := json.Marshal(g.Heading)
	text, err2 := json.Marshal(g)
	if err != nil || err2 != nil {
		return
	}
	m.guides = slices.DeleteFunc(m.guides, func(o batch.Guide) bool { return slices.Equal(o.Heading, g.Heading) })
	m.guides = append(m.guides, g)
	m.host.Keep(GuideShelf, string(key), string(text), "", m.refused)
}

// recallGuides reads the guides that the device keeps.
func (m *Model) recallGuides() {
	m.host.Kept(GuideShelf, func(heads []KeptHead, err error) {
		if err != nil {
			return // said of the cases already
		}
		for _, h := range heads {
			var g batch.Guide
			if json.Unmarshal([]byte(h.Head), &g) == nil && len(g.Heading) > 0 {
				m.guides = append(m.guides, g)
			}
		}
	})
}

// bring keeps the guides that a file holds.
func (m *Model) bring(b batch.Batch) {
	for _, g := range b.Brought {
		m.keepGuide(g)
	}
	if n := len(b.Brought); n > 0 {
		m.Notices = append(m.Notices, Notice{Title: "A guide is kept on this device", Lines: []string{
			b.Name + " says how tables with certain headings are read. Files with those headings are read with it from now on; open yours again if it is on the sheet already.",
		}})
	}
}

// FieldChoice is one thing a column can be, in words.
type FieldChoice struct {
	Field wording.Field
	Words string
}

// FieldChoices lists what a column can be.
var FieldChoices = []FieldChoice{
	{"", "not used"},
	{"machine", "machine, name or number"}, {"kind", "kind of machine"}, {"rated_load_kg", "rated load"}, {"persons", "persons"},
	{"load_sensing_kg", "load sensing acts at"}, {"mass_kg", "mass of the machine"}, {"in_service", "in service since"},
	{"reading_at", "time of the reading"}, {"reading_date", "date of the reading"}, {"reading_time", "time of day"},
	{"powered_h", "powered hours"}, {"moving_h", "moving hours"}, {"peak_kg", "peak"}, {"peak_at", "time of the peak"},
	{"band", "band, as a label"}, {"from_kg", "lower edge of the band"}, {"to_kg", "upper edge of the band"},
	{"hours", "hours in the band"}, {"share", "share of the powered hours"}, {"band_hours", "hours of one band"},
	{"custody_from", "custody from"}, {"custody_to", "custody to"}, {"holder", "who had it: hire, transit, depot, workshop"}, {"who", "name of who had it"},
	{"event_at", "time of the event"}, {"event_kind", "kind of event"}, {"event_load_kg", "load at the event"},
	{"daily_date", "day of use"}, {"note", "note"},
}

// UnitChoices lists the units a column can have; none: as its cells say.
var UnitChoices = []wording.Unit{wording.NoUnit, wording.Kilogram, wording.Pound, wording.Tonne, wording.KiloNewton, wording.DecaNewton, wording.Hour, wording.Minute, wording.Second, wording.Clock, wording.Percent}

// ZoneChoices lists the zones that times without one can be in: UTC, then those
// in civil use, from memory.
var ZoneChoices = []string{"", "-10:00", "-09:00", "-08:00", "-07:00", "-06:00", "-05:00", "-04:00", "-03:30", "-03:00", "-02:00", "-01:00",
	"+01:00", "+02:00", "+03:00", "+03:30", "+04:00", "+04:30", "+05:00", "+05:30", "+05:45", "+06:00", "+06:30", "+07:00", "+08:00", "+09:00", "+09:30", "+10:00", "+11:00", "+12:00", "+13:00"}

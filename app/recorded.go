package app

import (
	"fmt"
	"strings"

	"github.com/vugu/vugu/js"

	"ratchetmark/app/model"
	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/record"
)

// Recorded answers what the machine recorded.
type Recorded struct{ view }

// hasRuler reports whether there is anything to draw.
func (c *Recorded) hasRuler() bool { return c.d().Capacity != nil }

func (c *Recorded) ruler(id string, width float64) string {
	return chart.DrawRuler(id, rulerOf(c.d(), c.Model.Pounds), width)
}

func (c *Recorded) textures() []legendEntry { return legendOf(c.d()) }

func (c *Recorded) unitWords() string {
	if c.Model.Pounds {
		return "Show kg"
	}
	return "Show lb"
}

func (c *Recorded) findingsTitle() string {
	switch n := len(c.d().Findings); n {
	case 0:
		return "Checked before it was believed: nothing amiss"
	case 1:
		return "Checked before it was believed: one finding"
	default:
		return fmt.Sprintf("Checked before it was believed: %d findings", n)
	}
}

// mostFindings is how many findings a sheet shows.
const mostFindings = 60

func (c *Recorded) shown() []record.Finding {
	all := c.d().Findings
	return all[:min(len(all), mostFindings)]
}

// more says how many findings are not shown; empty when all are.
func (c *Recorded) more() string {
	if n := len(c.d().Findings) - mostFindings; n > 0 {
		return fmt.Sprintf("%d further findings are not shown here; they are in the result saved as data.", n)
	}
	return ""
}

// telling leads to where a check of the load shown is entered, whether it was asked
// for or not.
func (c *Recorded) telling() []action {
	return []action{{id: "tell-check", words: "Enter a check of the load shown", class: "quiet", do: func() { c.Model.Enter(model.OfCheck) }}}
}

var severityWords = map[record.Severity]string{
	record.Note: "Note", record.Doubt: "Doubt", record.Blocking: "Blocking",
}

func (c *Recorded) severity(s record.Severity) string { return severityWords[s] }

func (c *Recorded) finding(f record.Finding) string { return dossier.FindingText(f) }

// mount draws the table of the record: as one piece of markup, because a
// renderer that makes it cell by cell takes longer than all the rest.
func (c *Recorded) mount(element js.Value) {
	(&Picture{Model: c.Model}).mount(element, chart.Table("Hours in each load band, powered and moving, counted over the life up to each reading; times in UTC", c.head(), c.rows()))
}

// head names the columns after the bands of the last reading.
func (c *Recorded) head() []string {
	out := []string{"Reading"}
	for _, b := range c.edges() {
		out = append(out, dossier.BandText(b.From, b.To))
	}
	return append(out, "Sum", "Powered", "Moving", "Peak, kg")
}

func (c *Recorded) edges() []record.Band {
	readings := c.d().History.Case.Readings
	if len(readings) == 0 {
		return nil
	}
	return record.Sorted(readings[len(readings)-1].Bands)
}

func (c *Recorded) rows() []chart.Row {
	var out []chart.Row
	for i, r := range c.d().History.Case.Readings {
		row := chart.Row{Title: fmt.Sprintf("%d", i+1)}
		if !r.At.IsZero() {
			row.Title += ", " + r.At.UTC().Format("2006-01-02 15:04")
		}
		for _, edge := range c.edges() {
			row.Cells = append(row.Cells, hoursIn(r.Bands, edge))
		}
		sum := record.Total(r.Bands)
		row.Cells = append(row.Cells, hourCell(&sum), hourCell(r.Powered), hourCell(r.Moving), peakCell(r.Peak))
		out = append(out, row)
	}
	return out
}

// hoursIn returns the hours of the band with the same edges; a dash without one.
func hoursIn(bands []record.Band, edge record.Band) string {
	for _, b := range bands {
		if b.SameEdges(edge) {
			return hourCell(&b.Hours)
		}
	}
	return "\u2013"
}

func hourCell(h *record.Hour) string {
	if h == nil {
		return "\u2013"
	}
	return strings.TrimSuffix(dossier.H(float64(*h)), " h")
}

func peakCell(p *record.Kilogram) string {
	if p == nil {
		return "\u2013"
	}
	return strings.TrimSuffix(dossier.Kg(float64(*p)), " kg")
}

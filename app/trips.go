package app

import (
	"fmt"
	"strconv"

	"github.com/vugu/vugu/js"

	"ratchetmark/internal/chart"
	"ratchetmark/internal/dossier"
	"ratchetmark/internal/trips"
)

// Trips shows which trips raised the peak, by haulier and crew, of all machines
// on the sheet, and leads to the card for the crew.
type Trips struct{ view }

func itoa(i int) string { return strconv.Itoa(i) }

func (c *Trips) answer() string {
	all, machines := c.Model.Trips()
	if len(all) == 0 {
		return "No trip is on the custody list."
	}
	whose := "this machine"
	if machines > 1 {
		whose = fmt.Sprintf("%d machines on the sheet", machines)
	}
	return "Trips of " + whose + ": " + trips.Total(all).Words() + "."
}

func (c *Trips) any() bool {
	all, _ := c.Model.Trips()
	return len(all) > 0
}

// briefing compares the trips of all machines before and after the briefing.
func (c *Trips) briefing() string {
	b := c.d().Transport.Trips.Briefing
	if b == nil {
		return ""
	}
	all, _ := c.Model.Trips()
	before, after := trips.Around(all, b.On.Time)
	return dossier.BriefingWords(b.On, before, after)
}

// mountRates draws the rates by haulier and crew.
func (c *Trips) mountRates(element js.Value) {
	all, _ := c.Model.Trips()
	var rows []chart.Row
	for _, g := range trips.ByHaulier(all) {
		r := g.Rate
		row := chart.Row{Title: g.Name(), Cells: []string{itoa(r.Raised), itoa(r.Trips), "\u2013", itoa(r.Unread)}}
		if r.Trips > 0 {
			row.Cells[2] = r.Interval()
		}
		rows = append(rows, row)
	}
	head := []string{"Haulier, crew", "Raised the peak", "Trips with readings", "Of 100 trips (95 %, exact Poisson)", "Without readings"}
	(&Picture{Model: c.Model}).mount(element, chart.Table("Trips by haulier and crew", head, rows))
}

// list is what each trip of the machine that is shown did.
func (c *Trips) list() part {
	var rows []chart.Row
	for _, x := range c.d().Transport.Trips.List {
		day, rest := dossier.TripWords(x)
		rows = append(rows, chart.Row{Title: day, Cells: []string{rest}})
	}
	p := c.part("trip-list", "ride-part", "trips", "Each trip of this machine")
	p.blocks = []block{{table: chart.Table("Trips of "+dossier.Name(c.d()), []string{"Trip", "What it did to the peak"}, rows)}}
	return p
}

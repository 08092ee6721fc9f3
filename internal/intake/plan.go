package intake

import (
	"slices"

	"ratchetmark/internal/wording"
)

// plan says where the columns of the table in hand stand; -1 where there is none.
type plan struct {
	machine, at, date, clock      int
	label, from, to, hours, share int
	minutes                       int   // the rest of the hours
	alarms                        int   // counted, of overload
	ofMachine, ofReading, bands   []int // other values of the machine, of the reading; hours of a band
	repeats                       []int // columns a row may repeat from the one above
	keys                          []int // columns that tell a row of the table
	sums                          []int // columns that may say "total"
	open                          []int // columns that are not known
	meter                         bool  // the heading of the hours may mean the hour meter
	whole                         int   // the columns up to which a row says of what reading it is; 0: never
}

// wholeOf returns up to which column a row says of what machine and reading its
// bands are; 0 where a row may be of another reading without another text there,
// or says more than its bands elsewhere.
func (s *sheet) wholeOf(p plan) int {
	if s.layout.name != "one row for each band" || len(p.bands) > 0 || p.clock >= 0 || p.at < 0 && p.date < 0 {
		return 0
	}
	last := max(p.machine, p.at, p.date)
	for _, i := range p.repeats {
		last = max(last, i)
	}
	return last + 1
}

func (s *sheet) lay() {
	p := plan{machine: -1, at: -1, date: -1, clock: -1, label: -1, from: -1, to: -1, hours: -1, share: -1, minutes: -1, alarms: -1}
	single := map[wording.Field]*int{
		"machine": &p.machine, "reading_at": &p.at, "reading_date": &p.date, "reading_time": &p.clock,
		"band": &p.label, "from_kg": &p.from, "to_kg": &p.to, "hours": &p.hours, "share": &p.share,
	}
	for i := range s.cols {
		f := s.cols[i].Field
		if to := single[f]; to != nil && *to < 0 {
			*to = i
		}
		switch f {
		case "kind", "rated_load_kg", "persons", "load_sensing_kg", "mass_kg", "in_service":
			p.ofMachine = append(p.ofMachine, i)
		case "powered_h", "moving_h", "peak_kg", "peak_at":
			p.ofReading = append(p.ofReading, i)
		case bandHours:
			p.bands = append(p.bands, i)
		}
		if f == "" && s.cols[i].used == "" {
			p.open = append(p.open, i)
		}
		if s.isKey(f) {
			p.keys = append(p.keys, i)
		}
		if f == "machine" || s.layout.name == "one row for each band" && (f == "band" || f == "from_kg" || f == "to_kg" || f == "") {
			p.sums = append(p.sums, i)
		}
	}
	p.alarms = slices.IndexFunc(s.cols, func(c column) bool { return c.used == alarmsUsed })
	if p.hours >= 0 {
		p.minutes = s.minutesColumn()
	}
	p.meter = p.hours >= 0 && s.means(p.hours, "powered_h") && !s.has("powered_h")
	p.repeats = append(append(p.repeats, p.ofMachine...), p.ofReading...)
	p.whole = s.wholeOf(p)
	s.plan, s.above = p, above{}
}

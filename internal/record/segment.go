package record

// Segment is the loads that a band's hours can lie at, once the peak of the
// interval has cut off what was never reached.
type Segment struct {
	From, To Kilogram // To is meaningless unless Bounded
	Bounded  bool     // false: a band open upwards and no peak to close it
	Hours    Hour
	Band     int // index into the interval's bands
}

// Segments returns what each band with hours can have been spent at, in order
// of load.
func (v Interval) Segments() []Segment {
	var out []Segment
	for i, b := range v.Bands {
		if b.Hours <= 0 {
			continue
		}
		s := Segment{From: b.From, Hours: b.Hours, Band: i}
		if !b.Open() {
			s.To, s.Bounded = *b.To, true
		}
		if c := v.Ceiling; c != nil && *c >= s.From && (!s.Bounded || *c < s.To) {
			s.To, s.Bounded = *c, true
		}
		out = append(out, s)
	}
	return out
}

// Over splits the hours of a segment at a load: at least low of them were over
// it, at most high. The estimate takes the loads as uniform within the
// segment; known is false where an unbounded segment leaves no estimate.
//
// A band whose lower edge is the load counts as over it; a segment that ends
// at the load does not.
func (s Segment) Over(load Kilogram) (low, estimate, high Hour, known bool) {
	switch {
	case s.Bounded && s.To <= load:
		return 0, 0, 0, true
	case s.From >= load:
		return s.Hours, s.Hours, s.Hours, true
	case !s.Bounded:
		return 0, 0, s.Hours, false
	}
	return 0, s.Hours * Hour((s.To-load)/(s.To-s.From)), s.Hours, true
}

package simulate

// The causes a truth can name. Other is a load by none of the four, as snow or
// test weights. None is a piece in which nothing went over: a band straddles
// the rated load and its hours lay below.
const (
	Worked = "worked"
	Lashed = "lashed"
	Shock  = "shock"
	Drift  = "drift"
	Other  = "other"
	None   = "none"
)

// Causes lists the causes in the order of Hours.
var Causes = []string{Worked, Lashed, Shock, Drift, Other}

// origin is an index into Causes; -1 where there is no load to speak of.
type origin int

const (
	worked origin = iota
	lashed
	shock
	drift
	other
	origins = iota
)

func (o origin) name() string {
	if o < 0 {
		return None
	}
	return Causes[o]
}

// Hours are hours over the rated load by what caused them.
type Hours struct {
	Worked float64 `json:"worked"`
	Lashed float64 `json:"lashed"`
	Shock  float64 `json:"shock"`
	Drift  float64 `json:"drift"`
	Other  float64 `json:"other"`
}

// Total is the sum over the causes.
func (h Hours) Total() float64 { return h.Worked + h.Lashed + h.Shock + h.Drift + h.Other }

// Main names the cause of most of the hours and its share; None and 0 where
// there are none. Of two with equal hours it is the first in Causes.
func (h Hours) Main() (cause string, share float64) {
	total := h.Total()
	if total <= 0 {
		return None, 0
	}
	most := -1.0
	for i, v := range h.list() {
		if v > most {
			most, cause = v, Causes[i]
		}
	}
	return cause, most / total
}

func (h Hours) list() [origins]float64 {
	return [origins]float64{h.Worked, h.Lashed, h.Shock, h.Drift, h.Other}
}

func hoursOf(v [origins]float64) Hours {
	return Hours{v[worked], v[lashed], v[shock], v[drift], v[other]}
}

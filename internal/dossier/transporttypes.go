package dossier

import (
	"time"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
	"ratchetmark/internal/trips"
)

// Transport is how the machine rides: what a strap over the platform does to the
// cell, how the machine is held, and what its trips showed.
type Transport struct {
	Strap    Strap            `json:"strap"`
	Matches  []Match          `json:"peak_matches"` // what would give the highest peak over the rated load
	Held     *Held            `json:"held"`         // nil where no lashing is named
	Trips    Trips            `json:"trips"`
	Findings []record.Finding `json:"findings"`

	Over   lashing.Over    `json:"-"`
	Device *lashing.Device `json:"-"`
	Check  *lashing.Check  `json:"-"`
	All    []trips.Trip    `json:"-"`
}

// Strap is a strap over the platform with the load that it makes the cell read.
type Strap struct {
	Device   string          `json:"device"`
	Route    string          `json:"route"`
	Straps   int             `json:"straps"`
	AngleDeg float64         `json:"angle_deg"`
	Blocked  bool            `json:"blocked"`
	Apparent lashing.Reading `json:"apparent_kg"`
	Percent  *Percents       `json:"percent_of_rated"` // nil without a rated load
	Settled  lashing.Reading `json:"after_settling_kg"`
	Source   string          `json:"source"`
	Status   string          `json:"status"`
}

// Percents is a range in percent.
type Percents struct {
	Low      float64 `json:"low"`
	Estimate float64 `json:"estimate"`
	High     float64 `json:"high"`
}

// Match is a way in which straps over the rails would give a load.
type Match struct {
	Device   string  `json:"device"`
	Straps   int     `json:"straps"`
	AngleDeg float64 `json:"angle_deg"`
	Tension  float64 `json:"tension_dan"`
}

// Held is how the machine is held by a rule.
type Held struct {
	Rule       string       `json:"rule"`
	OK         bool         `json:"ok"`
	Margins    []HeldMargin `json:"margins"`   // empty where nothing was worked out
	Tipping    *HeldMargin  `json:"tipping"`   // daN m; nil where height and track are not known
	Aggregate  *HeldCount   `json:"aggregate"` // 49 CFR 393.106 and 393.110
	Downforce  *HeldMargin  `json:"downforce"` // 49 CFR 393.102
	NotCovered string       `json:"not_covered"`
}

// HeldMargin is what is held of what is needed, in daN.
type HeldMargin struct {
	Direction string   `json:"direction"`
	Needed    float64  `json:"needed_dan"`
	Held      float64  `json:"held_dan"`
	Percent   *float64 `json:"percent"` // nil where nothing is needed
}

// HeldCount is a count of working load limits, in lb.
type HeldCount struct {
	Required float64 `json:"required_lb"`
	Counted  float64 `json:"counted_lb"`
	Number   int     `json:"number"`
	Least    int     `json:"least"`
}

// Trips is what the trips of the machine showed.
type Trips struct {
	Total     trips.Rate  `json:"total"`
	ByHaulier []TripGroup `json:"by_haulier"`
	List      []Trip      `json:"list"`
	Briefing  *Briefing   `json:"briefing"` // nil without a day
}

// TripGroup is the trips of one haulier or crew.
type TripGroup struct {
	Haulier string     `json:"haulier"`
	Crew    string     `json:"crew,omitempty"`
	Rate    trips.Rate `json:"rate"`
}

// Trip is one trip.
type Trip struct {
	From      time.Time `json:"from"`
	To        time.Time `json:"to"`
	Haulier   string    `json:"haulier"`
	Crew      string    `json:"crew,omitempty"`
	Bracketed bool      `json:"bracketed"`
	Why       string    `json:"why_not,omitempty"`
	Rose      bool      `json:"raised_the_peak"`
	Peak      *float64  `json:"peak_kg"`
}

// Briefing compares the trips before a day with those from it on.
type Briefing struct {
	On     record.Date `json:"on"`
	Before trips.Rate  `json:"before"`
	After  trips.Rate  `json:"after"`
	Words  string      `json:"words"`
}

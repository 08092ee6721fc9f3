package lashing

import (
	"math"
	"slices"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// Route is where a strap goes.
type Route string

// The routes a strap can take at the platform.
const (
	OverRails Route = "rails"
	OverFloor Route = "floor"
	OverMount Route = "mount" // what carries the platform: whether the cell sees it depends on where the cell is
	NotOver   Route = "none"
)

// Routes lists the routes in the order in which they are offered.
var Routes = []Route{OverRails, OverFloor, OverMount, NotOver}

// Share is a share of something, from 0 to 1, with the interval it may lie in.
type Share struct {
	Low, Usual, High float64
	Source           assume.Source
}

// reach is the share of a strap's pull that goes through the load cell, by route.
// Over rails or floor all of it does, but for a platform that rests on something
// unseen. Over the mount none does where the cell lies between mount and
// platform, all where it lies behind the mount.
var reach = []struct {
	route Route
	share Share
}{
	{OverRails, Share{0.9, 1, 1, assume.Source{Document: "the strap's force goes through the platform", Status: assume.Guess}}},
	{OverFloor, Share{0.9, 1, 1, assume.Source{Document: "the strap's force goes through the platform", Status: assume.Guess}}},
	{OverMount, Share{0, 0.1, 1, assume.Source{Document: "depends on which side of the mount the cell is", Status: assume.Guess}}},
	{NotOver, Share{0, 0, 0, assume.Source{Document: "no strap, no force", Status: assume.Computed}}},
}

// known reports whether a route is one of the table.
func (r Route) known() bool { return slices.Contains(Routes, r) }

// Past is the share of that pull which still reaches the cell where a block is
// under the platform: little where it fits tightly, all where it has a gap.
var Past = Share{0.1, 0.4, 1, assume.Source{Document: "a block under the platform carries part of the pull", Status: assume.Guess}}

// Settled is the share of a strap's tension that is left on the road: none where
// the machine settles, 0.7 where polyester relaxes by 30 %, all at best.
var Settled = Share{0, 0.7, 1, assume.Source{Document: "GDV handbook: an assumed 200 daN can fall to zero; supplier of webbing: relaxes up to 30 %", Status: assume.Restated}}

// RouteShare returns the share of a strap's pull that goes through the load cell
// by a route without a block; nothing for one that is not known.
func RouteShare(route Route) Share {
	for _, row := range reach {
		if row.route == route {
			return row.share
		}
	}
	return Share{}
}

// Shares returns the share of a strap's pull that goes through the load cell,
// blocked with a block under the platform. An unknown route gives 0, 0, 0.
func Shares(route Route, blocked bool) (low, usual, high float64) {
	s := RouteShare(route)
	if !blocked {
		return s.Low, s.Usual, s.High
	}
	return s.Low * Past.Low, s.Usual * Past.Usual, s.High * Past.High
}

// Apparent returns the load that the cell reads when so many straps, each
// tensioned to tensionDaN on one side, pull the platform down at an angle to the
// deck (0 to 90 degrees) over edges with a friction of edgeMu (0 to 1), and a
// share of the pull (0 to 1) goes through the cell. See [PullDown].
func Apparent(tensionDaN float64, straps int, angleDeg, edgeMu, share float64) record.Kilogram {
	return record.Kilogram(float64(straps) * PullDown(tensionDaN, angleDeg, edgeMu) * share / DaNPerKg)
}

// Reading is the load that straps over the platform make the cell read.
type Reading struct {
	Low      record.Kilogram `json:"low"`
	Estimate record.Kilogram `json:"estimate"`
	High     record.Kilogram `json:"high"`
}

// Over is straps over a platform: what they are tightened with, where they go.
type Over struct {
	Low, Usual, High float64 // tension on the side of the ratchet, daN
	Straps           int
	AngleDeg         float64 // to the deck, 0 to 90
	Edge             Edge
	Route            Route
	Blocked          bool
}

// Edge is the friction of what a strap bends over, with the interval it may lie in.
type Edge struct {
	Low, Usual, High float64
}

// Apparent returns the range of the load that the cell reads: the weakest pull
// over the roughest edge, the usual one, the strongest over the smoothest.
func (o Over) Apparent() Reading {
	low, usual, high := Shares(o.Route, o.Blocked)
	return Reading{
		Low:      Apparent(o.Low, o.Straps, o.AngleDeg, o.Edge.High, low),
		Estimate: Apparent(o.Usual, o.Straps, o.AngleDeg, o.Edge.Usual, usual),
		High:     Apparent(o.High, o.Straps, o.AngleDeg, o.Edge.Low, high),
	}
}

// After returns what is left of a reading once the lashing has settled on the road.
func (r Reading) After(left Share) Reading {
	times := func(kg record.Kilogram, share float64) record.Kilogram { return kg * record.Kilogram(share) }
	return Reading{times(r.Low, left.Low), times(r.Estimate, left.Usual), times(r.High, left.High)}
}

// OverPlatform returns the reading that straps of a known tension over the rails
// make, in daN, whatever the edge: the far side carries nothing, what edgeMu
// leaves of the tension, or as much as the near side. With vertical legs of
// 350 daN that is at most 714 kg a strap.
func OverPlatform(tensionDaN float64, straps int, angleDeg, edgeMu float64) Reading {
	at := func(mu float64) record.Kilogram { return Apparent(tensionDaN, straps, angleDeg, mu, 1) }
	return Reading{Low: at(math.Inf(1)), Estimate: at(edgeMu), High: at(0)}
}

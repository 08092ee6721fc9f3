// Package endurance counts fatigue damage of one detail: S-N curves of two
// standards or of a person's own, and Miner's sum with its terms.
//
// Stress ranges are in MPa, endurances in cycles. A curve has no endurance below
// its cut-off: it is then said not to exist, never to be infinite. Miner's sum
// is an index: it knows no sequence of loads, no corrosion, no earlier damage.
//
// The body text of the standards was not at hand: EN 1993-1-9 and EN 13001-3-1
// are implemented as three open programs restate them; what stems from memory
// says so beside it.
package endurance

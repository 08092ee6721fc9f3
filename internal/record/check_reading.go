package record

import "fmt"

// hourSlack is how far two hour counters of one machine may differ through
// rounding: each band may be rounded by up to half of the coarsest usual step, 0.1 h.
func hourSlack(counters int) Hour { return Hour(0.05*float64(counters+1)) + 1e-9 }

// registerEnds are the highest numbers of registers of 15 and 16 bits and of
// displays of four and five digits: no platform carries such loads.
var registerEnds = []Kilogram{9999, 32767, 65535, 99999}

var readingRules = []Rule{
	{
		ID: "reading-missing", Severity: Blocking,
		Asks:   "is there a reading",
		Effect: "there is nothing to assess",
		Hint:   "open a file with the machine's counters or type them in",
		find: func(c *Case, hit func(Path, string, string)) {
			if len(c.Readings) == 0 {
				hit("readings", "no reading", "at least one reading with bands or a peak")
			}
		},
	},
	{
		ID: "reading-empty", Severity: Blocking,
		Asks:   "does every reading have bands or a peak",
		Effect: "this reading says nothing about loads and is not used",
		Hint:   "enter the hours per band or the peak",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			if len(r.Bands) == 0 && r.Peak == nil {
				hit(readingPath(i), "neither bands nor a peak", "hours per band, a peak, or both")
			}
		}),
	},
	{
		ID: "hours-exceed-powered", Severity: Doubt,
		Asks:   "are the hours in the bands no more than the powered hours",
		Effect: "the bands or the hour meter are not this machine's, or one was replaced; the bounds hold only if the bands are right",
		Hint:   "compare the machine's number and the hour meter with the papers",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			sum, powered := accounted(r)
			if sum > powered+hourSlack(len(r.Bands)) && accountable(r) {
				hit(readingPath(i).At("bands"), fmt.Sprintf("the bands add up to %s h, the hour meter shows %s h", Number(sum), Number(powered)), "no more than the powered hours")
			}
		}),
	},
	{
		ID: "hours-short-of-powered", Severity: Note,
		Asks:   "do the bands account for the powered hours",
		Effect: "some powered time is in no band: the machine may count only while working, or a band is missing",
		Hint:   "ask the maker when the bands count",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			sum, powered := accounted(r)
			if sum < powered*0.95-hourSlack(len(r.Bands)) && accountable(r) {
				hit(readingPath(i).At("bands"), fmt.Sprintf("the bands add up to %s h of %s powered hours", Number(sum), Number(powered)), "about as many as the powered hours")
			}
		}),
	},
	{
		ID: "peak-at-limit", Severity: Doubt,
		Asks:   "is the peak no number at which registers or displays end",
		Effect: "the peak may be the end of the register and no load",
		Hint:   "read the peak off the machine's own screen",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			if r.Peak == nil {
				return
			}
			for _, limit := range registerEnds {
				if *r.Peak == limit {
					hit(readingPath(i).At("peak_kg"), "the peak is "+Number(limit)+" kg, the highest number of a register or a display", "a load")
				}
			}
		}),
	},
	{
		ID: "moving-exceeds-powered", Severity: Doubt,
		Asks:   "are the moving hours no more than the powered hours",
		Effect: "the movement counter is not used as evidence",
		Hint:   "check which counter was read as which",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			if r.Powered != nil && r.Moving != nil && *r.Moving > *r.Powered+hourSlack(1) {
				hit(readingPath(i).At("moving_h"), fmt.Sprintf("%s moving hours, %s powered hours", Number(*r.Moving), Number(*r.Powered)), "no more than the powered hours")
			}
		}),
	},
	{
		ID: "peak-below-occupied-band", Severity: Doubt,
		Asks:   "does the peak lie in or above the highest band with hours",
		Effect: "the peak was reset or is capped, or the bands came from elsewhere; it is not used as an upper bound",
		Hint:   "ask when the peak was last cleared, and whether the display has a limit",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			if top, ok := highestOccupied(r.Bands); ok && r.Peak != nil && *r.Peak < top.From {
				hit(readingPath(i).At("peak_kg"), fmt.Sprintf("the peak is %s kg, but %s has %s h", Number(*r.Peak), bandText(top), Number(top.Hours)), "a peak of at least "+Number(top.From)+" kg")
			}
		}),
	},
	{
		ID: "peak-above-all-bands", Severity: Doubt,
		Asks:   "is there a band for the load of the peak",
		Effect: "no band counts loads that high: how long they lasted is not known, and nothing bounds the hours from above",
		Hint:   "look for a last band that is open upwards; it may be missing from the export",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			if len(r.Bands) == 0 || r.Peak == nil || !usable(*r.Peak, maxLoad) {
				return
			}
			if top := inLoadOrder(r.Bands)[len(r.Bands)-1]; !top.Open() && *r.Peak > *top.To && bandsUsable(r.Bands) {
				hit(readingPath(i).At("peak_kg"), fmt.Sprintf("the peak is %s kg, and the bands end at %s kg", Number(*r.Peak), Number(*top.To)), "a last band that reaches above the peak")
			}
		}),
	},
	{
		ID: "peak-after-reading", Severity: Doubt,
		Asks:   "was the peak set before it was read",
		Effect: "the time of the peak is not used",
		Hint:   "check the machine's clock against the time of the reading",
		find: eachReading(func(i int, r *Reading, hit func(Path, string, string)) {
			if r.PeakAt != nil && !r.At.IsZero() && r.PeakAt.After(r.At) {
				hit(readingPath(i).At("peak_at"), "the peak is dated "+clock(*r.PeakAt)+", after the reading", "no later than "+clock(r.At))
			}
		}),
	},
}

// accounted returns the hours in the bands and the powered hours; what they say
// counts where both can be counted with, see accountable.
func accounted(r *Reading) (sum, powered Hour) {
	if r.Powered == nil {
		return 0, 0
	}
	return Total(r.Bands), *r.Powered
}

// accountable reports whether the hours in the bands and the powered hours can
// be counted with.
func accountable(r *Reading) bool {
	return r.Powered != nil && usable(*r.Powered, maxHours) && len(r.Bands) > 0 && bandsUsable(r.Bands)
}

// highestOccupied returns the highest band that has hours.
func highestOccupied(bands []Band) (top Band, ok bool) {
	for _, b := range bands {
		if b.Hours > 0 && (!ok || b.From > top.From) {
			top, ok = b, true
		}
	}
	return top, ok
}

package simulate

import (
	"math"
	"time"

	"ratchetmark/internal/record"
)

// asked is what comes of asking after a life, with what is late or wrong in it.
type asked struct {
	d     draw
	w     *world
	start startOf
}

// checks writes down a check of the cell some time after the life: with the
// platform empty, and in some lives with a known mass.
func (o *asked) checks(end float64) []record.LoadCheck {
	d, m := o.d, &o.w.m
	made, t := d.chance(askedCheck), end+24*d.of(askedAfter)
	withMass, slip := d.chance(askedMass), d.chance(askedSlip)
	mass := math.Round(m.rated * d.of(askedMassOf))
	weighed := mass * (1 + d.of(askedMassOff))
	dirt := d.of(askedDirt)
	if !made {
		return nil
	}
	shown := func(load, ought float64) *record.Kilogram {
		reading := o.w.cell.read(load+dirt, t) + o.w.cell.noise*d.NormFloat64()
		if slip {
			reading = ought
		}
		return record.Of(record.Kilogram(math.Round(max(reading, 0))))
	}
	out := []record.LoadCheck{{At: o.start.at(t), Kind: record.ZeroCheck, Shown: shown(0, 0)}}
	if withMass {
		out = append(out, record.LoadCheck{At: o.start.at(t).Add(10 * time.Minute), Kind: record.MassCheck, Shown: shown(weighed, mass), Mass: record.Of(record.Kilogram(mass))})
	}
	return out
}

// words writes down what is known of the tie-down on some of the trips.
func (o *asked) words() []record.TieDown {
	d := o.d
	known := d.of(wordKnown)
	wrong := map[record.Known]float64{record.Pictured: d.of(photoWrong), record.Papers: d.of(paperWrong), record.ToldOf: d.of(crewWrong)}
	var out []record.TieDown
	for _, t := range o.w.tied {
		how := record.ToldOf
		switch {
		case d.chance(wordPhoto):
			how = record.Pictured
		case d.chance(wordPaper):
			how = record.Papers
		}
		over := t.over != d.happens(wrong[how])
		if d.happens(known) {
			out = append(out, record.TieDown{At: o.start.at((t.from + t.to) / 2), Over: record.Of(over), How: how})
		}
	}
	return out
}

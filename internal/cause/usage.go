package cause

import "ratchetmark/internal/record"

// usage is how ordinary loads up to the rated load are distributed, by what the
// machine's bands show: where its cell reads too high, it is that, shifted, which
// is counted over the rated load.
type usage struct {
	rated float64
	bands []usedBand
	hours float64
}

// usedBand is hours at loads from and to, in kg, the lower part of a band that
// reaches over the rated load.
type usedBand struct{ from, to, hours float64 }

// foreknown is for how many hours of bands the usual use counts; an assumption.
const foreknown = 14

// usageOf reads the use of a machine from the last reading that has bands.
func usageOf(h record.History) usage {
	u := usage{rated: float64(h.Rated)}
	for k := len(h.Intervals) - 1; k >= 0; k-- {
		c := h.Counters(k)
		if len(c.Bands) == 0 {
			continue
		}
		for _, b := range c.Bands {
			if b.From >= h.Rated || b.Open() || b.Hours <= 0 {
				continue
			}
			from, to := float64(b.From), float64(*b.To)
			under := (min(to, u.rated) - from) / (to - from)
			u.bands = append(u.bands, usedBand{from, min(to, u.rated), under * float64(b.Hours)})
			u.hours += under * float64(b.Hours)
		}
		break
	}
	return u
}

// over returns for how large a share of the ordinary hours the load is over x kg,
// loads uniform within a band, and the density there; usual is what is known
// beforehand.
func (u usage) over(x, usualOver, usualDensity float64) (over, density float64) {
	for _, b := range u.bands {
		switch {
		case x <= b.from:
			over += b.hours
		case x < b.to:
			over += b.hours * (b.to - x) / (b.to - b.from)
			density += b.hours / (b.to - b.from)
		}
	}
	all := u.hours + foreknown
	return (over + foreknown*usualOver) / all, (density + foreknown*usualDensity) / all
}

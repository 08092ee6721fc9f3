package simulate

import (
	"sync"

	"ratchetmark/internal/bodymass"
)

// masses are quantiles of body mass in kg at shares (i + 1/2)/n, taken once.
type masses [2000]float64

func tabulate(d bodymass.Distribution) *masses {
	var m masses
	for i := range m {
		// the shares lie within the range of Quantile, and the tables have masses
		m[i], _ = d.Quantile((float64(i) + 0.5) / float64(len(m)))
	}
	return &m
}

var (
	men   = sync.OnceValue(func() *masses { return tabulate(bodymass.Men()) })
	women = sync.OnceValue(func() *masses { return tabulate(bodymass.Women()) })
)

// hirer is how one hirer works with the machine.
type hirer struct {
	pool     []float64 // mass of each person, dressed, kg
	tools    float64   // kg
	idle     float64   // share of powered hours
	moving   float64   // share of loaded hours
	material float64   // chance for a stretch
	full     float64   // chance for a stretch
	used     float64   // share of days
	keeps    bool      // to the rated load
	heeds    bool      // the alarm
	overs    float64   // overloads per powered hour
	shocks   float64   // per powered hour
	tilts    float64   // alarms per day
}

func newHirer(d draw) hirer {
	h := hirer{
		tools: d.of(toolMass), idle: d.of(idleShare), moving: d.of(movingShare), material: d.of(materialWhen),
		full: d.of(fullCrew), used: d.of(shareUsed), keeps: d.chance(mindsPlate), heeds: d.chance(mindsAlarm),
		shocks: d.of(shockRate), tilts: d.of(tiltRate),
	}
	if d.chance(overloader) {
		h.overs, h.keeps = d.of(overRate), false
	}
	share, shift, worn := d.of(womenShare), d.of(workerShift), d.of(wornMass)
	for range d.whole(poolSize) {
		who := men()
		if d.happens(share) {
			who = women()
		}
		h.pool = append(h.pool, who[d.IntN(len(who))]+shift+worn)
	}
	return h
}

// people returns the mass of some persons of the pool, and of others like them
// where there are not enough.
func (h *hirer) people(d draw, n int) float64 {
	sum, first := 0.0, d.IntN(len(h.pool))
	for i := range n {
		sum += h.pool[(first+i)%len(h.pool)]
	}
	return sum
}

// ordinary returns the load of an ordinary stretch of work: a crew, its tools,
// at times material. A hirer who keeps to the rated load leaves something
// below; most others do once the alarm sounds.
func (h *hirer) ordinary(w *world) float64 {
	d, m := w.d, &w.m
	n := m.persons
	if n > 1 && !d.happens(h.full) {
		n = 1 + d.IntN(n-1)
	}
	crew, material := h.people(d, n), 0.0
	if d.happens(h.material) {
		material = m.rated * d.of(materialMass)
	}
	limit := func(load float64) bool {
		switch {
		case h.keeps:
			return load > m.rated*0.97
		case h.heeds:
			return w.cell.read(load, w.t) > m.sensing
		}
		return false
	}
	for n > 1 && limit(crew+h.tools) {
		n--
		crew = h.people(d, n)
	}
	if load := crew + h.tools + material; !limit(load) {
		return load
	}
	return crew + h.tools
}

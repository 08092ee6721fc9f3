// Package calibrate scores what package cause concludes of invented lives whose
// causes are known (package simulate). The lives come from wider ranges than the
// models of causes assume, and hold structure those do not know; every figure
// holds at the base rates of those lives alone.
package calibrate

import (
	"math"
	"runtime"
	"sync"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
	"ratchetmark/internal/score"
	"ratchetmark/internal/simulate"
)

// Piece is one piece of a life with what was concluded of it and what is true.
type Piece struct {
	Life      int
	Level     simulate.Availability
	Truth     simulate.Truth
	Class     int // index into cause.All; score.NoClass for none of them
	Posterior [4]float64
	Verdict   int     // index into cause.All, or score.Undecided
	Over      float64 // where it begins, in rated loads
	Bracketed bool    // its interval is known to be mostly a trip, or to hold none
	MayBeLess bool    // it may lie wholly under the rated load: nothing is concluded of it
}

// prior is the weight of each cause before any evidence, as cause takes it.
var prior = []float64{0.25, 0.25, 0.25, 0.25}

// Pieces assesses lives and returns all their pieces, life by life. The levels of
// what is written down take turns.
func Pieces(lives int, seed uint64) []Piece {
	g := simulate.New(seed)
	return each(lives, func(i int) []Piece { return piecesOf(g.Life(i), i) })
}

// Asked assesses those of the lives that Pieces takes with events, with what was
// asked for afterwards as well: the same pieces, of which more is known.
func Asked(lives int, seed uint64) []Piece {
	g := simulate.New(seed)
	turns := simulate.Availabilities
	return each(lives, func(i int) []Piece {
		if turns[i%len(turns)] != simulate.WithEvents {
			return nil
		}
		return piecesOf(g.With(i, simulate.WithAsked), i)
	})
}

// each works on several lives at once and returns their pieces in order.
func each(lives int, of func(i int) []Piece) []Piece {
	all := make([][]Piece, lives)
	var wait sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wait.Go(func() {
			for i := w; i < lives; i += workers {
				all[i] = of(i)
			}
		})
	}
	wait.Wait()
	var out []Piece
	for _, pieces := range all {
		out = append(out, pieces...)
	}
	return out
}

func piecesOf(l simulate.Life, number int) []Piece {
	set, _ := assume.For(&l.Case)
	h := record.Lay(&l.Case)
	truth := map[simulate.Key]simulate.Truth{}
	for _, t := range l.Truth {
		truth[t.Key()] = t
	}
	var out []Piece
	for _, o := range cause.Weigh(h, set, nil) {
		t := truth[simulate.Key{What: string(o.What), Interval: o.Interval, From: o.From}]
		p := Piece{
			Life: number, Level: l.Availability, Truth: t, Class: t.Class(), Posterior: o.Posterior, Verdict: score.Undecided,
			Over: float64(o.From / h.Rated), Bracketed: bracketed(h, o.Interval), MayBeLess: o.MayBeUnder,
		}
		for c, name := range cause.All {
			if o.Verdict == name {
				p.Verdict = c
			}
		}
		out = append(out, p)
	}
	return out
}

// bracketed reports whether custody names who had the machine for all but a
// twentieth of an interval, and it was mostly in transit or not at all.
func bracketed(h record.History, i int) bool {
	v := h.Intervals[i]
	if v.From.IsZero() || v.To.IsZero() || len(h.Case.Custody) == 0 {
		return false
	}
	held, unknown := h.Case.Cover(v.From, v.To)
	all := v.To.Sub(v.From)
	return unknown < all/20 && (held[record.Transit] == 0 || held[record.Transit] > all*7/10)
}

// Figures are what came of a set of pieces; nil where there is no figure.
type Figures struct {
	Pieces      int           `json:"pieces"`
	By          [5]int        `json:"by_truth"` // worked, lashed, shock, drift, none of them
	Given       score.Share   `json:"verdicts_given"`
	FalseWorked score.False   `json:"false_worked"`
	Wrong       score.Share   `json:"wrong_verdicts"`
	Confusion   [][]int       `json:"confusion"` // rows as By, columns worked, lashed, shock, drift, undecided
	Brier       *float64      `json:"brier"`
	Cllr        *float64      `json:"cllr_worked"`
	LeastCllr   *float64      `json:"least_cllr_worked"`
	Multi       *float64      `json:"cllr_causes"` // in bits, 2 for one who knows nothing
	Off         *float64      `json:"reliability_off"`
	Deciles     []DecileShare `json:"reliability"` // of work, at the base rates of the lives
}

// DecileShare is a range of probabilities with how often it came true.
type DecileShare struct {
	From  float64  `json:"from"`
	Count int      `json:"count"`
	Mean  *float64 `json:"mean"`
	Share *float64 `json:"share"`
}

// Of works out the figures of pieces.
func Of(pieces []Piece) Figures {
	var forecasts, atRates []score.Forecast
	var calls []score.Call
	var first, second []float64
	f := Figures{Pieces: len(pieces)}
	for _, p := range pieces {
		posterior := append([]float64(nil), p.Posterior[:]...)
		forecasts = append(forecasts, score.Forecast{P: posterior, Truth: p.Class})
		atRates = append(atRates, score.Forecast{P: atBaseRates(p), Truth: p.Class})
		calls = append(calls, score.Call{Truth: p.Class, Verdict: p.Verdict})
		ratio, _ := score.Log10Ratio(posterior, prior, 0)
		if p.Class == 0 {
			first = append(first, ratio)
		} else {
			second = append(second, ratio)
		}
		f.count(p)
	}
	f.Given.Whole, f.Wrong.Whole = len(pieces), f.Given.Part
	f.FalseWorked = score.FalseCalls(calls, 0)
	f.Confusion = score.Confusion(calls, 4)
	f.Brier, f.Multi = score.Brier(forecasts), score.Multi(forecasts, prior)
	f.Cllr, f.LeastCllr = score.Cllr(first, second), score.LeastCllr(first, second)
	deciles := score.Reliability(score.Happens(atRates, 0))
	f.Off = score.Off(deciles)
	for _, d := range deciles {
		f.Deciles = append(f.Deciles, DecileShare{d.From, d.Count, d.Mean, d.Share})
	}
	return f
}

func (f *Figures) count(p Piece) {
	class := p.Class
	if class == score.NoClass {
		class = 4
	}
	f.By[class]++
	if p.Verdict != score.Undecided {
		f.Given.Part++
		if p.Verdict != p.Class {
			f.Wrong.Part++
		}
	}
}

// atBaseRates returns the weights of a piece under the base rates of the lives
// in place of even ones: a reader's prior that is right.
func atBaseRates(p Piece) []float64 {
	out := make([]float64, 4)
	sum := 0.0
	for c := range out {
		for _, r := range simulate.BaseRates {
			if r.What == p.Truth.What && r.Cause == string(cause.All[c]) {
				out[c] = p.Posterior[c] * r.Share
			}
		}
		sum += out[c]
	}
	for c := range out {
		out[c] /= math.Max(sum, 1e-300)
	}
	return out
}

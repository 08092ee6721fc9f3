package calibrate

import (
	"fmt"
	"io"
	"slices"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/simulate"
)

// Set is a set of pieces with its figures.
type Set struct {
	Name    string  `json:"name"`
	Figures Figures `json:"figures"`
}

// Report is what comes of a number of lives.
type Report struct {
	Lives int    `json:"lives"`
	Seed  uint64 `json:"seed"`
	Left  int    `json:"may_be_under"` // pieces of which nothing is concluded, because they may lie under the rated load
	Sets  []Set  `json:"sets"`
}

// sets are the sets of pieces that are reported. That with what was asked for is
// of lives that are in the others already: it stands apart.
var sets = []struct {
	name  string
	holds func(p Piece) bool
}{
	{"all", func(Piece) bool { return true }},
	{"peak and bands only", of(simulate.PeakAndBands)},
	{"two readings", of(simulate.TwoReadings)},
	{"with custody", of(simulate.WithCustody)},
	{"with events", of(simulate.WithEvents)},
	{withAsked, of(simulate.WithAsked)},
	{"readings that bracket custody", func(p Piece) bool { return p.Bracketed }},
	{"the same, from 110 % of the rated load", func(p Piece) bool { return p.Bracketed && p.Over >= 1.1 }},
	{"peaks", func(p Piece) bool { return p.Truth.What == simulate.Peak }},
	{"hours of bands", func(p Piece) bool { return p.Truth.What == simulate.Band }},
	{"from 150 % of the rated load", func(p Piece) bool { return p.Over >= 1.5 }},
	{"under 110 % of the rated load", func(p Piece) bool { return p.Over < 1.1 }},
}

const withAsked = "the same lives, with what was asked for"

func of(level simulate.Availability) func(p Piece) bool {
	return func(p Piece) bool { return p.Level == level }
}

// Run assesses lives and reports how good what is concluded of them is.
func Run(lives int, seed uint64) Report {
	r := Report{Lives: lives, Seed: seed}
	var pieces []Piece
	for _, p := range Pieces(lives, seed) {
		if p.MayBeLess {
			r.Left++
			continue
		}
		pieces = append(pieces, p)
	}
	asked := slices.DeleteFunc(Asked(lives, seed), func(p Piece) bool { return p.MayBeLess })
	for _, s := range sets {
		from := pieces
		if s.name == withAsked {
			from = asked
		}
		var some []Piece
		for _, p := range from {
			if s.holds(p) {
				some = append(some, p)
			}
		}
		r.Sets = append(r.Sets, Set{s.name, Of(some)})
	}
	return r
}

// WriteText prints a report.
func WriteText(w io.Writer, r *Report) error {
	e := &writer{w: w}
	e.line("%d invented lives, seed %d; %d pieces that may lie under the rated load are left out", r.Lives, r.Seed, r.Left)
	e.line("")
	e.line("%-40s %7s %18s %9s %8s %7s %7s %7s %6s", "", "pieces", "false worked", "verdicts", "wrong", "Cllr", "least", "Cllr of", "Brier")
	e.line("%-40s %7s %9s %8s %9s %8s %7s %7s %7s", "", "", "of others", "of said", "given", "of given", "worked", "", "causes")
	for _, s := range r.Sets {
		f := s.Figures
		e.line("%-40s %7d %9s %8s %9s %8s %7s %7s %7s %6s", s.Name, f.Pieces, percent(f.FalseWorked.OfOthers.Value()), percent(f.FalseWorked.OfVerdicts.Value()),
			percent(f.Given.Value()), percent(f.Wrong.Value()), figure(f.Cllr), figure(f.LeastCllr), figure(f.Multi), figure(f.Brier))
	}
	for _, s := range r.Sets {
		e.set(s)
	}
	return e.err
}

type writer struct {
	w   io.Writer
	err error
}

func (e *writer) line(format string, args ...any) {
	if e.err == nil {
		_, e.err = fmt.Fprintf(e.w, format+"\n", args...)
	}
}

// set prints who was taken for whom, and how often probabilities came true.
func (e *writer) set(s Set) {
	f := s.Figures
	e.line("")
	e.line("%s: verdict by truth", s.Name)
	e.line("  %-12s %7s %7s %7s %7s %9s", "truth", cause.Worked, cause.Lashed, cause.Shock, cause.Drift, cause.Undecided)
	for i, row := range f.Confusion {
		name := "none of them"
		if i < len(cause.All) {
			name = string(cause.All[i])
		}
		e.line("  %-12s %7d %7d %7d %7d %9d", name, row[0], row[1], row[2], row[3], row[4])
	}
	e.line("  probability of work, at the base rates of the lives, and how often it was; off by %s on average", figure(f.Off))
	for _, d := range f.Deciles {
		if d.Count > 0 {
			e.line("  %3.0f to %3.0f %%  %6d pieces  said %s  was %s", 100*d.From, 100*d.From+10, d.Count, percent(d.Mean), percent(d.Share))
		}
	}
}

func percent(x *float64) string {
	if x == nil {
		return "-"
	}
	return fmt.Sprintf("%.1f %%", 100**x)
}

func figure(x *float64) string {
	if x == nil {
		return "-"
	}
	return fmt.Sprintf("%.3f", *x)
}

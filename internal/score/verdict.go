package score

import "math"

// Undecided is a verdict that names no class.
const Undecided = -1

// Call is a verdict on one piece and the truth: indices of classes; the
// verdict may be Undecided, the truth NoClass.
type Call struct{ Truth, Verdict int }

// Confusion counts verdicts by truth: a row for each class and a last one for
// NoClass, a column for each class and a last one for Undecided.
func Confusion(calls []Call, classes int) [][]int {
	out := make([][]int, classes+1)
	for i := range out {
		out[i] = make([]int, classes+1)
	}
	at := func(k int) int {
		if k < 0 {
			return classes
		}
		return k
	}
	for _, c := range calls {
		out[at(c.Truth)][at(c.Verdict)]++
	}
	return out
}

// Share is a part of a whole, counted.
type Share struct{ Part, Whole int }

// Value is the share; nil where the whole is nothing.
func (s Share) Value() *float64 {
	if s.Whole == 0 {
		return nil
	}
	v := float64(s.Part) / float64(s.Whole)
	return &v
}

// z95 is the normal score of 97.5 %.
const z95 = 1.959963984540054

// Interval returns the 95 % interval of the share in the long run, taking the
// pieces as independent: the score interval; 0 to 1 where the whole is nothing.
//
// Wilson 1927, Journal of the American Statistical Association 22 (memory).
func (s Share) Interval() (low, high float64) {
	if s.Whole == 0 {
		return 0, 1
	}
	n, p := float64(s.Whole), float64(s.Part)/float64(s.Whole)
	middle := p + z95*z95/(2*n)
	half := z95 * math.Sqrt(p*(1-p)/n+z95*z95/(4*n*n))
	scale := 1 + z95*z95/n
	return max((middle-half)/scale, 0), min((middle+half)/scale, 1)
}

// False counts the verdicts that name a class wrongly, in two ways.
type False struct {
	OfOthers   Share // of all pieces that are not of the class, those called so
	OfVerdicts Share // of all verdicts that name the class, those on pieces that are not
}

// FalseCalls counts the wrong verdicts of one class. Pieces with NoClass are
// not of the class.
func FalseCalls(calls []Call, class int) False {
	var f False
	for _, c := range calls {
		called, is := c.Verdict == class, c.Truth == class
		if called {
			f.OfVerdicts.Whole++
		}
		if !is {
			f.OfOthers.Whole++
		}
		if called && !is {
			f.OfOthers.Part++
			f.OfVerdicts.Part++
		}
	}
	return f
}

// UndecidedShare counts the pieces without a verdict.
func UndecidedShare(calls []Call) Share {
	s := Share{Whole: len(calls)}
	for _, c := range calls {
		if c.Verdict == Undecided {
			s.Part++
		}
	}
	return s
}

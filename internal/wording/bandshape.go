package wording

// The items of a label. A label is the string of its items: see shapes.
const (
	isNumber   = 'N'
	isBelow    = '<' // under, <, ≤: an upper edge follows
	isAbove    = '>' // over, >, ≥: a lower edge follows
	isUpTo     = 'u' // bis, hasta: an upper edge follows, alone or behind a lower one
	isAtLeast  = 'g' // from, ab, desde: a lower edge follows, alone or before an upper one
	isFrom     = 'f' // von, de: a lower edge follows, an upper one must
	isTo       = '-' // a hyphen, to: between two edges
	isBetween  = 'B'
	isAnd      = '&'
	isUp       = '+' // and more: behind a lower edge
	isDown     = '_' // and less: behind an upper edge
	isInfinity = 'i'
	isWhat     = 'v' // x, load: what is compared
	isRated    = 'r' // of rated load
	isNoise    = ' '
	isLead     = 'h' // hours: noise in front; behind the numbers it would be a band of hours
)

// bound tells which number of a label is which edge, from 1; 0 is none.
type bound struct{ from, to int }

// shapes are the forms of a label and what they say.
var shapes = map[string]bound{
	"N-N": {1, 2}, "NuN": {1, 2}, "fN-N": {1, 2}, "fNuN": {1, 2}, "gN-N": {1, 2}, "gNuN": {1, 2},
	"BN&N": {1, 2}, "BN-N": {1, 2},
	">N-N": {1, 2}, ">NuN": {1, 2}, ">N<N": {1, 2}, ">N&<N": {1, 2}, ">N-<N": {1, 2}, ">N&uN": {1, 2},
	"gN<N": {1, 2}, "gN&<N": {1, 2}, "gN-<N": {1, 2}, "N-<N": {1, 2}, "fN-<N": {1, 2}, "fN<N": {1, 2},
	"N<v<N": {1, 2}, "N>v>N": {2, 1}, "v>N<N": {1, 2}, "v>N&<N": {1, 2}, "v>N&v<N": {1, 2},
	"<N": {0, 1}, "uN": {0, 1}, "v<N": {0, 1}, "N>v": {0, 1}, "N_": {0, 1},
	">N": {1, 0}, "gN": {1, 0}, "v>N": {1, 0}, "N<v": {1, 0}, "N+": {1, 0}, "N-": {1, 0}, "N->": {1, 0},
	"N-i": {1, 0}, "gN-i": {1, 0}, "gNui": {1, 0}, "fN-i": {1, 0}, ">N-i": {1, 0}, "Nui": {1, 0}, "N<v<i": {1, 0},
}

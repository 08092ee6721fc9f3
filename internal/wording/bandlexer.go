package wording

import "strings"

// lexer turns a folded label into its items and numbers.
type lexer struct {
	items   []byte
	edges   []edge
	first   Unit // before the first number: "kg 90-180"
	ofRated bool
	symbols []bool // whether the item is a sign of comparison
}

// lex takes a label apart; ok is false where it has a word that no label has.
func lex(s string) (shape string, edges []edge, ofRated, ok bool) {
	var x lexer
	for s = strings.TrimLeft(s, " "); s != ""; s = strings.TrimLeft(s, " ") {
		if s, ok = x.next(s); !ok {
			return "", nil, false, false
		}
	}
	if len(x.edges) == 0 || len(x.edges) > 2 {
		return "", nil, false, false
	}
	if x.edges[0].unit == NoUnit {
		x.edges[0].unit = x.first
	}
	return x.shape(), x.edges, x.ofRated, true
}

// shape drops the words that say nothing; beside a sign of comparison one of
// them is what is compared.
func (x *lexer) shape() string {
	var out []byte
	for i, c := range x.items {
		if c == isNoise {
			if i+1 < len(x.items) && x.symbols[i+1] || i > 0 && x.symbols[i-1] {
				c = isWhat
			} else {
				continue
			}
		}
		out = append(out, c)
	}
	return string(out)
}

func (x *lexer) add(item byte, symbol bool) {
	x.items = append(x.items, item)
	x.symbols = append(x.symbols, symbol)
}

// signs are the signs of a label, the longer before the shorter.
var signs = []struct {
	text   string
	item   byte
	symbol bool
}{
	{"<=", isBelow, true}, {"=<", isBelow, true}, {"≤", isBelow, true}, {"⩽", isBelow, true}, {"<", isBelow, true},
	{">=", isAbove, true}, {"=>", isAbove, true}, {"≥", isAbove, true}, {"⩾", isAbove, true}, {">", isAbove, true},
	{"...", isTo, false}, {"..", isTo, false}, {"-", isTo, false}, {"÷", isTo, false}, {"~", isTo, false}, {"→", isTo, false},
	{"+", isUp, false}, {"&", isAnd, false}, {"∞", isInfinity, false}, {"@", isNoise, false},
}

// next reads one item off the front.
func (x *lexer) next(s string) (rest string, ok bool) {
	if isDigit(s[0]) || len(s) > 1 && (s[0] == '.' || s[0] == ',') && isDigit(s[1]) && (len(x.items) == 0 || x.items[len(x.items)-1] != isNumber) {
		return x.number(s)
	}
	for _, sign := range signs {
		if rest, ok := strings.CutPrefix(s, sign.text); ok {
			x.add(sign.item, sign.symbol)
			return rest, true
		}
	}
	if s[0] == '%' {
		return s[1:], x.unit(Percent)
	}
	if (s[0] == ':' || s[0] == ',' || s[0] == '=') && len(x.edges) == 0 && len(x.items) > 0 {
		return s[1:], true // between the words in front and the band
	}
	return x.word(s)
}

// number reads an edge. One that begins with 0 is part of a date or a code.
func (x *lexer) number(s string) (rest string, ok bool) {
	n := numberLength(s)
	text, rest := s[:n], s[n:]
	if len(text) > 1 && text[0] == '0' && isDigit(text[1]) || len(rest) > 1 && rest[0] == 'e' && isDigit(rest[1]) {
		return s, false
	}
	x.edges = append(x.edges, edge{text: text})
	x.add(isNumber, false)
	return rest, true
}

// numberLength is the length of the digits, marks and groups of a number.
func numberLength(s string) int {
	n, grouped := 0, true
	for n < len(s) {
		digits, rest := leadingDigits(s[n:])
		n += len(digits)
		grouped = grouped && len(digits) <= 3
		switch {
		case len(rest) < 2 || !isDigit(rest[1]):
			return n
		case rest[0] == '.' || rest[0] == ',':
			grouped = false
		case (rest[0] == ' ' || rest[0] == '\'') && grouped && s[0] != '0':
			if group, _ := leadingDigits(rest[1:]); len(group) != 3 {
				return n
			}
		default:
			return n
		}
		n++
	}
	return n
}

// unit gives the last number its unit, or the first one that follows.
func (x *lexer) unit(u Unit) bool {
	if len(x.edges) == 0 {
		if x.first != NoUnit {
			return false
		}
		x.first = u
		return true
	}
	last := &x.edges[len(x.edges)-1]
	if last.unit != NoUnit {
		return false
	}
	last.unit = u
	return true
}

// word reads the longest phrase that a label may have off the front, or a unit.
func (x *lexer) word(s string) (rest string, ok bool) {
	item, size := longestPhrase(s)
	word, after := cutWord(s)
	if u, _, ok := unitOf(word); ok && (u.IsLoad() || u == Percent) && len(word) >= size {
		return after, x.unit(u)
	}
	switch {
	case size == 0 || item == isLead && len(x.edges) > 0:
		return s, false
	case item == isRated:
		x.ofRated = true
	case item == isLead:
		x.add(isNoise, false)
	default:
		x.add(item, false)
	}
	return s[size:], true
}

// longestPhrase finds the longest phrase at the front of a text.
func longestPhrase(s string) (item byte, size int) {
	for _, row := range bandWords {
		for _, p := range row.list {
			if n := phraseLength(s, p); n > size {
				item, size = row.item, n
			}
		}
	}
	return item, size
}

// phraseLength is the length of a phrase at the front of a text, 0 if it is not
// there as whole words.
func phraseLength(s, phrase string) int {
	if !strings.HasPrefix(s, phrase) || len(s) > len(phrase) && isLetter(s[len(phrase)]) {
		return 0
	}
	return len(phrase)
}

package wording

import (
	"slices"
	"strings"
)

// Label is what the label of a band says.
type Label struct {
	// From is the lower edge, To the upper edge, in kg; in % of the rated load
	// when Unit is Percent; as written when there is no unit. From is nil where
	// the label does not say it ("under 90"), To is nil where the band is open
	// upwards. Whether an edge belongs to the band ("<" or "≤") is not kept: a
	// band has its lower edge and not its upper one, and no hours lie on an edge.
	From, To *float64
	// Unit is the one written, else the usual one, else none.
	Unit Unit
}

const (
	bandExpected = "a band of loads such as 90-180 kg, under 90 kg or over 320 kg"
	bandHint     = "write the lower and the upper edge with a hyphen between them"
	longestLabel = 200 // bytes; no label is longer
)

// Band reads the label of a load band in five languages: two edges ("90-180
// kg", "from 90 to 180", "90 ≤ load < 180", "[90,180)", "h_90_180"), one edge
// ("under 90", "bis 90", "320+", "ab 320"), in percent of the rated load
// ("100–110 %"), with a name or number in front ("band 3: 180-250", "L3
// (180–250 kg)") or words such as hours.
//
// decimal is the mark before decimals where known, usual the unit where the
// label has none (a load or [Percent]; any other counts as none). A text that
// is not a band is refused, and so is a number alone. A reversed range is
// returned as written. A thousand or a decimal that cannot be told apart is
// [ErrAmbiguous], unless another number of the label tells the mark.
func Band(s string, decimal Mark, usual Unit) (Label, error) {
	if !usual.IsLoad() && usual != Percent {
		usual = NoUnit
	}
	text := folded(s)
	if text == "" || len(text) > longestLabel || strings.IndexAny(text, "0123456789") < 0 {
		return Label{}, unreadable(s, "is not a band", bandExpected, bandHint)
	}
	b := bandReader{decimal: decimal, usual: usual}
	text = strings.TrimSuffix(underscores(text), ".")
	for _, text := range []string{text, withoutQualifier(text)} {
		if label, ok := b.numbered(text); ok {
			return label, nil
		}
		for _, candidate := range readings(text) {
			if b.twoWays {
				break
			}
			if label, ok := b.read(candidate); ok {
				return label, nil
			}
		}
	}
	if b.twoWays {
		return Label{}, ambiguous(s, "edges whose mark can only stand before decimals or only divide thousands", markHint)
	}
	return Label{}, unreadable(s, "is not a band", bandExpected, bandHint)
}

// qualifiers say of a band how it is regarded, folded; behind its edges they
// change nothing. Words that may count something, as alarm, are not among them.
var qualifiers = []string{"overload", "over load", "uberlast", "ueberlast", "surcharge", "sobrecarga", "sovraccarico", "normal", "empty", "empty platform", "leer", "leere plattform", "vide", "vacio", "vuoto", "rated", "open"}

// withoutQualifier takes a qualifier, in brackets or not, or an asterisk off the
// end; the text as it is where there is none.
func withoutQualifier(text string) string {
	if rest, ok := strings.CutSuffix(text, "*"); ok {
		return strings.TrimSpace(rest)
	}
	bare := strings.TrimSuffix(text, ")")
	for _, q := range qualifiers {
		rest, ok := strings.CutSuffix(bare, q)
		if !ok || rest == "" || isLetter(rest[len(rest)-1]) {
			continue
		}
		if bare != text {
			if rest, ok = strings.CutSuffix(rest, "("); !ok {
				continue
			}
		}
		return strings.TrimRight(rest, " -:,")
	}
	return text
}

// ratedStems are parts of the words for the rated load, folded.
var ratedStems = []string{"rated", "nenn", "swl", " rl", "nominal", "tragf", "portata", "capac"}

// OverRated reports whether a text names the loads over the rated load without a
// number: "over rated load", "> Nennlast", "> 100 % RL".
func OverRated(s string) bool {
	if len(s) > longestLabel || !strings.ContainsAny(s, ">≥") && strings.IndexByte(s, ' ') < 0 {
		return false
	}
	text := folded(s)
	if !strings.ContainsAny(text, ">≥") && !slices.ContainsFunc(ratedStems, func(stem string) bool { return strings.Contains(text, stem) }) {
		return false
	}
	if item, size := longestPhrase(text); item == isLead && size < len(text) {
		text = strings.TrimSpace(text[size:])
	}
	above := false
	for _, sign := range []string{">=", "≥", ">"} {
		if rest, ok := strings.CutPrefix(text, sign); ok {
			text, above = rest, true
			break
		}
	}
	if item, size := longestPhrase(text); !above && item == isAbove {
		text, above = text[size:], true
	}
	text = strings.TrimSpace(text)
	if rest, ok := strings.CutPrefix(text, "100"); ok {
		text = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(rest), "%"))
		if text == "rl" {
			return above
		}
	}
	item, size := longestPhrase(text)
	return above && item == isRated && size == len(text)
}

// readings are the parts of a label in which the band may stand, in the order
// in which they are tried: behind a number of the band with a mark, the whole,
// behind a number and a hyphen, within brackets at the end.
func readings(text string) []string {
	var out []string
	index, rest := cutIndex(text)
	after := strings.TrimLeft(rest, " ")
	if index && (strings.IndexByte(":=)([", after[0]) >= 0 || strings.HasPrefix(after, ". ")) {
		out = append(out, strings.TrimLeft(rest, ":=). "))
	}
	out = append(out, text)
	if after, ok := strings.CutPrefix(after, "- "); ok && index {
		out = append(out, after)
	}
	if i := strings.IndexByte(text, '('); i > 0 && strings.HasSuffix(text, ")") && isName(text[:i]) {
		out = append(out, text[i:])
	}
	return out
}

// numbered reads "band 3 180-250", where only a space divides the number of the
// band from its edge. If the whole is a band as well, of loads from 3180 kg,
// there are two readings, unless that one is reversed.
func (b *bandReader) numbered(text string) (Label, bool) {
	index, rest := cutIndex(text)
	after := strings.TrimLeft(rest, " ")
	if !index || len(after) == len(rest) || !isDigit(after[0]) && after[0] != '<' && after[0] != '>' || isDigit(text[0]) {
		return Label{}, false
	}
	label, ok := b.read(after)
	if whole, also := b.read(text); ok && also && (whole.From == nil || whole.To == nil || *whole.From < *whole.To) {
		b.twoWays = true
		return Label{}, false
	}
	return label, ok
}

// underscores puts a hyphen for the underscore between two numbers, a space
// for any other.
func underscores(s string) string {
	if strings.IndexByte(s, '_') < 0 {
		return s
	}
	b := []byte(s)
	for i := range b {
		switch {
		case b[i] != '_':
		case i > 0 && i+1 < len(b) && isDigit(b[i-1]) && isDigit(b[i+1]):
			b[i] = '-'
		default:
			b[i] = ' '
		}
	}
	return strings.Join(strings.Fields(string(b)), " ")
}

// cutIndex cuts a name and a number of one or two digits off the front: "band
// 3: 180-250", "l3 (180-250)", "3) 180-250". A word such as from is no name.
func cutIndex(text string) (ok bool, rest string) {
	name, rest := cutWord(text)
	digits, rest := leadingDigits(strings.TrimLeft(rest, " #"))
	if digits == "" || len(digits) > 2 || strings.TrimLeft(rest, " ") == "" {
		return false, rest
	}
	if name == "" {
		return true, rest
	}
	item, size := longestPhrase(name)
	return size == 0 || item == isNoise && size == len(name), rest
}

// isName reports whether what stands before brackets can be the name of a
// band: no number but a short one, no word for a sum of bands.
func isName(s string) bool {
	digits := 0
	for i := range len(s) {
		if isDigit(s[i]) {
			digits++
		}
	}
	for _, word := range strings.FieldsFunc(s, func(r rune) bool { return r < 'a' || r > 'z' }) {
		if hasWord(sums, word) {
			return false
		}
	}
	return digits <= 2
}

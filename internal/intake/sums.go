package intake

import (
	"slices"
	"strings"

	"ratchetmark/internal/wording"
)

// sums are words for a row that adds up those above it.
var sums = []string{"total", "totals", "sum", "all", "summe", "gesamt", "gesamtsumme", "somme", "totale", "suma", "somma", "Σ", "grand total", "subtotal",
	"average", "mean", "median", "max", "min", "maximum", "minimum", "mittel", "mittelwert", "durchschnitt", "moyenne", "media", "promedio"}

// total reports whether a row only adds up those above it: it is left out.
func (s *sheet) total(cells []string) bool {
	for _, i := range s.plan.sums {
		if i < len(cells) && cells[i] != "" && !startsNumber(cells[i]) && isSum(cells[i]) && (s.cols[i].Field != "" || !s.bandIn(cells)) {
			return true
		}
	}
	return false
}

// bandIn reports whether a row names a band: "min" beside one is a unit.
func (s *sheet) bandIn(cells []string) bool {
	for _, i := range [3]int{s.plan.label, s.plan.from, s.plan.to} {
		if i >= 0 && i < len(cells) && trim(cells[i]) != "" && !isSum(cells[i]) {
			return true
		}
	}
	return false
}

// isSum reports whether a cell says that its row sums others up.
func isSum(text string) bool {
	text = strings.TrimRight(trim(text), ":")
	if n := len(text); n > 0 && isDigit(text[n-1]) && text[0] != 't' && text[0] != 'T' {
		return false // as machines are mostly called
	}
	text = strings.ToLower(text)
	if rest, ok := strings.CutPrefix(text, "total "); ok {
		_, err := wording.Band(rest, wording.Unknown, wording.NoUnit)
		return err != nil // "total over 250 kg" is no sum of all
	}
	return slices.Contains(sums, text)
}

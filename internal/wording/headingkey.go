package wording

import "strings"

// articles are passed over between the words of a heading, folded.
const articles = "the of a an der die das des dem den le la les l un une el los las lo il i gli un' di della dello dell del de d du al alla"

// fillers add nothing to what a heading means, folded.
const fillers = "total gesamt totale totales current aktuell actuel actual attuale value wert valeur valor valore recorded"

// headingTokens splits a heading into its words and numbers, folded; a number
// sign in any form is "no".
func headingTokens(heading string) []string {
	text := strings.NewReplacer("n°", " no ", "№", " no ", "#", " no ", "%", " percent ").Replace(folded(heading))
	tokens := strings.FieldsFunc(text, func(r rune) bool {
		return r < 0x80 && !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9')
	})
	for i, t := range tokens {
		switch t {
		case "n", "nr", "num", "nbr", "number", "nummer", "numero":
			t = "no"
		default:
			if stem, ok := strings.CutSuffix(t, "number"); ok { // serialNumber
				t = stem + "no"
			}
		}
		tokens[i] = t
	}
	return tokens
}

// looseKey joins the words of a heading without articles between them and the
// s of plurals, and, if asked, without words that add nothing. An article at
// the end is not one: "charge de".
func looseKey(tokens []string, full bool) string {
	var kept strings.Builder
	for i, t := range tokens {
		inside := i > 0 && i+1 < len(tokens)
		if inside && hasWord(articles, t) || full && (hasWord(fillers, t) || i == 0 && hasWord(articles, t)) {
			continue
		}
		if len(t) > 3 && !strings.HasSuffix(t, "ss") {
			t = strings.TrimSuffix(t, "s")
		}
		kept.WriteString(t)
	}
	return kept.String()
}

// spellings returns a phrase as it is, and with its umlauts spelled out.
func spellings(phrase string) []string {
	if !strings.ContainsAny(phrase, "äöü") {
		return []string{phrase}
	}
	return []string{phrase, strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue").Replace(phrase)}
}

// HeadingOrder tells which order of day and month a heading announces: "Date
// (dd/mm/yyyy)", "Datum TT.MM.JJJJ", "jj/mm/aaaa", "gg/mm/aaaa", "mm/dd/yyyy".
func HeadingOrder(heading string) Order {
	tokens := strings.FieldsFunc(folded(heading), func(r rune) bool { return r < 'a' || r > 'z' })
	for i := 0; i+2 < len(tokens); i++ {
		a, b, year := tokens[i], tokens[i+1], tokens[i+2]
		switch {
		case !hasWord("yyyy jjjj aaaa yy aa", year):
		case hasWord(dayLetters, a) && hasWord("m mm", b):
			return DayFirst
		case hasWord("m mm", a) && hasWord(dayLetters, b):
			return MonthFirst
		}
	}
	return UnknownOrder
}

const dayLetters = "d dd t tt j jj g gg"

package wording

import "strings"

// HeadingUnit splits a heading into its words and the unit they are followed
// by: in brackets ("Load [lb]"), behind a slash or a comma ("Time, min"),
// behind in, en ("Last in kg"), after a space, an underscore or a capital
// ("peak_kg", "peakKg"), or a percent sign in front ("% of powered time"). A
// unit that is one of the words ("Powered hours") is told and stays. Where a
// heading has none, or one that is not known, it is returned as it is.
func HeadingUnit(heading string) (words string, unit Unit) {
	heading = strings.TrimSpace(strings.Map(plainSpace, heading))
	if rest, ok := strings.CutPrefix(heading, "%"); ok {
		return strings.TrimSpace(rest), Percent
	}
	if words, u, ok := bracketed(heading); ok {
		return words, u
	}
	if words, u := lastWord(heading); u != NoUnit {
		return words, u
	}
	return firstWord(heading)
}

func plainSpace(r rune) rune {
	if isSpace(r) {
		return ' '
	}
	return r
}

// bracketed takes a unit in brackets off the end.
func bracketed(heading string) (words string, u Unit, ok bool) {
	for _, pair := range [...]string{"[]", "()", "{}"} {
		inner, closed := strings.CutSuffix(heading, pair[1:])
		i := strings.LastIndex(inner, pair[:1])
		if !closed || i < 0 {
			continue
		}
		text := folded(inner[i+1:])
		for _, p := range [...]string{"in ", "en "} {
			text = strings.TrimPrefix(text, p)
		}
		if u, _, ok := unitOf(text); ok && !isPlural(inner[:i], inner[i:]) {
			return strings.TrimSpace(inner[:i]), u, true
		}
		if ofRatedLoad(text) {
			return strings.TrimSpace(inner[:i]), Percent, true
		}
	}
	return "", NoUnit, false
}

// ofRatedLoad reports whether a folded text is "% of rated load" or the like.
func ofRatedLoad(text string) bool {
	rest, ok := strings.CutPrefix(text, "%")
	if !ok {
		return false
	}
	rest = strings.TrimSpace(rest)
	item, size := longestPhrase(rest)
	return item == isRated && size == len(rest)
}

// isPlural reports whether "(s)" makes a word a plural, as in "person(s)";
// behind a word for time it stands for seconds.
func isPlural(words, bracket string) bool {
	words = folded(words)
	if bracket != "(s" || words == "" || !isLetter(words[len(words)-1]) {
		return false
	}
	for _, time := range [...]string{"time", "zeit", "dauer", "duration", "duree", "temps", "tiempo", "tempo", "duracion", "durata"} {
		if strings.HasSuffix(words, time) {
			return false
		}
	}
	return true
}

// firstWord takes a unit of load that is the first word off the front: "kg from".
func firstWord(heading string) (string, Unit) {
	i := strings.IndexAny(heading, " _/,;|:")
	if i < 0 {
		return heading, NoUnit
	}
	u, name, ok := unitOf(folded(heading[:i]))
	if !ok || name || u != Kilogram && u != Pound {
		return heading, NoUnit
	}
	return strings.TrimLeft(heading[i:], " _/,;|:"), u
}

// lastWord takes a unit that is the last word off the end, with what sets it apart.
func lastWord(heading string) (string, Unit) {
	at := lastStart(heading)
	u, name, ok := unitOf(folded(heading[at:]))
	if i := strings.LastIndexAny(heading, " _/,;|-") + 1; i < at { // "Peak kN" ends in one word
		if whole, _, isUnit := unitOf(folded(heading[i:])); isUnit {
			at, u, name, ok = i, whole, false, true
		}
	}
	if !ok {
		return heading, NoUnit
	}
	words, apart := setApart(heading[:at])
	switch {
	case u == Minute && folded(heading[at:]) == "min" && (words == "" || aboutLoad(words)):
		return heading, NoUnit // the least load
	case name && !apart, u == Percent && name:
		return heading, u // one of the words
	}
	return words, u
}

// lastStart finds where the last word begins: behind a divider or at a capital
// after a small letter.
func lastStart(s string) int {
	for i := len(s) - 1; i > 0; i-- {
		c := s[i]
		switch {
		case strings.IndexByte(" _/,;|-", c) >= 0:
			return i + 1
		case c == '%':
			return i
		case c >= 'A' && c <= 'Z' && isLetter(s[i-1]):
			return i
		}
	}
	return 0
}

// setApart cuts what stands between the words and their unit; apart reports
// whether that is more than a space or an underscore.
func setApart(words string) (rest string, apart bool) {
	rest = strings.TrimSpace(words)
	short := strings.TrimRight(rest, "_/,;|-: ")
	apart = len(short) < len(strings.TrimRight(rest, "_ "))
	for _, p := range [...]string{" in", " en", "_in", "_en"} {
		if len(short) > len(p) && strings.EqualFold(short[len(short)-len(p):], p) {
			return strings.TrimSpace(short[:len(short)-len(p)]), true
		}
	}
	return strings.TrimSpace(short), apart
}

// loadStems are parts of words by which a heading is about loads, folded. From
// memory: general usage.
const loadStems = "load last gewicht weight charg carg caric peso poid kraft limit grenz band bereich class klasse"

func aboutLoad(words string) bool {
	words = folded(words)
	for _, stem := range strings.Fields(loadStems) {
		if strings.Contains(words, stem) {
			return true
		}
	}
	return false
}

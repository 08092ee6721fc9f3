package wording

import (
	"strings"
	"sync"
)

// Near returns the wording of a heading that a text with a slip of the pen may
// mean: one letter too many, too few, wrong or exchanged, two in a longer text.
// ok is false where there is none, where several wordings of other meanings are
// as near, and for short texts.
func Near(heading string) (phrase string, ok bool) {
	words, _ := HeadingUnit(heading)
	text := strings.Join(headingTokens(words), "")
	if len(text) < 5 || len(text) > 40 || lookup(words) != nil || strings.ContainsAny(text, "0123456789") {
		return "", false
	}
	least := 1
	if len(text) >= 9 {
		least = 2
	}
	least++
	var field Field
	var found string
	for _, w := range nearWords() {
		if w.key[0] != text[0] || len(w.key)-len(text) >= least || len(text)-len(w.key) >= least || w.key == found {
			continue
		}
		switch d := slips(text, w.key, least); {
		case d < least:
			least, phrase, field, found, ok = d, w.phrase, w.field, w.key, true
		case d == least && ok && w.field != field:
			ok = false
		}
	}
	return phrase, ok
}

type nearWord struct {
	key, phrase string
	field       Field
}

// nearWords lists the wordings of headings as they are compared, once.
var nearWords = sync.OnceValue(func() (out []nearWord) {
	for _, rows := range [...][]fieldRow{fieldWords, bandFieldWords} {
		for _, row := range rows {
			for p := range strings.SplitSeq(row.phrases, ";") {
				if key := strings.Join(headingTokens(p), ""); len(key) >= 5 {
					out = append(out, nearWord{key, p, row.field})
				}
			}
		}
	}
	return out
})

// slips counts the letters by which two texts differ, exchanged neighbours as
// one (the distance of Damerau 1964 and Levenshtein 1966, from memory), up to most.
func slips(a, b string, most int) int {
	if len(a)-len(b) > most || len(b)-len(a) > most {
		return most + 1
	}
	before, last, now := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		now[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			now[j] = min(last[j]+1, now[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				now[j] = min(now[j], before[j-2]+1)
			}
		}
		before, last, now = last, now, before
	}
	return last[len(b)]
}

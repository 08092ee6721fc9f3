package table

import (
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// codePage is one of the ways in which text of one byte a character is written.
type codePage struct {
	name string
	of   *charmap.Charmap
}

// codePages are those that are told apart; the first where nothing tells.
var codePages = []codePage{
	{"Windows-1252, which holds ISO 8859-1", charmap.Windows1252},
	{"code page 850, as older programs for DOS and some loggers write it", charmap.CodePage850},
	{"Mac OS Roman", charmap.Macintosh},
}

// accented are the letters beyond ASCII of the five languages.
const accented = "äöüßÄÖÜéèêëàâáçîïíìóòôúùûñœæÉÈÊËÀÂÁÇÎÏÍÌÓÒÔÚÙÛÑ"

// pageOf tells in which code page a text is written: Windows-1252, unless a byte
// within a word is no letter of the five languages there, and another page makes
// letters of more of them.
func pageOf(text []byte) codePage {
	odd, letters := false, make([]int, len(codePages))
	for k, b := range text {
		if b < utf8.RuneSelf || !besideLetter(text, k) {
			continue
		}
		odd = odd || oddIn1252(text, k)
		for i, page := range codePages {
			r := page.of.DecodeByte(b)
			capital := k > 0 && text[k-1] >= 'a' && text[k-1] <= 'z' && unicode.IsUpper(r)
			if isAccented(r) && !capital {
				letters[i]++
			}
		}
	}
	best := 0
	for i := range codePages {
		if odd && letters[i] > letters[best] {
			best = i
		}
	}
	return codePages[best]
}

// oddIn1252 reports whether a byte stands in a word as nothing does in
// Windows-1252: a sign between two letters, other than an apostrophe or a dash,
// or a letter or a control character that the five languages do not have.
func oddIn1252(text []byte, i int) bool {
	r := charmap.Windows1252.DecodeByte(text[i])
	between := isLetterAt(text, i-1) && isLetterAt(text, i+1)
	begins := !isLetterAt(text, i-1) && isLetterAt(text, i+1) && isLetterAt(text, i+2)
	switch {
	case isAccented(r) || r == '’' || r == '‘' || r == '–' || r == '\u00a0':
		return false
	case unicode.IsLetter(r) || unicode.IsControl(r) || r == utf8.RuneError:
		return between || begins
	}
	return between
}

func besideLetter(text []byte, i int) bool {
	return isLetterAt(text, i-1) || isLetterAt(text, i+1)
}

func isLetterAt(text []byte, i int) bool {
	return i >= 0 && i < len(text) && (text[i] >= 'a' && text[i] <= 'z' || text[i] >= 'A' && text[i] <= 'Z')
}

func isAccented(r rune) bool {
	for _, a := range accented {
		if a == r {
			return true
		}
	}
	return false
}

package intake_test

import (
	"testing"

	"ratchetmark/internal/intake"
)

// The direction marks of Unicode Standard Annex 9, Table 4 and section 2, and
// other characters that do not show.
func TestVisible(t *testing.T) {
	for text, want := range map[string]string{
		"":                       "",
		"NF-07":                  "NF-07",
		"ä漢😀é":                   "ä漢😀é",
		"two\nlines\tand a tab":  "two\nlines\tand a tab",
		"<b>&\"'":                "<b>&\"'",
		"a\x00b":                 "a[U+0000]b",
		"\x1b[31m":               "[U+001B][31m",
		"a\rb":                   "a[U+000D]b",
		"a\u0085b":               "a[U+0085]b",
		"\u202aLRE":              "[U+202A]LRE",
		"\u202bRLE":              "[U+202B]RLE",
		"\u202cPDF":              "[U+202C]PDF",
		"\u202dLRO":              "[U+202D]LRO",
		"\u202eRLO":              "[U+202E]RLO",
		"\u2066LRI":              "[U+2066]LRI",
		"\u2067RLI":              "[U+2067]RLI",
		"\u2068FSI":              "[U+2068]FSI",
		"\u2069PDI":              "[U+2069]PDI",
		"\u200eLRM":              "[U+200E]LRM",
		"\u200fRLM":              "[U+200F]RLM",
		"\u061cALM":              "[U+061C]ALM",
		"zero\u200bwidth":        "zero[U+200B]width",
		"\ufeffmark":             "[U+FEFF]mark",
		"soft\u00adhyphen":       "soft[U+00AD]hyphen",
		"not UTF-8 \xff\xfe":     "not UTF-8 \ufffd",
		"tag \U000e0041":         "tag [U+E0041]",
		"[U+202E] spelled out":   "[U+202E] spelled out",
		"NF-07\u202e70-FN":       "NF-07[U+202E]70-FN",
		"\xff and \x00 together": "\ufffd and [U+0000] together",
	} {
		got, changed := intake.Visible(text)
		if got != want || changed != (text != want) {
			t.Errorf("%q: got %q, %v, want %q", text, got, changed, want)
		}
	}
}

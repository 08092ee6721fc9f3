package intake_test

import (
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/intake"
)

func TestParseNumber(t *testing.T) {
	for text, want := range map[string]float64{
		"0": 0, "412": 412, "412.6": 412.6, "412,6": 412.6, "-0,5": -0.5, "+3": 3, " 7 ": 7, "\u00a07\u00a0": 7, "007": 7,
		"0.123": 0.123, "0,123": 0.123, "1234,567": 1234.567, "1.23": 1.23, "1,2345": 1.2345, "1e3": 1000, "1,5E-3": 0.0015,
		"1.234e5": 123400, "1e308": 1e308, "1e-400": 0,
	} {
		if got, err := intake.ParseNumber(text); err != nil || got != want {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
	// One mark with three digits after and one to three before: common practice
	// in writing thousands and decimals, no source.
	for _, text := range []string{"1,234", "1.234", "12,345", "412.650", "-1,234", "+1.000"} {
		if got, err := intake.ParseNumber(text); err != intake.ErrAmbiguous {
			t.Errorf("%q: got %v, %v, want it asked about", text, got, err)
		}
	}
	for text, fault := range map[string]string{
		"": "is not a number", " ": "is not a number", "about twelve": "is not a number", "NaN": "is not a number", "Inf": "is not a number", "Infinity": "is not a number",
		"-": "is not a number", "--1": "is not a number", "+-1": "is not a number", "1-": "is not a number", ".5": "is not a number", "5.": "is not a number", ",": "is not a number",
		"1.234.567": "is not a number", "1,234,567": "is not a number", "1,234.5": "is not a number", "1 234": "is not a number", "1'234": "is not a number", "12 h": "is not a number",
		"0x10": "is not a number", "1_000": "is not a number", "1e": "is not a number", "1e+": "is not a number", "1e+-5": "is not a number", "e5": "is not a number", "\u0661": "is not a number", "\u22125": "is not a number",
		"1e309": "is too large", "1e999": "is too large", "-1e999": "is too large",
	} {
		if got, err := intake.ParseNumber(text); err == nil || !strings.HasSuffix(err.Error(), fault) {
			t.Errorf("%q: got %v, %v, want it %s", text, got, err, fault)
		}
	}
}

func TestParseTime(t *testing.T) {
	want := time.Date(2026, 3, 2, 8, 10, 0, 0, time.UTC)
	for _, text := range []string{"2026-03-02T08:10:00Z", "2026-03-02T09:10:00+01:00", "2026-03-02T08:10:00", "2026-03-02T08:10", "2026-03-02 08:10:00", "2026-03-02 08:10", " 2026-03-02 08:10 "} {
		if got, err := intake.ParseTime(text); err != nil || !got.Equal(want) || got.Location() != time.UTC {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
	if got, err := intake.ParseTime("2026-03-02"); err != nil || !got.Equal(want.Truncate(24*time.Hour)) {
		t.Errorf("a day: got %v, %v, want its beginning", got, err)
	}
	// Day and month are not told apart in the forms with points or strokes: not guessed at.
	for _, text := range []string{
		"", "2.3.2026", "02/03/2026", "3/2/26 8:10", "2026-02-30", "2026-13-01", "2026-03-02T25:10:00Z", "March 2", "20260302",
		"2026-03-02T08:10:00+24:00", "9999-12-31T23:59:59-01:00", "0000-01-01T00:00:00+01:00", // cannot be written again
	} {
		if got, err := intake.ParseTime(text); err == nil {
			t.Errorf("%q: got %v, want an error", text, got)
		}
	}
}

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

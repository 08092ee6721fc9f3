package model

import (
	"errors"
	"strconv"
	"strings"

	"ratchetmark/internal/wording"
)

// mostStepped is the highest number that a stepper makes; nothing here counts further.
const mostStepped = 1e9

// Type puts a text into a field of the form. Where the upper edge of a band is
// typed, the band above follows if it began there.
func (m *Model) Type(x Field, text string) {
	f := &m.Form
	if f.slot(x) == nil {
		return // its line was removed meanwhile
	}
	s := step{what: x.Path().Words(), field: x.ID(), back: x.ID(), forth: x.ID(), part: x.part, line: x.I, edges: x.isEdge()}
	m.edit(s, func() {
		if x.part == OfBand && x.name == "to_kg" {
			f.followEdge(x.I, x.J, text)
		}
		*f.slot(x) = text
	})
}

// followEdge moves the lower edge of the band above to where this one will end.
func (f *Form) followEdge(i, j int, to string) {
	bands := f.Readings[i].Bands
	if j+1 < len(bands) && bands[j+1].From == bands[j].To {
		bands[j+1].From = to
	}
}

// Step adds so many steps to the number in a field, or takes them off where
// times is negative; never below zero. A blank field starts from what the last
// reading had. A text that is no number stays, and the field says why.
func (m *Model) Step(x Field, times int) {
	f := &m.Form
	text := f.Typed(x)
	if strings.TrimSpace(text) == "" {
		text = f.Last(x, f.Earlier(x.I))
	}
	next, err := stepped(text, x.step, times, f.comma(), 0, mostStepped)
	if err != nil {
		if f.Problem(x.Path()) == "" {
			number[float64](f, x.Path(), text)
		}
		return
	}
	m.Type(x, next)
}

// stepped adds so many times a step to a number written by a person, and writes
// it with the mark for decimals that it had, else with a comma or a point as
// told. The result lies between least and most and is never one that can be read
// two ways.
func stepped(text string, by float64, times int, comma bool, least, most float64) (string, error) {
	x := 0.0
	if strings.TrimSpace(text) != "" {
		var err error
		if x, err = wording.Number(text, wording.Unknown); err != nil {
			return "", err
		}
	}
	mark, digits := decimals(text)
	if by != float64(int64(by)) {
		digits = max(digits, 1)
	}
	out := strconv.FormatFloat(min(max(x+by*float64(times), least), most), 'f', digits, 64)
	if mark == ',' || mark == 0 && comma {
		out = strings.Replace(out, ".", ",", 1)
	}
	if _, err := wording.Number(out, wording.Unknown); errors.Is(err, wording.ErrAmbiguous) {
		out += "0"
	}
	return out, nil
}

// decimals returns the mark for decimals of a number that can be read, 0 where
// it has none, and counts the digits after it, of which six are enough. A mark
// that stands twice is one between thousands.
func decimals(text string) (mark byte, digits int) {
	text = strings.TrimSpace(text)
	i := strings.LastIndexAny(text, ".,")
	if i < 0 || strings.Count(text, text[i:i+1]) > 1 || strings.ContainsAny(text, "eE") {
		return 0, 0
	}
	return text[i], min(len(text)-i-1, 6)
}

// comma reports whether the person writes decimals with a comma: the last mark
// in the readings tells.
func (f *Form) comma() bool {
	for i := len(f.Readings) - 1; i >= 0; i-- {
		r := &f.Readings[i]
		texts := r.Moving + r.Powered + r.Peak
		for _, b := range r.Bands {
			texts += b.Hours + b.To
		}
		if strings.ContainsAny(texts, ".,") {
			return strings.LastIndexByte(texts, ',') > strings.LastIndexByte(texts, '.')
		}
	}
	return false
}

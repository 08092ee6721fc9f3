package intake

import (
	"slices"
	"strings"

	"ratchetmark/internal/wording"
)

// overRated is the label of the loads over the rated load.
func overRated() *wording.Label {
	hundred := 100.0
	return &wording.Label{From: &hundred, Unit: wording.Percent}
}

// rowLabel reads the label of a band in a row. There, words without a number
// behind the edges are a remark: "100-250 kg normal use". In a heading they may
// say what is counted.
func rowLabel(text string, decimal wording.Mark, unit wording.Unit) (wording.Label, error) {
	label, err := wording.Band(text, decimal, unit)
	if err == nil || ambiguous(err) {
		return label, err
	}
	if wording.OverRated(text) {
		return *overRated(), nil
	}
	if rest := withoutRemark(text); rest != "" {
		if label, err2 := wording.Band(rest, decimal, unit); err2 == nil {
			return label, nil
		}
	}
	return label, err
}

// withoutRemark cuts the words behind the last number and its unit off; empty
// where there are none, or where they speak of a sum or deny something.
func withoutRemark(text string) string {
	words := strings.Fields(text)
	cut := len(words)
	for cut > 0 && !strings.ContainsAny(words[cut-1], "0123456789<>+-–") {
		cut--
	}
	if cut == 0 || cut == len(words) || len(words)-cut > 4 {
		return ""
	}
	remark := strings.ToLower(strings.Trim(strings.Join(words[cut:], " "), "()[]"))
	if denies(remark) || slices.ContainsFunc(strings.Fields(remark), isSum) {
		return ""
	}
	if _, unit := wording.HeadingUnit("x [" + words[cut] + "]"); unit != wording.NoUnit {
		cut++
	}
	return strings.Join(words[:cut], " ")
}

// loadWithRemark takes a load that something stands beside which says no more of
// it, as a plate does: "230 kg (500 lb)", "250 kg / 2 persons", "320 kg on 3
// March 2025". It returns the load alone, and the rest; ok is false for another.
func (c *cell) loadWithRemark() (load, rest string, ok bool) {
	text := c.text
	if isPlainNumber(text) {
		return "", "", false
	}
	for _, word := range []string{"max ", "max. ", "maximum "} {
		if len(text) > len(word) && strings.EqualFold(text[:len(word)], word) {
			text = strings.TrimSpace(text[len(word):])
		}
	}
	at := len(text)
	for _, mark := range []string{"(", "/", "@", ";", " on ", " am ", " at ", " le ", " il ", " el ", " bei "} {
		if i := strings.Index(text, mark); i > 0 {
			at = min(at, i)
		}
	}
	load = strings.TrimSpace(text[:at])
	rest = strings.Trim(text[at:], " ()/@;")
	if load == "" || load == c.text {
		return "", "", false
	}
	x, unit, err := wording.Quantity(load, c.mark(), c.unit)
	if err != nil || !unit.IsLoad() {
		return "", "", false
	}
	return load, rest, rest == "" || c.saysNoMore(rest, x)
}

// saysNoMore reports whether what stands beside a load is the same load in
// another unit, a number of persons, a time, or words.
func (c *cell) saysNoMore(rest string, x float64) bool {
	if y, unit, err := wording.Quantity(rest, c.mark(), wording.NoUnit); err == nil {
		return unit.IsLoad() && max(x, y)-min(x, y) < 0.02*max(x, y) // plates round: 230 kg (500 lb)
	}
	if strings.Contains(strings.ToLower(rest), "pers") {
		return true
	}
	if _, ok := c.timeBeside(rest); ok {
		return true
	}
	return !strings.ContainsAny(rest, "0123456789")
}

// timeBeside reads a time that stands beside a load, with or without "on" before it.
func (c *cell) timeBeside(rest string) (*cell, bool) {
	for _, word := range []string{"on ", "am ", "at ", "le ", "il ", "el "} {
		if len(rest) > len(word) && strings.EqualFold(rest[:len(word)], word) {
			rest = rest[len(word):]
		}
	}
	at := *c
	at.text = strings.ReplaceAll(strings.ReplaceAll(strings.TrimSpace(rest), " at ", " "), " um ", " ")
	_, _, _, err := wording.Time(at.text, c.s.dialect.dates, c.s.dialect.zone)
	return &at, err == nil
}

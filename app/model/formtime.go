package model

import (
	"strings"
	"time"

	"ratchetmark/internal/record"
	"ratchetmark/internal/wording"
)

// readTime reads a time as a person writes it, in UTC unless it names its zone.
func readTime(text string) (time.Time, error) {
	t, _, _, err := wording.Time(text, wording.UnknownOrder, time.UTC)
	return t.UTC(), err
}

// time reads a time; ok is false for a blank and for what is not one.
func (f *Form) time(at record.Path, text string) (t time.Time, ok bool) {
	if strings.TrimSpace(text) == "" {
		return t, false
	}
	t, err := readTime(text)
	if err != nil {
		f.problem(at, err.Error())
		return t, false
	}
	return t, true
}

func (f *Form) date(at record.Path, text string) *record.Date {
	text = strings.TrimSpace(text)
	if text == "" {
		return nil
	}
	d, err := record.ParseDate(text)
	if err != nil {
		f.problem(at, "a date such as 2026-03-02 is expected")
		return nil
	}
	return &d
}

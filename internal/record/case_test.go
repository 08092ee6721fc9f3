package record_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/record"
)

// at reads a time such as 2026-03-02 08:10.
func at(s string) time.Time {
	t, err := time.Parse("2006-01-02 15:04", s)
	if err != nil {
		panic(err)
	}
	return t
}

func kg(x float64) *record.Kilogram { return record.Of(record.Kilogram(x)) }

func hour(x float64) *record.Hour { return record.Of(record.Hour(x)) }

// bands makes bands from edges and hours; with one hour more than edges pairs
// the last band is open upwards.
func bands(edges []float64, hours ...float64) []record.Band {
	var out []record.Band
	for i, h := range hours {
		b := record.Band{From: record.Kilogram(edges[i]), Hours: record.Hour(h)}
		if i+1 < len(edges) {
			b.To = kg(edges[i+1])
		}
		out = append(out, b)
	}
	return out
}

var edges = []float64{0, 80, 160, 240, 320}

// reading makes a reading of an invented scissor lift.
func reading(when string, powered, moving, peak float64, hours ...float64) record.Reading {
	return record.Reading{At: at(when), Powered: hour(powered), Moving: hour(moving), Peak: kg(peak), Bands: bands(edges, hours...)}
}

// sound makes an invented case of two readings in which no rule finds anything.
func sound() *record.Case {
	return &record.Case{
		Format: record.Format,
		Machine: record.Machine{
			ID: "T-01", Kind: record.Scissor, RatedLoad: kg(240), Persons: record.Of(2),
			LoadSensing: kg(268), Mass: kg(2500), InService: &record.Date{Time: at("2025-06-02 00:00")},
		},
		Readings: []record.Reading{
			reading("2026-02-02 08:10", 40, 14, 221, 18, 14, 8, 0, 0),
			reading("2026-03-02 08:10", 62, 21.5, 228, 28, 21, 13, 0, 0),
		},
		Custody: []record.Custody{
			{From: at("2026-01-05 07:00"), To: at("2026-02-02 07:00"), Holder: record.Hire, Who: "hirer A"},
			{From: at("2026-02-02 07:00"), To: at("2026-02-02 09:00"), Holder: record.Transit, Who: "haulier A"},
			{From: at("2026-02-02 09:00"), To: at("2026-04-01 09:00"), Holder: record.Depot, Who: "depot yard"},
		},
		Events: []record.Event{{At: at("2026-01-20 10:30"), Kind: record.PeakRise, Load: kg(221)}},
		Daily:  []record.Daily{{Date: record.Date{Time: at("2026-01-20 00:00")}, Powered: hour(3), Moving: hour(1)}},
		Checks: []record.LoadCheck{
			{At: at("2026-03-02 08:15"), Kind: record.ZeroCheck, Shown: kg(-2), By: "fitter A"},
			{At: at("2026-03-02 08:20"), Kind: record.MassCheck, Shown: kg(151), Mass: kg(150)},
		},
		TieDowns: []record.TieDown{{At: at("2026-02-02 08:00"), Over: record.Of(false), How: record.Pictured}},
	}
}

// codes lists what a check finds, as "code at where".
func codes(c *record.Case) []string {
	var out []string
	for _, f := range record.Check(c) {
		out = append(out, f.Code+" at "+f.Where)
	}
	return out
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if diff := got - want; diff > 1e-9 || diff < -1e-9 || got != got {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

func equal[T comparable](t *testing.T, what string, got, want T) {
	t.Helper()
	if got != want {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// hoursText writes the hours of bands for a comparison.
func hoursText(bs []record.Band) string {
	var out []string
	for _, b := range bs {
		out = append(out, fmt.Sprint(float64(b.Hours)))
	}
	return strings.Join(out, " ")
}

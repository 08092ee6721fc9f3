package model

import (
	"encoding/json"
	"strings"
	"testing"

	"ratchetmark/internal/lashing"
)

// field names a field of the ride by its name in the case.
func field(name string) string { return "ride-" + strings.ReplaceAll(name, "_", "-") }

// Every field shows its usual value, takes another one, and leads to another
// answer or card; what it takes is in the case, and undone by what it showed.
func TestRideFields(t *testing.T) {
	for _, v := range []struct {
		name, usual, next string
		in                func(m *Model) string // what has to change
	}{
		{"device", "web-50", "chain-8", strapOf}, {"route", "rails", "mount", strapOf}, {"edge", "rail", "rough", strapOf}, {"blocked", "false", "true", strapOf},
		{"straps", "1", "3", strapOf}, {"angle_deg", "60", "85", strapOf},
		{"mass_kg", "6840", "9200", heldOf}, {"rule", lashing.EN, lashing.CFR, heldOf}, {"friction", "0.3", "0.45", heldOf}, {"lowered", "", "true", findingsOf},
		{"block_dan", "", "500", heldOf}, {"gravity_height_m", "", "9", findingsOf}, {"track_m", "", "0,1", findingsOf}, {"length_m", "", "99", findingsOf},
		{"briefed_on", "", "2025-07-01", func(m *Model) string { return m.BriefedInputs()[0].Text }},
		{"language", "en", "de", func(m *Model) string { return m.Card().Title }},
	} {
		m, d := opened(t, lashed())
		m.AddLashing()
		x := field(v.name)
		if got := at(t, m, x).Text; got != v.usual {
			t.Errorf("%s: got %q at first, want %q", v.name, got, v.usual)
		}
		before, puts := v.in(m), d.puts
		fill(t, m, x, v.next)
		if after := v.in(m); after == before || at(t, m, x).Problem != "" {
			t.Errorf("%s: got %q as before (%q), want it changed", v.name, after, at(t, m, x).Problem)
		}
		if d.puts == puts || !m.Case().Changed {
			t.Errorf("%s: got it not kept or not marked as changed", v.name)
		}
		if x := at(t, m, x); x.Label == "" || x.As == AsChoice && len(x.Choices) < 2 {
			t.Errorf("%s: got no label, id or choices", v.name)
		}
		fill(t, m, x, v.usual)
		if after := v.in(m); after != before {
			t.Errorf("%s: got %q after it was put back, want %q", v.name, after, before)
		}
	}
}

func strapOf(m *Model) string {
	text, _ := json.Marshal(m.Case().Dossier.Transport.Strap)
	return string(text)
}

func heldOf(m *Model) string {
	text, _ := json.Marshal(m.Case().Dossier.Transport.Held)
	return string(text)
}

func findingsOf(m *Model) string {
	text, _ := json.Marshal(m.Case().Dossier.Transport.Findings)
	return string(text)
}

// What cannot be read stays as it was typed, with the reason; the figure in use
// stays too.
func TestRideRefusals(t *testing.T) {
	for name, text := range map[string]string{"mass_kg": "6,840", "friction": "much", "straps": "1.5", "angle_deg": "steep", "briefed_on": "last week", "block_dan": "--"} {
		m, _ := opened(t, lashed())
		m.AddLashing()
		before := heldOf(m) + strapOf(m)
		fill(t, m, field(name), text)
		if at(t, m, field(name)).Problem == "" || at(t, m, field(name)).Text != text || heldOf(m)+strapOf(m) != before {
			t.Errorf("%s: got %q with %q, want it kept, the reason said and nothing changed", name, at(t, m, field(name)).Text, at(t, m, field(name)).Problem)
		}
		fill(t, m, field(name), "")
		if at(t, m, field(name)).Problem != "" {
			t.Errorf("%s: got %q of an empty field, want nothing", name, at(t, m, field(name)).Problem)
		}
	}
}

// A dangerous figure is refused by the rule: nothing is worked out from it.
func TestDangerousRide(t *testing.T) {
	m, _ := opened(t, lashed())
	m.AddLashing()
	fill(t, m, field("friction"), "0.9")
	if h := m.Case().Dossier.Transport.Held; len(h.Margins) != 0 || h.OK || !strings.Contains(findingsOf(m), "no row of the table") {
		t.Errorf("got %+v, want nothing worked out", h)
	}
	fill(t, m, field("friction"), "0.3")
	fill(t, m, "ride-way-1", "over")
	fill(t, m, "ride-angle-1", "5")
	if h := m.Case().Dossier.Transport.Held; len(h.Margins) != 0 || !strings.Contains(findingsOf(m), "hardly presses") {
		t.Errorf("got %+v, want a flat strap refused", h)
	}
}

// Lashings begin as four chains in pairs, are added and taken away row by row.
func TestLashingRows(t *testing.T) {
	m, d := opened(t, lashed())
	rows := m.Lashings
	m.AddLashing()
	if rows() != 2 || !m.Case().Dossier.Transport.Held.OK {
		t.Fatalf("got %d rows, want two that hold it", rows())
	}
	fill(t, m, "ride-count-2", "x")
	fill(t, m, "ride-plan-2", "")
	for _, name := range []string{"count", "plan"} {
		if at(t, m, field(name)+"-2").Problem == "" {
			t.Errorf("%s: got no problem, want one", name)
		}
	}
	m.AddLashing()
	fill(t, m, "ride-gear-3", "web-50-long")
	m.RemoveLashing(1)
	if rows() != 2 || at(t, m, "ride-gear-2").Text != "web-50-long" || at(t, m, "ride-count-2").Problem != "" {
		t.Errorf("got %v, want the second row gone with what was refused in it", m.Case().Group.Case.Transport.Lashings)
	}
	for range 40 {
		m.AddLashing()
	}
	if rows() != mostLashings {
		t.Errorf("got %d rows, want %d at most", rows(), mostLashings)
	}
	for rows() > 0 {
		m.RemoveLashing(0)
	}
	m.RemoveLashing(0)
	if m.Case().Dossier.Transport.Held != nil || len(d.shown) == 0 {
		t.Error("got it held by nothing, want nothing said")
	}
}

// Changes do not reach into what was kept or into another copy of the case, and
// a correction that is under way does not bring back what was.
func TestRideIsItsOwnCopy(t *testing.T) {
	m, _ := opened(t, lashed())
	m.AddLashing()
	before := m.Case().Group.Case.Transport
	m.Correct()
	fill(t, m, "ride-gear-1", "chain-13")
	fill(t, m, field("mass_kg"), "7000")
	if before.Lashings[0].Gear != "chain-8" {
		t.Errorf("got %s in the older copy, want it left alone", before.Lashings[0].Gear)
	}
	m.Finish()
	c := m.Case().Group.Case
	if c.Transport == nil || c.Transport.Lashings[0].Gear != "chain-13" || *c.Machine.Mass != 7000 {
		t.Errorf("got %+v and %v after the correction, want what was set meanwhile", c.Transport, *c.Machine.Mass)
	}
}

// The card says what the sheet says, and leads back to it; it is saved as a picture.
func TestCardPage(t *testing.T) {
	m, d := opened(t, fileOf("lash", "held-en.case.json"), fileOf("demo", "clean.case.json"))
	m.Choose(0)
	m.ShowCard()
	if m.Page != CardPage {
		t.Fatalf("got page %d, want the card", m.Page)
	}
	text := m.Card().Text()
	for _, want := range []string{"NF-31, 6840 kg", "148 % forward", "chain 8 mm: to the rear", "609 to 1599 kg, up to 695 %", "haulier C: the peak rose on 1 of 1"} {
		if !strings.Contains(text, want) {
			t.Errorf("got no %q in\n%s", want, text)
		}
	}
	if all, machines := m.Trips(); machines != 2 || len(all) != 16 {
		t.Errorf("got %d trips of %d machines, want 16 of 2", len(all), machines)
	}
	fill(t, m, field("route"), "none")
	if text := m.Card().Text(); strings.Contains(text, "loads it like") {
		t.Errorf("nothing over the platform: got\n%s", text)
	}
	m.SaveCard("<svg/>")
	if d.saved["NF-31.card.svg"] != "<svg/>" {
		t.Errorf("got %v saved, want the picture", d.saved)
	}
	m.GoSheet()
	if m.Page != Sheet {
		t.Error("got no way back to the sheet")
	}
}

// Every lashing of the table has a kind that the card has a word for.
func TestKinds(t *testing.T) {
	for i := range lashing.Gears {
		g := &lashing.Gears[i]
		if kind, size := kindOf(g); size == g.Name || !strings.ContainsAny(size, "0123456789") || kind == "" {
			t.Errorf("%s: got %q and %q, want a kind and a size", g.Name, kind, size)
		}
	}
}

package capacity_test

import (
	"math"
	"strings"
	"testing"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

const (
	read     = assume.Read
	restated = assume.Restated
	memory   = assume.Memory
)

// Every value of the rules beside its source, as the reference has it.
func TestRuleValues(t *testing.T) {
	for _, v := range []struct {
		choice capacity.Choice
		param  capacity.Param
		want   float64
		unit   capacity.Unit
		source string
		status assume.Status
	}{
		{capacity.Choice{Edition: capacity.EN2022}, capacity.FurtherPerson, 80, capacity.Kg, "EN 280-1:2022, 4.2", memory},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.Tools, 40, capacity.Kg, "EN 280-1:2022, 4.2", memory},
		{capacity.Choice{Edition: capacity.EN2001}, capacity.FirstPerson, 80, capacity.Kg, "EN 280:2001 to 2015, 5.2.2.1", memory},
		{capacity.Choice{Edition: capacity.ISO}, capacity.FirstPerson, 80, capacity.Kg, "ISO 16368", memory},
		{capacity.Choice{Edition: capacity.ANSI}, capacity.FurtherPerson, 175, capacity.Lb, "ANSI/SAIA A92.20", memory},
		{capacity.Choice{Edition: capacity.ANSI}, capacity.Tools, 90, capacity.Lb, "ANSI/SAIA A92.20", memory},
		{capacity.Choice{Edition: capacity.Decree1947}, capacity.FirstPerson, 165, capacity.Kg, "decree 47-1592, art. 26a", read},
		{capacity.Choice{Edition: capacity.Decree1947}, capacity.FurtherPerson, 100, capacity.Kg, "decree 47-1592, art. 26a", read},
		{capacity.Choice{Edition: capacity.ANSI}, capacity.WindowFrom, 100, capacity.Percent, "ANSI/SAIA A92.20", restated},
		{capacity.Choice{Edition: capacity.ANSI}, capacity.WindowTo, 120, capacity.Percent, "ANSI/SAIA A92.20", restated},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.WindowTo, 120, capacity.Percent, "EN 280-1:2022, 4.4.1.2", memory},
		{capacity.Choice{Edition: capacity.EN2001}, capacity.WindowTo, 120, capacity.Percent, "EN 280:2001 to 2015, 5.4.1.2", memory},
		{capacity.Choice{Edition: capacity.GOST}, capacity.WindowTo, 110, capacity.Percent, "GOST R 53037-2008, 5.4.1.2", read},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.StaticTest, 125, capacity.Percent, "Regulation (EU) 2023/1230, Annex III, 4.1.2.3", read},
		{capacity.Choice{Edition: capacity.EN2022, Manual: true}, capacity.StaticTest, 150, capacity.Percent, "Regulation (EU) 2023/1230, Annex III, 4.1.2.3", read},
		{capacity.Choice{Edition: capacity.EN2001}, capacity.DynamicTest, 110, capacity.Percent, "Regulation (EU) 2023/1230, Annex III, 4.1.2.3", read},
		{capacity.Choice{Edition: capacity.Decree1947}, capacity.StaticTest, 125, capacity.Percent, "French order of 1 March 2004, art. 10", read},
		{capacity.Choice{Edition: capacity.Decree1947, Manual: true}, capacity.StaticTest, 150, capacity.Percent, "French order of 1 March 2004, art. 10", read},
		{capacity.Choice{Edition: capacity.Decree1947}, capacity.DynamicTest, 110, capacity.Percent, "French order of 1 March 2004, art. 11", read},
		{capacity.Choice{Edition: capacity.ANSI, Kind: record.Scissor, RaisingOnly: true}, capacity.StaticTest, 150, capacity.Percent, "ANSI/SAIA A92.20", restated},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.EnhancedTest, 150, capacity.Percent, "EN 280, 5.4.1.6", memory},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.FromRail, 0.1, capacity.Metre, "EN 280, 5.2.3.1", memory},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.Apart, 0.5, capacity.Metre, "EN 280, 5.2.3.1", memory},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.ToolsFloor, 25, capacity.Floor, "EN 280, 5.2.3.1", memory},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.ToolsPressure, 3, capacity.Pressure, "EN 280, 5.2.3.1", memory},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.ForceOne, 200, capacity.Newton, "EN 280, 5.2.3.4", memory},
		{capacity.Choice{Edition: capacity.EN2022}, capacity.ForceMore, 400, capacity.Newton, "EN 280, 5.2.3.4", memory},
	} {
		row, ok := capacity.Choose(v.choice).Get(v.param)
		if !ok || row.Value != v.want || row.Unit != v.unit || row.Source.String() != v.source || row.Source.Status != v.status {
			t.Errorf("%+v, %s: got %v %s from %q (%s), want %v %s from %q (%s)", v.choice, v.param,
				row.Value, row.Unit, row.Source, row.Source.Status, v.want, v.unit, v.source, v.status)
		}
	}
}

// What no document gives is missing, not zero.
func TestRulesWithoutAValue(t *testing.T) {
	for _, v := range []struct {
		choice capacity.Choice
		param  capacity.Param
	}{
		{capacity.Choice{Edition: capacity.ANSI}, capacity.StaticTest},
		{capacity.Choice{Edition: capacity.ANSI, Kind: record.Boom, RaisingOnly: true}, capacity.StaticTest}, // for scissors alone
		{capacity.Choice{Edition: capacity.ANSI, Kind: record.Scissor}, capacity.StaticTest},
		{capacity.Choice{Edition: capacity.Decree1947}, capacity.WindowTo},
		{capacity.Choice{Edition: "a standard that is not in the table"}, capacity.FirstPerson},
	} {
		if row, ok := capacity.Choose(v.choice).Get(v.param); ok {
			t.Errorf("%+v: got %v for %s, want none", v.choice, row.Value, v.param)
		}
	}
}

func TestRuleRowsAreComplete(t *testing.T) {
	for _, e := range capacity.Editions {
		for _, row := range capacity.Choose(capacity.Choice{Edition: e.Edition, Kind: record.Scissor, Manual: true, RaisingOnly: true}).Rows() {
			if row.Source.Document == "" || row.Source.Status == "" || row.Unit == "" || row.Name() == "" {
				t.Errorf("%s, %s: got %+v, want source, status, unit and name", e.Edition, row.Param, row)
			}
			if f := row.Range().Check(row.Value, "rules"); f != nil {
				t.Errorf("%s, %s: got %s, want a value of its own range", e.Edition, row.Param, f.Message)
			}
		}
	}
	for _, region := range capacity.Regions {
		if _, f := capacity.Choose(capacity.Choice{Edition: capacity.UsualEdition(region)}).Persons().Smallest(1); f != nil {
			t.Errorf("%s: got %v, want a persons-plus-tools rule", region, f.Message)
		}
	}
}

func TestUsualEdition(t *testing.T) {
	for region, want := range map[capacity.Region]capacity.Edition{
		capacity.Europe: capacity.EN2022, capacity.UnitedStates: capacity.ANSI, capacity.Russia: capacity.GOST,
		capacity.International: capacity.ISO, "no such place": capacity.ISO,
	} {
		if got := capacity.UsualEdition(region); got != want {
			t.Errorf("%s: got %s, want %s", region, got, want)
		}
	}
}

func TestRulesWith(t *testing.T) {
	rules := capacity.Choose(capacity.Choice{Edition: capacity.EN2022})
	changed, f := rules.With(capacity.FurtherPerson, 100)
	if f != nil {
		t.Fatal(f.Message)
	}
	row, _ := changed.Get(capacity.FurtherPerson)
	if before, _ := rules.Get(capacity.FurtherPerson); row.Value != 100 || !row.Edited || before.Value != 80 || before.Edited {
		t.Errorf("got %+v after %+v, want 100 kg, edited, and the rules before as they were", row, before)
	}
	for _, v := range []struct {
		param capacity.Param
		x     float64
		code  string
	}{
		{capacity.FirstPerson, -80, "value-out-of-range"},
		{capacity.FirstPerson, math.NaN(), "value-out-of-range"},
		{capacity.WindowTo, math.Inf(1), "value-out-of-range"},
		{"no_such_value", 1, "rule-unknown"},
	} {
		same, f := rules.With(v.param, v.x)
		if f == nil || f.Code != v.code || f.Expected == "" || f.Hint == "" {
			t.Errorf("%s = %v: got %+v, want %s with expected and hint", v.param, v.x, f, v.code)
		}
		if got, _ := same.Get(capacity.FirstPerson); got.Value != 80 {
			t.Errorf("%s = %v: got %v kg a person, want the rules as they were", v.param, v.x, got.Value)
		}
	}
	pounds := capacity.Choose(capacity.Choice{Edition: capacity.ANSI})
	if _, f := pounds.With(capacity.FirstPerson, 600); f == nil || !strings.Contains(f.Message, "600 lb") {
		t.Errorf("600 lb: got %+v, want a finding in pounds", f)
	}
}

// A rated load of 200 kg, by hand.
func TestSharesOf(t *testing.T) {
	shares, f := capacity.Choose(capacity.Choice{Edition: capacity.EN2022}).SharesOf(200)
	if f != nil || len(shares) != 5 {
		t.Fatalf("got %v, %+v, want five shares", shares, f)
	}
	for i, want := range []record.Kilogram{200, 220, 240, 250, 300} {
		if shares[i].Load != want || shares[i].Source.Document == "" || shares[i].Words == "" {
			t.Errorf("got %+v, want %v kg with words and source", shares[i], want)
		}
	}
	shares, _ = capacity.Choose(capacity.Choice{Edition: capacity.GOST}).SharesOf(200)
	if len(shares) != 2 || shares[1].Load != 220 {
		t.Errorf("Russian deviation, 110 %% (GOST R 53037-2008, 5.4.1.2, read): got %+v, want a window up to 220 kg", shares)
	}
}

// 120, 200 and 280 kg for 1, 2 and 3 persons (computed); 265 kg for two under
// decree 47-1592, art. 26a (read); 440 lb for two under ANSI/SAIA A92.20.
func TestSmallestUnderEachEdition(t *testing.T) {
	for _, v := range []struct {
		edition capacity.Edition
		n       int
		want    float64
	}{
		{capacity.EN2022, 1, 120}, {capacity.EN2022, 2, 200}, {capacity.EN2022, 3, 280},
		{capacity.EN2001, 2, 200}, {capacity.ISO, 2, 200}, {capacity.GOST, 2, 200},
		{capacity.Decree1947, 1, 165}, {capacity.Decree1947, 2, 265}, {capacity.Decree1947, 3, 365},
		{capacity.ANSI, 2, 440 * 0.45359237},
	} {
		rule := capacity.Choose(capacity.Choice{Edition: v.edition}).Persons()
		got, f := rule.Smallest(v.n)
		if f != nil || math.Abs(float64(got)-v.want) > 1e-9 {
			t.Errorf("%s, %d persons: got %v kg, %+v, want %v kg", v.edition, v.n, got, f, v.want)
		}
		for load, want := range map[record.Kilogram]int{got + 1e-6: v.n, got - 1e-6: v.n - 1} {
			if n, f := rule.Within(load); f != nil || n != want {
				t.Errorf("%s, %v kg: got %d persons, %+v, want %d", v.edition, load, n, f, want)
			}
		}
	}
}

package wording_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ratchetmark/internal/wording"
)

const (
	none = wording.NoUnit
	kg   = wording.Kilogram
	lb   = wording.Pound
	tn   = wording.Tonne
	hour = wording.Hour
	mins = wording.Minute
	secs = wording.Second
	hmm  = wording.Clock
	pct  = wording.Percent
)

func TestQuantity(t *testing.T) {
	for _, c := range []struct {
		text  string
		usual wording.Unit
		want  float64
		unit  wording.Unit
	}{
		{"230", none, 230, none}, {"230", kg, 230, kg}, {"230", lb, 104.3262451, lb}, {"230", tn, 230000, tn}, {"90", mins, 1.5, mins}, {"12.5", pct, 0.125, pct}, {"1800", secs, 0.5, secs},
		{"230 kg", none, 230, kg}, {"230kg", lb, 230, kg}, {"230\u00a0kg", none, 230, kg}, {"230 Kg.", none, 230, kg}, {"230 KG", none, 230, kg}, {"1 230,5 kg", none, 1230.5, kg},
		{"510lb", none, 510 * 0.45359237, lb}, {"510 lbs", none, 510 * 0.45359237, lb}, {"510 Pounds", kg, 510 * 0.45359237, lb}, {"0,5 t", none, 500, tn}, {"0.5 Tonnen", none, 500, tn}, {"2 tonnes", none, 2000, tn},
		{"230 Kilogramm", none, 230, kg}, {"230 kilos", none, 230, kg}, {"230 kilogrammes", none, 230, kg}, {"230 chilogrammi", none, 230, kg}, {"230 kilogramos", none, 230, kg}, {"kg 230", none, 230, kg}, {"Kg. 230,5", none, 230.5, kg},
		{"12:30", none, 12.5, hmm}, {"12:30", hour, 12.5, hmm}, {"12:30", hmm, 12.5, hmm}, {"112:30:15", none, 112.5 + 15.0/3600, hmm}, {"0:45", none, 0.75, hmm}, {"1:30:00", mins, 1.5, hmm}, {"0", hmm, 0, hmm}, {"12:30 h", none, 12.5, hmm}, {"-1:30", none, -1.5, hmm}, {"0:00:36,5", none, 36.5 / 3600, hmm},
		{"45 min", none, 0.75, mins}, {"45 Minuten", hour, 0.75, mins}, {"90 mn", none, 1.5, mins}, {"3 h", none, 3, hour}, {"3,5 Std.", none, 3.5, hour}, {"3 hrs", none, 3, hour}, {"3 heures", none, 3, hour}, {"3 horas", none, 3, hour}, {"3 ore", none, 3, hour}, {"1 hour", none, 1, hour}, {"36 s", none, 0.01, secs}, {"36 Sek.", none, 0.01, secs}, {"36 segundos", none, 0.01, secs},
		{"1 h 30 min", none, 1.5, hour}, {"1h30m", none, 1.5, hour}, {"2h30", none, 2.5, hour}, {"2 h 30", none, 2.5, hour}, {"1 hour 15 minutes", none, 1.25, hour}, {"1 Std. 30 Min.", none, 1.5, hour}, {"5 min 24 s", none, 0.09, hour}, {"1 h 5 min 24 s", none, 1.09, hour},
		{"12,5 %", none, 0.125, pct}, {"12.5%", none, 0.125, pct}, {"100 Prozent", none, 1, pct}, {"7 per cent", none, 0.07, pct}, {"50 por ciento", none, 0.5, pct}, {"-5 kg", none, -5, kg}, {"1e3 kg", none, 1000, kg},
	} {
		got, unit, err := wording.Quantity(c.text, anyMark, c.usual)
		if err != nil || math.Abs(got-c.want) > 1e-12*math.Abs(c.want) || unit != c.unit {
			t.Errorf("%q under %q: got %v, %q, %v, want %v, %q", c.text, c.usual, got, unit, err, c.want, c.unit)
		}
	}
}

func TestQuantityRefused(t *testing.T) {
	for _, c := range []struct {
		text    string
		usual   wording.Unit
		fault   string
		twoWays bool
	}{
		{"1,234 kg", none, "two ways", true}, {"1.234", kg, "two ways", true}, {"12:30", mins, "two ways", true}, {"12:30", secs, "two ways", true},
		{"5 tons", none, "unit that is not known", false}, {"5 Pfund", none, "unit that is not known", false}, {"45 m", none, "unit that is not known", false}, {"12 kip", none, "unit that is not known", false}, {"1:30 PM", none, "unit that is not known", false}, {"12:75", none, "unit that is not known", false}, {"1 h 75 min", none, "unit that is not known", false}, {"30 min 1 h", none, "unit that is not known", false}, {"12 kg 30", none, "unit that is not known", false},
		{"12.5", hmm, "plain number under a heading in h:mm", false}, {"", none, "is not a number", false}, {"kg", none, "is not a number", false}, {"about 5 kg", none, "is not a number", false}, {"NaN kg", none, "is not a number", false}, {"1,23.4 kg", none, "has marks", false},
		{"1e308 t", none, "is too large", false}, {"-1e308", tn, "is too large", false},
	} {
		got, _, err := wording.Quantity(c.text, anyMark, c.usual)
		if err == nil || !strings.Contains(err.Error(), c.fault) || errors.Is(err, wording.ErrAmbiguous) != c.twoWays {
			t.Errorf("%q under %q: got %v, %v, want %s", c.text, c.usual, got, err, c.fault)
		}
	}
	if got, _, err := wording.Quantity("1.234 kg", comma, none); err != nil || got != 1234 {
		t.Errorf("decimal comma known: got %v, %v, want 1234", got, err)
	}
}

// The pound is 0.45359237 kg exactly: NIST SP 811:2008, appendix B.8. The other
// factors are the definitions of the units.
func TestUnitFactors(t *testing.T) {
	for _, c := range []struct {
		unit wording.Unit
		want float64
	}{{lb, 0.45359237}, {kg, 1}, {tn, 1000}, {hour, 1}, {mins, 1.0 / 60}, {secs, 1.0 / 3600}, {pct, 0.01}, {none, 1}, {wording.Unit(200), 1}} {
		if got := c.unit.In(1); got != c.want {
			t.Errorf("%q: got %v, want %v", c.unit, got, c.want)
		}
	}
	if got := mins.In(45); got != 0.75 {
		t.Errorf("45 min: got %v h, want 0.75", got)
	}
}

// What a unit is written as is read as that unit.
func TestUnitSymbolsAreRead(t *testing.T) {
	for _, u := range []wording.Unit{kg, lb, tn, hour, mins, secs, pct} {
		if _, got, err := wording.Quantity("12.5 "+u.String(), anyMark, none); err != nil || got != u {
			t.Errorf("%q: got %q, %v", u, got, err)
		}
		if words, got := wording.HeadingUnit("Value [" + u.String() + "]"); words != "Value" || got != u {
			t.Errorf("heading in %q: got %q, %q", u, words, got)
		}
	}
}

func TestHeadingUnit(t *testing.T) {
	for _, c := range []struct {
		heading, words string
		unit           wording.Unit
	}{
		{"Load [lb]", "Load", lb}, {"Hours (h)", "Hours", hour}, {"Last in kg", "Last", kg}, {"peak_kg", "peak", kg}, {"Time, min", "Time", mins}, {"% of powered time", "of powered time", pct}, {"Betriebsstunden / h", "Betriebsstunden", hour},
		{"Charge en kg", "Charge", kg}, {"peakKg", "peak", kg}, {"rated_load_kg", "rated_load", kg}, {"powered_h", "powered", hour}, {"Peak kg", "Peak", kg}, {"Peak: kg", "Peak", kg}, {"Peak\u00a0kg", "Peak", kg}, {"Last {t}", "Last", tn}, {"Load (in lbs)", "Load", lb},
		{"Hours [h:mm]", "Hours", hmm}, {"Zeit (hh:mm:ss)", "Zeit", hmm}, {"Dauer [Std.]", "Dauer", hour}, {"Zeit [s]", "Zeit", secs}, {"Time(s)", "Time", secs}, {"Share %", "Share", pct}, {"Anteil%", "Anteil", pct}, {"Anteil in %", "Anteil", pct},
		{"Powered hours", "Powered hours", hour}, {"Powered minutes", "Powered minutes", mins}, {"Time in minutes", "Time", mins}, {"Hours", "Hours", hour}, {"Load (pounds)", "Load", lb}, {"h", "", hour}, {"kg", "", kg}, {"%", "", pct}, {"kg from", "from", kg}, {"Prozent", "Prozent", pct},
		{"Load min", "Load min", none}, {"Last, min", "Last, min", none}, {"min", "min", none}, {"Powered, min", "Powered", mins}, {"Person(s)", "Person(s)", none}, {"Peak (max)", "Peak (max)", none}, {"Load [kg/lb]", "Load [kg/lb]", none},
		{"", "", none}, {"Date", "Date", none}, {"to", "to", none}, {"90-180", "90-180", none}, {"90–180 kg [h]", "90–180 kg", hour}, {"h_90_180", "h_90_180", none}, {"Datum (TT.MM.JJJJ)", "Datum (TT.MM.JJJJ)", none}, {"Serial No.", "Serial No.", none}, {"Art", "Art", none},
	} {
		if words, unit := wording.HeadingUnit(c.heading); words != c.words || unit != c.unit {
			t.Errorf("%q: got %q, %q, want %q, %q", c.heading, words, unit, c.words, c.unit)
		}
	}
}

func FuzzQuantity(f *testing.F) {
	for _, s := range []string{"230 kg", "510lb", "0,5 t", "12:30", "1 h 30 min", "2h30", "12,5 %", "kg 230", "1e308 t", "112:30:15.5", "Load [lb]", "% of x", "Time(s)"} {
		f.Add(s, byte(0), byte(0))
		f.Add(s, byte(1), byte(7))
	}
	f.Fuzz(func(t *testing.T, s string, which, usual byte) {
		mark := []wording.Mark{anyMark, point, comma}[which%3]
		x, _, err := wording.Quantity(s, mark, wording.Unit(usual%9))
		if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
			t.Fatalf("%q: got %v, want a finite number", s, x)
		}
		if err != nil && err.Error() == "" {
			t.Fatalf("%q: got an error without words", s)
		}
		if words, u := wording.HeadingUnit(s); len(words) > 3*len(s) || u > pct {
			t.Fatalf("%q: got %q, %d, want a part of the heading and a unit", s, words, u)
		}
	})
}

package wording_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"ratchetmark/internal/wording"
)

// open stands for an edge that a label does not say.
const open = -1

// says writes what a label says for a comparison.
func says(l wording.Label) string {
	edge := func(x *float64) string {
		if x == nil {
			return "open"
		}
		return fmt.Sprint(*x)
	}
	return edge(l.From) + " to " + edge(l.To) + " " + l.Unit.String()
}

func label(from, to float64, u wording.Unit) wording.Label {
	l := wording.Label{Unit: u}
	if from != open {
		l.From = &from
	}
	if to != open {
		l.To = &to
	}
	return l
}

func TestBand(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		unit     wording.Unit
		labels   string
	}{
		{open, 90, none, "under 90|< 90|<90|≤ 90|<= 90|up to 90|below 90|less than 90|at most 90|no more than 90|90 and below|90 or less|load < 90|x ≤ 90|90 > x|h_lt_90|h under 90|bis 90|bis zu 90|unter 90|unterhalb von 90|höchstens 90|weniger als 90|kleiner als 90|90 und weniger|moins de 90|jusqu'à 90|jusqu’à 90|inférieur à 90|au plus 90|90 et moins|hasta 90|menos de 90|como máximo 90|inferior a 90|90 o menos|fino a 90|meno di 90|al massimo 90|inferiore a 90|sotto i 90"},
		{open, 90, kg, "below 90 kg|< 90kg|bis 90 kg|under 90 kilograms"},
		{0, 90, none, "0-90|0–90|0 - 90|0..90|0 to 90|0…90|[0,90)|0÷90|h_0_90|[0, 90[|0 ~ 90"},
		{0, 90, kg, "0 — 90 kg|0–90 kg|0 kg - 90 kg|kg 0-90|0-90 [kg]|0-90 (kg)|[0,90) kg|[0;90] [kg]|0-90 kg [h]|0-90 kg (%)"},
		{90, 180, none, "90..180|[90,180)|(90, 180]|[90;180[|]90;180]|from 90 to 180|from 90 up to 180|between 90 and 180|90 < x <= 180|90 ≤ load < 180|180 >= x > 90|90 < x ≤ 180|> 90 to 180|>90 <180|> 90 and < 180|>= 90 and <= 180|90 - <180|90-<180|over 90 up to 180|above 90 to 180|h_90_180|hours_90_180|band_90_180|Hours 90-180|hours in 90-180|time in band 90-180|von 90 bis 180|90 bis 180|über 90 bis 180|ab 90 bis unter 180|zwischen 90 und 180|Stunden 90–180|de 90 à 180|entre 90 et 180|90 à 180|plus de 90 à 180|de 90 a 180|entre 90 y 180|desde 90 hasta 180|da 90 a 180|tra 90 e 180|fra 90 e 180|dal 90 al 180|90 ÷ 180|load 90-180|Last 90-180|classe 90-180|ore 90-180|1: 90-180|2) 90-180|Band 90-180|Band 90 - 180|L3 - 90-180|class 4 90-180|L3 (90-180)|normal (90-180)|90-180 normal|90-180 (normal)|90-180 (empty platform)|B2: ≥ 90 < 180|band 3: [90,180)"},
		{90, 180, kg, "90 to 180 kg|90kg-180kg|hours 90–180 kg|band 2: 90-180 kg|L3 (90–180 kg)|h 90-180 kg|Stunden bei 90-180 kg|from 90 to 180 kg|90-180 kg load|90-180 kg."},
		{180, 250, none, "band 3: 180-250|Klasse 3: 180-250|band 3 180-250|3. 180-250|#3: 180-250|B3 = 180-250|Band 3 (180-250)|stufe 3: 180-250"},
		{320, open, none, "> 320|>320|≥ 320|>= 320|320+|320 +|over 320|above 320|more than 320|320 and above|320 and more|320 or more|320 and over|320 and up|at least 320|from 320|x > 320|320 < x|load ≥ 320|h_320_plus|h_over_320|h_gt_320|320-∞|[320,∞)|[320;inf[|320 - inf|über 320|ueber 320|mehr als 320|ab 320|320 und mehr|oberhalb von 320|mindestens 320|größer als 320|plus de 320|plus que 320|à partir de 320|au-dessus de 320|320 et plus|supérieur à 320|au moins 320|más de 320|desde 320|320 y más|superior a 320|mayor de 320|a partir de 320|oltre 320|più di 320|320 e oltre|superiore a 320|almeno 320|a partire da 320|da 320|band 5: > 320|L5 (> 320)|open (over 320)|320-|320 ->|320->|320-max|320 - max|> 320 (overload)|>320 OVERLOAD|> 320*|320+ (Überlast)"},
		{320, open, kg, "320 - kg|320 kg ->|320-max kg|> 320 kg (overload)|above 320 kg|> 320 kg|320 kg +|320+ kg|320 kg and above|oltre 320 kg|Stunden über 320 kg"},
		{100, 110, pct, "100–110 %|100%-110%|100-110 percent|100 to 110 % of rated load|100–110 % der Nennlast|100-110 % SWL|von 100 bis 110 % der Tragfähigkeit|100 à 110 % de la charge nominale|100-110 % della portata|de 100 a 110 % de la carga nominal|100-110 (%)|[100,110) %"},
		{120, open, pct, "> 120 % of rated load|over 120%|120 %+|über 120 % der Nennlast|plus de 120 % de la capacité nominale|oltre 120 %"},
		{500, 1250, tn, "0,5-1,25 t|0.5 t to 1.25 t|0,5 bis 1,25 t|[0,5;1,25) t"},
		{200, 50, kg, "200-50 kg"}, {500, 1000, tn, "500 kg - 1 t"}, {1000, 1200, kg, "1 000–1 200 kg|classe 1 000-1 200 kg|de 1 000 à 1 200 kg|1000-1200 kg|1'000–1'200 kg|1\u202f000 à 1\u202f200 kg"},
	} {
		for _, text := range strings.Split(c.labels, "|") {
			got, err := wording.Band(text, anyMark, none)
			if want := says(label(c.from, c.to, c.unit)); err != nil || says(got) != want {
				t.Errorf("%q: got %s, %v, want %s", text, says(got), err, want)
			}
		}
	}
}

func TestBandUnitsAndMarks(t *testing.T) {
	for _, c := range []struct {
		text     string
		mark     wording.Mark
		usual    wording.Unit
		from, to float64
		unit     wording.Unit
	}{
		{"90-180", anyMark, kg, 90, 180, kg}, {"90-180", anyMark, lb, 90 * 0.45359237, 180 * 0.45359237, lb}, {"90 - 180 lb", anyMark, kg, 90 * 0.45359237, 180 * 0.45359237, lb}, {"90 lb - 180", anyMark, kg, 90 * 0.45359237, 180 * 0.45359237, lb},
		{"100-110", anyMark, pct, 100, 110, pct}, {"100-110", anyMark, hour, 100, 110, none}, {"90-180 kg", anyMark, pct, 90, 180, kg}, {"100-110 of rated load", anyMark, pct, 100, 110, pct},
		{"1.000–1.200 kg", comma, none, 1000, 1200, kg}, {"1,000–1,200 kg", point, none, 1000, 1200, kg}, {"1.000–1.200", point, tn, 1000, 1200, tn}, {"0,5-1,250 t", anyMark, none, 500, 1250, tn}, {"> 1.000,5", anyMark, kg, 1000.5, open, kg},
	} {
		got, err := wording.Band(c.text, c.mark, c.usual)
		if want := says(label(c.from, c.to, c.unit)); err != nil || says(got) != want {
			t.Errorf("%q under %q: got %s, %v, want %s", c.text, c.usual, says(got), err, want)
		}
	}
}

func TestBandRefused(t *testing.T) {
	for _, text := range []string{
		"", "Total", "Summe", "overload", "Date", "2026-03-02", "02.03.2026", "02/03/2026", "2026-03", "12:30", "12:30-13:30", "peak 812", "max 320", "90", "90 kg", "1 234", "L3", "band 3", "Total (0-320)", "Summe 0-320", "-90", "-90-180", "90--180", "a-b", "T-01", "SN 12-3456-7",
		"90-180-250", "90-180 h", "1-2 hours", "10-20 min", "to 180", "90 < 180", "<", "under", "under 90 over 180", "90 kg - 110 %", "1e3-2e3", "0x10-0x20", "0-90 widgets", "March 2-4", "90/180", "12-34-56-78", "[90,180,250)", "(90)", "100 %", "between 90", "90 and 180", "100-110 of rated load", "powered_h", "operating hours", strings.Repeat("9", 300) + "-1", "hours",
	} {
		if got, err := wording.Band(text, anyMark, none); err == nil || errors.Is(err, wording.ErrAmbiguous) {
			t.Errorf("%q: got %s, %v, want it refused", text, says(got), err)
		}
	}
	for _, text := range []string{"1.000–1.200 kg", "0-1,000", "under 1,500 lb", "band 3: 1.000-1.500", "L3 (1,000–1,200 kg)", "[1,000;1,200)", "classe 2 161-2 500", "band 3 180-4000"} {
		if got, err := wording.Band(text, anyMark, none); !errors.Is(err, wording.ErrAmbiguous) {
			t.Errorf("%q: got %s, %v, want it asked about", text, says(got), err)
		}
	}
}

// Each wording says its edges whatever they are, in either mark and any unit.
func TestBandRoundTrip(t *testing.T) {
	wordings := []struct {
		form     string
		from, to bool
	}{
		{"A-B U", true, true}, {"A–B U", true, true}, {"A U – B U", true, true}, {"A .. B U", true, true}, {"A to B U", true, true}, {"from A to B U", true, true}, {"between A and B U", true, true}, {"A < x <= B U", true, true}, {"[A;B) U", true, true}, {"band 3: A-B U", true, true}, {"L3 (A–B U)", true, true}, {"hours A–B U", true, true},
		{"von A bis B U", true, true}, {"zwischen A und B U", true, true}, {"de A à B U", true, true}, {"entre A et B U", true, true}, {"de A a B U", true, true}, {"entre A y B U", true, true}, {"da A a B U", true, true}, {"tra A e B U", true, true},
		{"under B U", false, true}, {"< B U", false, true}, {"≤ B U", false, true}, {"up to B U", false, true}, {"bis B U", false, true}, {"unter B U", false, true}, {"moins de B U", false, true}, {"jusqu'à B U", false, true}, {"hasta B U", false, true}, {"menos de B U", false, true}, {"fino a B U", false, true}, {"meno di B U", false, true},
		{"> A U", true, false}, {"≥ A U", true, false}, {"A U +", true, false}, {"over A U", true, false}, {"A U and more", true, false}, {"über A U", true, false}, {"mehr als A U", true, false}, {"ab A U", true, false}, {"plus de A U", true, false}, {"à partir de A U", true, false}, {"más de A U", true, false}, {"desde A U", true, false}, {"oltre A U", true, false}, {"più di A U", true, false},
	}
	random := rand.New(rand.NewPCG(5, 6))
	for _, w := range wordings {
		for range 200 {
			a, b := math.Round(random.Float64()*30000)/10, math.Round(random.Float64()*30000)/10
			l := locales[random.IntN(len(locales))]
			u := []wording.Unit{none, kg, lb, tn, pct}[random.IntN(5)]
			text := strings.NewReplacer("A", written(a, l.mark, l.group), "B", written(b, l.mark, l.group), "U", u.String()).Replace(w.form)
			want := wording.Label{Unit: u}
			scale := func(x float64) *float64 {
				if u != pct {
					x = u.In(x)
				}
				return &x
			}
			if w.from {
				want.From = scale(a)
			}
			if w.to {
				want.To = scale(b)
			}
			if got, err := wording.Band(text, l.mark, none); err != nil || says(got) != says(want) {
				t.Fatalf("%q: got %s, %v, want %s", text, says(got), err, says(want))
			}
		}
	}
}

func BenchmarkBand(b *testing.B) {
	for _, text := range []string{"90-180", "hours 90–180 kg", "de 90 à 180"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				_, _ = wording.Band(text, anyMark, none)
			}
		})
	}
}

func FuzzBand(f *testing.F) {
	for _, s := range []string{"under 90", "0-90", "[90,180)", "L3 (180–250 kg)", "band 3: 1.000-1.200", "90 < x <= 180", "h_90_180", "> 120 % of rated load", "entre 90 et 180", "320+", "Total (0-320)", "]0;∞["} {
		f.Add(s, byte(0), byte(0))
		f.Add(s, byte(2), byte(2))
	}
	f.Fuzz(func(t *testing.T, s string, which, usual byte) {
		l, err := wording.Band(s, []wording.Mark{anyMark, point, comma}[which%3], wording.Unit(usual%9))
		if err != nil {
			return
		}
		if l.From == nil && l.To == nil {
			t.Fatalf("%q: got no edge, want one", s)
		}
		for _, x := range []*float64{l.From, l.To} {
			if x != nil && !(*x >= 0 && *x <= math.MaxFloat64) {
				t.Fatalf("%q: got %v, want a finite load from zero", s, *x)
			}
		}
	})
}

func TestFractionsWithoutAWhole(t *testing.T) {
	for text, want := range map[string]string{".1-.25 t": "100 to 250 t", ">.25 t": "250 to open t", "0-.1 t": "0 to 100 t"} {
		if got, err := wording.Band(text, anyMark, none); err != nil || says(got) != want {
			t.Errorf("%q: got %s, %v, want %s", text, says(got), err, want)
		}
	}
}

func TestOverRated(t *testing.T) {
	for text, want := range map[string]bool{
		"over rated load": true, "> Nennlast": true, ">100% RL": true, "> 100 % of rated load": true, "über Nennlast": true, "plus de charge nominale": true, "above SWL": true, "oltre portata nominale": true, "Hours over rated load": true, "Stunden über Nennlast": true,
		"Nennlast": false, "rated load": false, "over": false, "over 250 kg": false, "over rated load 250": false, "under rated load": false, "> 110 % RL": false, "overload": false, "": false,
	} {
		if got := wording.OverRated(text); got != want {
			t.Errorf("%q: got %v, want %v", text, got, want)
		}
	}
}

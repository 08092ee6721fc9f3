package card_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/card"
)

func facts() card.Facts {
	return card.Facts{
		Machine: "NF-07", MassKg: 6840, Rule: "EN 12195-1:2010", Worked: true, Held: true, Percents: [3]float64{118.9, 140, 103},
		Lashings: []card.Lashing{{2, "chain", "8 mm", "front", 40, 30}, {2, "chain", "8 mm", "rear", 40, 30}, {1, "web", "50 mm", "over", 60, 0}},
		Straps:   1, LowKg: 356.8, HighKg: 713.6, HighPercent: 310.2,
		Trips: []card.Trips{{"haulier C", 1, 1, 0}, {"", 0, 0, 3}, {"haulier A", 2, 5, 4}},
	}
}

// The page says what the crew has to know, with its figures, in English.
func TestEnglish(t *testing.T) {
	text := card.Of(facts(), card.English).Text()
	for _, want := range []string{
		"NF-07, 6840 kg", "2 × chain 8 mm: to the front, 40° to the deck, 30° outward.", "1 × strap 50 mm: over the chassis, 60°.",
		"By EN 12195-1:2010 this holds 118 % forward, 140 % to the rear, 103 % sideways of what is asked.",
		"Never ratchet over the platform, its rails or its floor. 1 × over it loads it like 357 to 714 kg, up to 310 % of its rated load.",
		"Switch off at the main switch before lashing", "block under the platform", "Take a reading: hours and peak",
		"Never go under a raised platform", "Never stand in line with a lashing", "sharp edge", "at every stop", "After unloading take a reading again",
		"haulier C: the peak rose on 1 of 1 trips.", "haulier A: the peak rose on 2 of 5 trips; 4 more without", "haulier not named: not known; 3 trips without",
		"The maker's manual and local law come first.",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("got no %q in\n%s", want, text)
		}
	}
	if strings.Contains(text, "translated") {
		t.Error("got the original marked as a translation")
	}
}

// What is not held or was not worked out is said in so many words.
func TestNotHeld(t *testing.T) {
	f := facts()
	f.Held = false
	if text := card.Of(f, card.English).Text(); !strings.Contains(text, "NOT ENOUGH") || !strings.Contains(text, "Do not drive") {
		t.Errorf("got\n%s", text)
	}
	f.Worked = false
	if text := card.Of(f, card.English).Text(); !strings.Contains(text, "not worked out") || strings.Contains(text, "%!") {
		t.Errorf("got\n%s", text)
	}
	f.HighKg, f.HighPercent, f.Trips = 0, 0, nil
	if text := card.Of(f, card.English).Text(); strings.Contains(text, "loads it like") || !strings.Contains(text, "No trips on record") {
		t.Errorf("got\n%s", text)
	}
}

var figure = regexp.MustCompile(`\d+`)

// Every language says all of it: as many lines, the same figures, no word left
// without its translation, and that the translation was not reviewed.
func TestLanguagesSayTheSame(t *testing.T) {
	for _, change := range []func(*card.Facts){func(*card.Facts) {}, func(f *card.Facts) { f.Held, f.Upright = false, true }, func(f *card.Facts) { f.Worked = false; f.Trips = nil }} {
		f := facts()
		change(&f)
		english := card.Of(f, card.English)
		for _, l := range card.Langs[1:] {
			c := card.Of(f, l.Lang)
			if c.Unreviewed == "" || c.Title == english.Title || c.Foot == english.Foot {
				t.Errorf("%s: got %+v, want it translated and marked", l.Name, c)
			}
			for i, s := range c.Sections {
				if len(s.Lines) != len(english.Sections[i].Lines) || s.Heading == english.Sections[i].Heading || s.Stop != english.Sections[i].Stop {
					t.Fatalf("%s: got %v, want as many lines as %v", l.Name, s, english.Sections[i])
				}
				for j, line := range s.Lines {
					want := english.Sections[i].Lines[j]
					if line == want || strings.Contains(line, "%!") || strings.Join(figure.FindAllString(line, -1), " ") != strings.Join(figure.FindAllString(want, -1), " ") {
						t.Errorf("%s: got %q, want the figures of %q in other words", l.Name, line, want)
					}
				}
			}
		}
	}
	if card.LangOf("xx") != card.English || card.LangOf("de") != card.German {
		t.Error("got the wrong language of a name")
	}
}

// A machine without a boom is not told to lower one.
func TestUpright(t *testing.T) {
	for _, l := range card.Langs {
		f := facts()
		boom := card.Of(f, l.Lang).Sections[0].Lines
		f.Upright = true
		upright := card.Of(f, l.Lang).Sections[0].Lines
		if upright[0] == boom[0] || !slices.Equal(upright[1:], boom[1:]) || strings.Contains(upright[0], "boom") {
			t.Errorf("%s: got %q, want %q without a boom", l.Name, upright, boom)
		}
	}
}

// A page that is too long is no card.
func TestShort(t *testing.T) {
	for _, l := range card.Langs {
		lines := 0
		for _, s := range card.Of(facts(), l.Lang).Sections {
			for _, line := range s.Lines {
				if lines++; len([]rune(line)) > 190 {
					t.Errorf("%s: got a line of %d characters: %s", l.Name, len([]rune(line)), line)
				}
			}
		}
		if lines > 26 {
			t.Errorf("%s: got %d lines, want 26 at most", l.Name, lines)
		}
	}
}

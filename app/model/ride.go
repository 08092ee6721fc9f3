package model

import (
	"reflect"
	"slices"
	"strconv"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// FoldHolding is what the fields of what holds the machine are folded away in.
const FoldHolding = "holding"

// mostLashings is how many rows of lashings the sheet takes.
const mostLashings = 12

// ride is a field about how the machine rides: one row for each in [rides].
type ride struct {
	id, label, unit, hint string
	called                string // in undo, where the label does not do
	as                    Entered
	choices               func() []Choice
	usual                 string // shown where nothing is set
	fold                  string
	text                  func(c *record.Case, t *record.Transport) string
	set                   func(f *Form, c *record.Case, t *record.Transport, text string)
}

// rideWord is a field that offers words.
func rideWord(id, label, called, fold string, choices func() []Choice, usual string, at func(t *record.Transport) *string) ride {
	return ride{id: id, label: label, called: called, as: AsChoice, choices: choices, usual: usual, fold: fold,
		text: func(_ *record.Case, t *record.Transport) string { return *at(t) },
		set:  func(_ *Form, _ *record.Case, t *record.Transport, text string) { *at(t) = text },
	}
}

// rideFlag is a field that is answered with yes or no.
func rideFlag(id, label, fold string, choices []Choice, usual string, at func(t *record.Transport) **bool) ride {
	return ride{id: id, label: label, as: AsChoice, choices: func() []Choice { return choices }, usual: usual, fold: fold,
		text: func(_ *record.Case, t *record.Transport) string {
			if b := *at(t); b != nil {
				return strconv.FormatBool(*b)
			}
			return ""
		},
		set: func(_ *Form, _ *record.Case, t *record.Transport, text string) {
			*at(t) = nil
			if text != "" {
				*at(t) = record.Of(text == "true")
			}
		},
	}
}

// rideNumber is a field of a number.
func rideNumber(id, label, unit, hint, fold, usual string, at func(t *record.Transport) **float64) ride {
	return ride{id: id, label: label, unit: unit, hint: hint, as: AsNumber, usual: usual, fold: fold,
		text: func(_ *record.Case, t *record.Transport) string { return numberText(*at(t)) },
		set: func(f *Form, _ *record.Case, t *record.Transport, text string) {
			*at(t) = number[float64](f, "", text)
		},
	}
}

var yesNo = []Choice{{"false", "no"}, {"true", "yes"}}

// The fields that belong to no lashing, by the part in which they are shown.
var (
	strapRides = []ride{
		rideWord("device", "Tightened with", "what the strap is tightened with", "", devices, lashing.UsualDevice, func(t *record.Transport) *string { return &t.Device }),
		rideWord("route", "It goes", "where the strap goes", "", routes, string(lashing.OverRails), func(t *record.Transport) *string { return &t.Route }),
		rideWord("edge", "It bends over", "what the strap bends over", "", edges, "rail", func(t *record.Transport) *string { return &t.Edge }),
		rideFlag("blocked", "Block under the platform", "", yesNo, "false", func(t *record.Transport) **bool { return &t.Blocked }),
		{id: "straps", label: "How many", called: "number of straps", as: AsWhole, usual: "1",
			text: func(_ *record.Case, t *record.Transport) string { return wholeText(t.Straps) },
			set:  func(f *Form, _ *record.Case, t *record.Transport, text string) { t.Straps = f.whole("", text) }},
		rideNumber("angle-deg", "Angle to the deck", "", "", "", "60", func(t *record.Transport) **float64 { return &t.Angle }),
	}
	machineRides = []ride{
		{id: "mass-kg", label: "Mass of the machine", unit: "kg", as: AsNumber, fold: FoldHolding,
			text: func(c *record.Case, _ *record.Transport) string { return numberText(c.Machine.Mass) },
			set: func(f *Form, c *record.Case, _ *record.Transport, text string) {
				c.Machine.Mass = number[record.Kilogram](f, "", text)
			}},
		rideWord("rule", "By which rule", "rule of lashing", FoldHolding, rules, lashing.EN, func(t *record.Transport) *string { return &t.Rule }),
		rideNumber("friction", "Friction under the wheels", "", "from 0.01 to 0.6", FoldHolding, "0.3", func(t *record.Transport) **float64 { return &t.Friction }),
		rideFlag("lowered", "Platform and what lifts it lowered and secured", FoldHolding, append([]Choice{{"", "not said"}}, yesNo...), "", func(t *record.Transport) **bool { return &t.Lowered }),
	}
	furtherRides = []ride{
		rideNumber("block-dan", "Blocks or front wall hold forward", "daN", "", FoldHolding, "", func(t *record.Transport) **float64 { return &t.Block }),
		rideNumber("gravity-height-m", "Height of its centre of gravity", "m", "", FoldHolding, "", func(t *record.Transport) **float64 { return &t.Height }),
		rideNumber("track-m", "Track", "m", "", FoldHolding, "", func(t *record.Transport) **float64 { return &t.Track }),
		rideNumber("length-m", "Length", "m", "", FoldHolding, "", func(t *record.Transport) **float64 { return &t.Length }),
	}
	briefedRide = ride{id: "briefed-on", label: "Crews were briefed on", as: AsDay,
		text: func(_ *record.Case, t *record.Transport) string {
			if t.BriefedOn == nil {
				return ""
			}
			return t.BriefedOn.String()
		},
		set: func(f *Form, _ *record.Case, t *record.Transport, text string) { t.BriefedOn = f.date("", text) }}
	languageRide = rideWord("language", "Language of the card", "", "", languages, "en", func(t *record.Transport) *string { return &t.Language })
)

// StrapInputs are the fields of a strap over the platform.
func (m *Model) StrapInputs() []Input {
	out := m.rideInputs(strapRides...)
	angle := &out[len(out)-1]
	angle.Slides, angle.Least, angle.Most, angle.Step = true, 5, 90, 5
	return out
}

// HeldInputs are the fields of the machine on its vehicle.
func (m *Model) HeldInputs() []Input { return m.rideInputs(machineRides...) }

// FurtherInputs are the fields for blocking and tipping.
func (m *Model) FurtherInputs() []Input { return m.rideInputs(furtherRides...) }

// BriefedInputs is the field of the day on which crews were briefed.
func (m *Model) BriefedInputs() []Input { return m.rideInputs(briefedRide) }

// LanguageInput is the field of the language of the card.
func (m *Model) LanguageInput() Input { return m.rideInputs(languageRide)[0] }

func (m *Model) rideInputs(all ...ride) []Input {
	var out []Input
	for _, r := range all {
		out = append(out, r.input())
	}
	return m.Case().shown(out)
}

func (r ride) input() Input {
	x := Input{ID: "ride-" + r.id, Label: r.label, called: r.called, Unit: r.unit, Hint: r.hint, As: r.as, fold: r.fold,
		stand: func(o *Opened) string {
			if text := r.text(&o.Group.Case, transportOf(&o.Group.Case)); text != "" {
				return text
			}
			return r.usual
		},
		put: func(c *record.Case, f *Form, text string) {
			changeTransport(c, func(t *record.Transport) { r.set(f, c, t, text) })
		},
	}
	if r.choices != nil {
		x.Choices = r.choices()
	}
	return x
}

// transportOf returns a copy of how the machine of a case rides, to be changed.
func transportOf(c *record.Case) *record.Transport {
	t := record.Transport{}
	if c.Transport != nil {
		t = *c.Transport
	}
	t.Lashings = slices.Clone(t.Lashings)
	return &t
}

// changeTransport changes a copy of how the machine of a case rides; one of which
// nothing is set is none.
func changeTransport(c *record.Case, change func(t *record.Transport)) {
	t := transportOf(c)
	change(t)
	if len(t.Lashings) == 0 {
		t.Lashings = nil
	}
	c.Transport = nil
	if !reflect.DeepEqual(*t, record.Transport{}) {
		c.Transport = t
	}
}

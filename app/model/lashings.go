package model

import (
	"slices"

	"ratchetmark/internal/lashing"
	"ratchetmark/internal/record"
)

// Lashings counts the rows of lashings of the machine on the sheet.
func (m *Model) Lashings() int {
	if t := m.Case().Group.Case.Transport; t != nil {
		return len(t.Lashings)
	}
	return 0
}

// LashingInputs are the fields of the i-th row of lashings.
func (m *Model) LashingInputs(i int) []Input {
	field := func(name, label, unit string, as Entered, choices []Choice, stand func(l *record.Lashing) string, put func(l *record.Lashing, f *Form, text string)) Input {
		return Input{ID: "ride-" + name + "-" + itoa(i+1), Label: label, Unit: unit, As: as, Choices: choices, fold: FoldHolding,
			stand: func(o *Opened) string { return stand(&o.Group.Case.Transport.Lashings[i]) },
			put: func(c *record.Case, f *Form, text string) {
				changeTransport(c, func(t *record.Transport) { put(&t.Lashings[i], f, text) })
			}}
	}
	word := func(name, label string, choices []Choice, at func(l *record.Lashing) *string) Input {
		return field(name, label, "", AsChoice, choices, func(l *record.Lashing) string { return *at(l) }, func(l *record.Lashing, _ *Form, text string) { *at(l) = text })
	}
	degrees := func(name, label string, at func(l *record.Lashing) *float64) Input {
		return field(name, label, "degrees", AsNumber, nil, func(l *record.Lashing) string { return numberText(at(l)) },
			func(l *record.Lashing, f *Form, text string) {
				if x := number[float64](f, "", text); x != nil {
					*at(l) = *x
				} else {
					f.needNumber()
				}
			})
	}
	return m.Case().shown(of("lashings "+itoa(i+1),
		word("gear", "What", gears(), func(l *record.Lashing) *string { return &l.Gear }).calledSo("kind"),
		word("way", "How", ways(), func(l *record.Lashing) *string { return &l.Way }).calledSo("way"),
		field("count", "How many", "", AsWhole, nil, func(l *record.Lashing) string { return itoa(l.Count) }, func(l *record.Lashing, f *Form, text string) {
			if n := f.whole("", text); n != nil {
				l.Count = *n
			} else {
				f.needNumber()
			}
		}).calledSo("number"),
		degrees("angle", "To the deck", func(l *record.Lashing) *float64 { return &l.Angle }).calledSo("angle to the deck"),
		degrees("plan", "In plan", func(l *record.Lashing) *float64 { return &l.Plan }).calledSo("angle in plan"),
	))
}

// needNumber says so where nothing was typed and something has to be.
func (f *Form) needNumber() {
	if len(f.Problems) == 0 {
		f.problem("", "a number is needed")
	}
}

func (m *Model) lashingList() setList {
	return setList{name: "lashings", fold: FoldHolding, add: "add-lashing", line: m.LashingInputs}
}

// MoreLashings reports whether the sheet takes a further row of lashings.
func (m *Model) MoreLashings() bool { return m.Lashings() < mostLashings }

// AddLashing adds a row of lashings: the first time four chains, in pairs.
func (m *Model) AddLashing() {
	if m.Case() == nil || !m.MoreLashings() {
		return
	}
	n, first := m.Lashings(), "ride-gear-2"
	if n > 0 {
		first = "ride-gear-" + itoa(n+1)
	}
	m.addLine(m.lashingList(), n, first, func(c *record.Case) {
		changeTransport(c, func(t *record.Transport) {
			if n == 0 {
				t.Lashings = lashing.FourChains()
			} else {
				t.Lashings = append(t.Lashings, t.Lashings[n-1])
			}
		})
	})
}

// RemoveLashing takes a row of lashings away.
func (m *Model) RemoveLashing(i int) {
	if m.Case() != nil {
		m.removeLine(m.lashingList(), i, m.Lashings(), func(c *record.Case) {
			changeTransport(c, func(t *record.Transport) { t.Lashings = slices.Delete(t.Lashings, i, i+1) })
		})
	}
}

package model

import (
	"slices"

	"ratchetmark/internal/record"
)

// FoldTell is what the fields about the structure are folded away in.
const FoldTell = "tell"

// StructureInputs are the fields in which a person tells of the structure of the
// machine on the sheet.
func (m *Model) StructureInputs() []Input {
	o := m.Case()
	_, c := structureOf(&o.Group.Case)
	chosen := standardOf(&c)
	var out []Input
	for _, t := range tellings {
		if t.only == nil || slices.Contains(t.only, chosen) {
			out = append(out, t.input())
		}
	}
	return o.shown(of("the structure", out...))
}

func (t told) input() Input {
	return Input{ID: "told-" + t.id, Label: t.label, Unit: t.unit, Hint: t.hint, As: t.as, Choices: t.choices, fold: FoldTell,
		stand: func(o *Opened) string {
			s, c := structureOf(&o.Group.Case)
			return t.text(&s, &c)
		},
		put: func(k *record.Case, f *Form, text string) {
			s, c := structureOf(k)
			t.set(f, &s, &c, text)
			s.Curve = nil
			if c != (record.Curve{}) {
				s.Curve = &c
			}
			k.Structure = nil
			if s != (record.Structure{}) {
				k.Structure = &s
			}
		},
	}
}

// structureOf returns copies of what a case tells of the structure.
func structureOf(k *record.Case) (s record.Structure, c record.Curve) {
	if k.Structure != nil {
		s = *k.Structure
		if s.Curve != nil {
			c = *s.Curve
		}
	}
	return s, c
}

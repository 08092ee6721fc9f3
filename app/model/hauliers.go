package model

import (
	"maps"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// meet holds the machines of the sheet against each other: what each shows of a
// haulier bears on the others that the same one carried. Those for which that
// changed are assessed again.
func (m *Model) meet() {
	var histories []record.History
	for _, o := range m.Opened {
		histories = append(histories, record.Lay(&o.Group.Case))
	}
	all := cause.HabitsOf(histories)
	for i, o := range m.Opened {
		others := all.Less(cause.HabitsOf(histories[i : i+1]))
		if !maps.Equal(others, o.others) {
			o.others = others
			o.assess()
		}
	}
}

package app

import (
	"ratchetmark/app/model"
	"ratchetmark/internal/record"
)

// Holding is where a person enters what holds the machine on its vehicle.
type Holding struct{ view }

func (c *Holding) machineFields() []model.RideField { return model.MachineFields }

func (c *Holding) furtherFields() []model.RideField { return model.FurtherFields }

// rows counts the rows of lashings.
func (c *Holding) rows() []record.Lashing {
	if t := c.Model.Case().Group.Case.Transport; t != nil {
		return t.Lashings
	}
	return nil
}

func (c *Holding) fieldsOf(i int) []model.RideField { return model.LashingFields(i) }

// legend names a row of lashings.
func (c *Holding) legend(i int) string { return "Lashings " + itoa(i+1) }

func (c *Holding) addWords() string {
	if len(c.rows()) == 0 {
		return "Begin with four chains"
	}
	return "Add lashings"
}

func (c *Holding) add() []action {
	return []action{{id: "add-lashing", words: c.addWords(), do: c.Model.AddLashing}}
}

func (c *Holding) remove(i int) []action {
	id := model.RideField{Name: "remove", Row: i}.ID()
	return []action{{id: id, words: "Remove", name: "Remove lashings " + itoa(i+1), do: func() { c.Model.RemoveLashing(i) }}}
}

package app

import (
	"fmt"

	"ratchetmark/app/model"
	"ratchetmark/internal/dossier"
)

// Sheet is the result for one machine, led by questions.
type Sheet struct{ view }

func (c *Sheet) machineID(i int) string { return fmt.Sprintf("machine-%d", i+1) }

func (c *Sheet) choose(i int) { c.Model.Do(func() { c.Model.Choose(i) }) }

func (c *Sheet) pressed(i int) string {
	if i == c.Model.Current {
		return "true"
	}
	return "false"
}

func (c *Sheet) name(o *model.Opened) string { return dossier.Name(&o.Dossier) }

// steps are undo and redo of what is set on the sheet, once anything was.
func (c *Sheet) steps() []action {
	if c.Model.Undoes()+c.Model.Redoes() == "" {
		return nil
	}
	return stepsOf(c.Model)
}

// state says in a word or two how a machine stands.
func (c *Sheet) state(o *model.Opened) string { return o.State() }

func (c *Sheet) note() string { return c.d().Note }

func (c *Sheet) heading() string { return dossier.Heading(c.d()) }

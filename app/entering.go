package app

import (
	"slices"

	"ratchetmark/app/model"
	"ratchetmark/internal/cause"
)

// enterWords are the words of the button that leads to where a record is entered.
var enterWords = map[cause.Wants]string{
	cause.WantsChecks: "Enter a check", cause.WantsTieDowns: "Enter a tie-down", cause.WantsCustody: "Enter who had it",
	cause.WantsEvents: "Enter an alarm or a switching", cause.WantsDaily: "Enter daily use", cause.WantsReadings: "Enter readings",
}

// entering leads to where the record that is asked for first is entered.
func (c *Over) entering(i int) []action {
	if len(c.piece(i).AskFor) == 0 {
		return nil
	}
	return []action{c.enter(i, "first", c.piece(i).AskFor[0].Wants)}
}

// enteringAll leads to where each of the records is entered, once they are laid open.
func (c *Over) enteringAll(i int) (out []action) {
	if !c.isOpen("asks", i) {
		return nil
	}
	var seen []cause.Wants
	for _, a := range c.piece(i).AskFor {
		if !slices.Contains(seen, a.Wants) {
			seen = append(seen, a.Wants)
			out = append(out, c.enter(i, "any", a.Wants))
		}
	}
	return out
}

func (c *Over) enter(i int, name string, what cause.Wants) action {
	return action{id: c.pieceID(i) + "-" + name + "-" + string(what), words: enterWords[what], class: "quiet",
		name: enterWords[what] + ", for the " + c.piece(i).Title, do: func() { c.Model.Enter(model.Part(what)) }}
}

package app

import (
	"fmt"

	"ratchetmark/app/model"
	"ratchetmark/internal/cause"
	"ratchetmark/internal/dossier"
)

// enterWords are the words of the button that leads to where a record is entered.
var enterWords = map[cause.Wants]string{
	cause.WantsChecks: "Enter a check", cause.WantsTieDowns: "Enter a tie-down", cause.WantsCustody: "Enter who had it",
	cause.WantsEvents: "Enter an alarm or a switching", cause.WantsDaily: "Enter daily use", cause.WantsReadings: "Enter readings",
}

// entering leads from a record that is asked for, the k-th, to where it is entered.
func (c *Over) entering(k int, s dossier.Settle) []action {
	words := enterWords[s.Wants]
	return []action{{id: fmt.Sprintf("settle-%d-enter", k+1), words: words, name: words + ": " + s.Name, class: "quiet",
		do: func() { c.Model.Enter(model.Part(s.Wants)) }}}
}

package app

import (
	"time"

	"ratchetmark/internal/dossier"
)

// Handover hands the result over, with what it rests on.
type Handover struct{ view }

func (c *Handover) size(in dossier.Input) string { return dossier.Count(float64(in.Bytes)) + " bytes" }

// readAgain has a further reading typed, taken now.
func (c *Handover) readAgain() { c.Model.Do(func() { c.Model.ReadAgain(time.Now()) }) }

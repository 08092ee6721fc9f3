package app

import (
	"ratchetmark/internal/dossier"
)

// Handover hands the result over, with what it rests on.
type Handover struct{ view }

func (c *Handover) size(in dossier.Input) string { return dossier.Count(float64(in.Bytes)) + " bytes" }

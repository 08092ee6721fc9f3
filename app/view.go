package app

import (
	"ratchetmark/app/model"
	"ratchetmark/internal/dossier"
)

// view is what the parts of the sheet have in common: the model, and the
// machine that is shown.
type view struct {
	Model *model.Model
}

// d returns the dossier that is shown.
func (v *view) d() *dossier.Dossier { return &v.Model.Case().Dossier }

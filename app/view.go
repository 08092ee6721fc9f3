package app

import (
	"github.com/vugu/vugu"

	"ratchetmark/app/model"
	"ratchetmark/internal/dossier"
)

// view is what the parts of the sheet have in common: the model, and the
// machine that is shown.
type view struct {
	Model *model.Model
}

// isOpen reports whether the i-th part of a name that can be folded is open,
// for the machine that is shown.
func (v *view) isOpen(name string, i int) bool { return v.Model.Unfolded(v.Model.FoldKey(name, i)) }

// unfold opens or closes a part, in place of the browser: what only the browser
// knows, the renderer takes away.
func (v *view) unfold(event vugu.DOMEvent, name string, i int) {
	event.PreventDefault()
	v.Model.Do(func() { v.Model.Unfold(v.Model.FoldKey(name, i)) })
}

// d returns the dossier that is shown.
func (v *view) d() *dossier.Dossier { return &v.Model.Case().Dossier }

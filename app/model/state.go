package model

import (
	"strings"

	"ratchetmark/internal/cause"
)

// State says in a word or two how a machine stands.
func (o *Opened) State() string {
	d := &o.Dossier
	if d.Capacity == nil {
		return "incomplete"
	}
	if len(d.Exceedances) == 0 && d.Capacity.Mixed() != "" {
		return "perhaps over, by zone"
	}
	if d.Unsure() {
		return "nothing over, but not sure"
	}
	if len(d.Exceedances) == 0 {
		return "nothing over"
	}
	verdicts := map[cause.Cause]bool{}
	for _, x := range d.Exceedances {
		verdicts[x.Verdict] = true
	}
	var words []string
	for _, v := range cause.All {
		if verdicts[v] {
			words = append(words, string(v))
		}
	}
	switch text := strings.Join(words, ", "); {
	case !verdicts[cause.Undecided]:
		return text
	case text == "":
		return "undecided"
	default:
		return text + ", part undecided"
	}
}

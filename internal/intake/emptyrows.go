package intake

import "ratchetmark/internal/record"

// nothingIn reports whether a row of a reading has neither bands nor anything
// else that was read: the machine was not read then.
func (s *sheet) nothingIn(cells []string) bool {
	if len(s.plan.bands)+len(s.plan.ofReading) == 0 {
		return false
	}
	for _, list := range [2][]int{s.plan.bands, s.plan.ofReading} {
		for _, i := range list {
			if i < len(cells) {
				if c := (cell{text: trim(cells[i])}); !c.blank() {
					return false
				}
			}
		}
	}
	if s.empty++; s.empty == 1 {
		s.emptyAt = s.place(0)
	}
	return true
}

// sayEmpty notes how many rows hold no reading.
func (s *sheet) sayEmpty() {
	s.g.find(nil, s.emptyAt, record.Finding{
		Code: "rows-empty", Severity: record.Note, Where: "readings",
		Message: countOf(s.empty, "row has", "rows have") + " no value of a reading, the first one here", Expected: "hours per band, a peak, or both",
		Effect: "no reading is made of them", Hint: "nothing, if the machine was not read then",
	})
}

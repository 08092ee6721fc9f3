package intake

import (
	"strings"
)

// partsOfCell divides a row of one cell that holds several: values set apart by
// two blanks or more, or a row that was put in quotes as a whole. Names with
// their values are divided at the colon. It is nil for any other row, and for all
// once a row was met whose cells were divided before.
func (s *sheet) partsOfCell(cells []string) []string {
	if len(cells) != 1 || s.divided {
		s.divided = s.divided || len(cells) > 1
		return nil
	}
	text := strings.TrimSpace(cells[0])
	if !strings.Contains(text, "  ") && !strings.ContainsAny(text, ";\t|") || len(text) > maxHeading*20 {
		return nil
	}
	pieces := piecesOf(text)
	if len(pieces) < 2 {
		return nil
	}
	var out []string
	for _, p := range pieces {
		if key, value, ok := cutLine(p); ok && !startsNumber(key) && len(key) <= maxHeading && !strings.Contains(key, "  ") {
			out = append(out, key, value)
			continue
		}
		out = append(out, strings.TrimSpace(strings.TrimRight(p, ":=")))
	}
	return out
}

// piecesOf divides a text at one kind of mark.
func piecesOf(text string) (out []string) {
	for _, mark := range []string{";", "\t", "|", "  "} {
		if !strings.Contains(text, mark) {
			continue
		}
		for _, p := range strings.Split(text, mark) {
			if p = strings.Trim(strings.TrimSpace(p), `"`); p != "" || mark != "  " {
				out = append(out, p)
			}
		}
		return out
	}
	return nil
}

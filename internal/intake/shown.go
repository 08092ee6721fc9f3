package intake

import (
	"slices"
	"strings"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/wording"
)

// note keeps what a guide for this table would say.
func (s *sheet) note(cells []string) {
	if s.index >= len(s.g.sheets) {
		return
	}
	sh := &s.g.sheets[s.index]
	if sh.Read {
		return // the first table of a sheet is shown
	}
	sh.Read, sh.Layout, sh.Signature = true, s.layout.name, Signature(cells)
	sh.Guide = s.guideOf(cells)
	sh.Start = s.rowShown(cells)
	for _, c := range s.cols {
		if c.Field == "" && c.heading != "" {
			clean, _ := Visible(short(c.heading))
			sh.Left = append(sh.Left, clean)
		}
	}
}

// guideOf writes the columns as they are read as a guide.
func (s *sheet) guideOf(cells []string) Guide {
	g := Guide{Format: batch.GuideFormat}
	if s.guide != nil {
		g = *s.guide
	}
	g.Heading = visibleCells(cells)
	g.Columns = nil
	for _, c := range s.cols {
		out := c.Column
		if c.label != nil && out.From == nil && out.To == nil && c.label.Unit != wording.Percent && c.label.Unit != wording.NoUnit {
			out.From, out.To = c.label.From, c.label.To // other labels are read anew from the heading
		}
		g.Columns = append(g.Columns, out)
	}
	return g
}

func visibleCells(cells []string) []string {
	out := cloneCells(cells)
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out
}

// rowShown returns where among the rows that are shown a row stands.
func (s *sheet) rowShown(cells []string) int {
	words := rowWords(s.place(0))
	return max(0, slices.IndexFunc(s.g.sheets[s.index].Rows, func(l batch.Line) bool { return l.Place == words }))
}

// columns lays the columns out as a guide says.
func columnsOf(g *Guide, cells []string) (*layout, []column) {
	cols := make([]column, max(len(cells), len(g.Columns)))
	candidates := make([]candidate, len(cols))
	for i := range cols {
		if i < len(cells) {
			cols[i].heading = strings.TrimSpace(cells[i])
		}
		if i >= len(g.Columns) || g.Columns[i].Field == "" {
			continue
		}
		cols[i].Column = g.Columns[i]
		candidates[i].fields = []wording.Field{cols[i].Field}
		if cols[i].Field == bandHours {
			cols[i].label = &wording.Label{From: cols[i].From, To: cols[i].To, Unit: wording.Kilogram}
			if cols[i].From == nil && cols[i].To == nil {
				cols[i].label = candidateOf(cols[i].heading, markOf(g)).label
			}
			if cols[i].label == nil {
				cols[i].Field, candidates[i].fields = "", nil
			}
		}
	}
	for i := range layouts {
		if layouts[i].fits(candidates) {
			return &layouts[i], cols
		}
	}
	return nil, nil
}

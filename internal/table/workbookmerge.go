package table

import (
	"bytes"
	"io"
	"slices"
	"strconv"
	"strings"
)

// merges are the merged cells of a sheet that span rows (ECMA-376 part 1,
// 18.3.1.55). Their value stands in the first row alone; a reader of rows wants
// it in each that has other values, as a person sees it. Across columns it
// stands in the first. At most maxMerged are kept, the others show their value
// in the first row alone.
type merges struct {
	spans  []merged // by first row
	next   int      // the first span that has not begun
	active []merged
}

type merged struct {
	from, to, column int
	text             string
	number           bool
}

// merges reads the merged cells, which stand behind the rows, in a pass of its
// own: it looks for their tag in the bytes, far faster than rows are read. The
// pass has a budget of its own, for it unpacks nothing new.
func (k *book) merges(part string) (found merges, err error) {
	in, err := k.open(part, maxPart, &budget{left: maxPart})
	if err != nil {
		return merges{}, err
	}
	defer in.Close()
	buf, held := make([]byte, 64<<10), 0
	for err == nil {
		var n int
		n, err = in.Read(buf[held:])
		held = copy(buf, found.scan(buf[:held+n]))
	}
	if err != io.EOF {
		return merges{}, err
	}
	slices.SortStableFunc(found.spans, func(a, b merged) int { return a.from - b.from })
	return found, nil
}

// mergeTag begins the tag of a merged cell; that of the list is "mergeCells".
var mergeTag = []byte("mergeCell ")

// scan takes the merged cells in a piece of a part and returns its end, where a
// tag may begin.
func (m *merges) scan(piece []byte) (rest []byte) {
	const longest = 4096 // bytes of such a tag
	for {
		i := bytes.Index(piece, mergeTag)
		if i < 0 {
			return piece[max(len(piece)-len(mergeTag)+1, 0):]
		}
		piece = piece[i:]
		end := bytes.IndexByte(piece, '>')
		switch {
		case end >= 0:
			m.add(piece[len(mergeTag):end])
			piece = piece[end:]
		case len(piece) < longest:
			return piece
		default:
			piece = piece[len(mergeTag):]
		}
	}
}

// add takes the attributes of a merged cell: ref="B2:B5".
func (m *merges) add(attrs []byte) {
	if len(m.spans) == maxMerged {
		return
	}
	t := markup{attrs: attrs}
	first, last, ok := strings.Cut(string(t.attr("ref")), ":")
	if !ok {
		return
	}
	from, to := rowOf(first), rowOf(last)
	if column := columnOf([]byte(first)) - 1; column >= 0 && column < maxCells && from > 0 && to > from {
		m.spans = append(m.spans, merged{from: from, to: to, column: column})
	}
}

// rowOf reads the row of a place as "AB12"; 0 where there is none.
func rowOf(place string) int {
	n, err := strconv.Atoi(strings.TrimLeft(place, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"))
	if err != nil || n > maxRows {
		return 0
	}
	return n
}

// fill repeats the values of merged cells in a row, and keeps those that begin.
func (m *merges) fill(r *sheetRows) {
	if len(m.spans) == 0 {
		return
	}
	m.active = slices.DeleteFunc(m.active, func(s merged) bool { return r.row > s.to })
	if len(r.cells) > 0 {
		for _, s := range m.active {
			if s.column >= len(r.cells) || r.cells[s.column] == "" {
				r.set(s.column, s.text, s.number)
			}
		}
	}
	for ; m.next < len(m.spans) && m.spans[m.next].from <= r.row; m.next++ {
		s := m.spans[m.next]
		taken := slices.ContainsFunc(m.active, func(a merged) bool { return a.column == s.column }) // merged cells do not overlap
		if s.from == r.row && !taken && s.column < len(r.cells) && r.cells[s.column] != "" {
			s.text, s.number = strings.Clone(r.cells[s.column]), r.number[s.column]
			m.active = append(m.active, s)
		}
	}
}

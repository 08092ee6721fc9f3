package intake

// above is what the row above said, to skip what a row repeats.
type above struct {
	c       *tableCase
	reading int
	said    texts
	row     int // its number where one that begins like it is of the same reading
	whole   int // with so many cells
}

// of reports whether it is of the row just above the one in hand.
func (a *above) of(s *sheet) bool { return a.whole > 0 && a.row == s.rows-1 && a.c == s.g.last }

// texts are texts by column.
type texts []string

func (t texts) has(i int, text string) bool { return i < len(t) && t[i] == text }

func (t *texts) keep(i int, text string) {
	for len(*t) <= i {
		*t = append(*t, "")
	}
	(*t)[i] = text
}

// turn makes it one of the case in hand and its reading. What was said of
// another is not what a row repeats.
func (a *above) turn(c *tableCase, ofReading []int) {
	switch {
	case c != a.c:
		clear(a.said)
	case c.current != a.reading:
		for _, i := range ofReading {
			if i < len(a.said) {
				a.said[i] = ""
			}
		}
	}
	a.c, a.reading = c, c.current
}

func (a *above) keep(cells []string, columns []int) {
	for _, i := range columns {
		if i < len(cells) && cells[i] != "" {
			a.said.keep(i, cells[i])
		}
	}
}

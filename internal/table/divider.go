package table

import (
	"bytes"
	"strings"
)

// dividers are the marks that may stand between cells. Where two serve as well,
// the first counts: a comma also stands before decimals.
var dividers = []byte{'\t', ';', '|', ','}

const dividerLines = 50 // lines looked at to tell the divider

// dividerOf tells what divides the cells of a text: the mark by which most of
// the first lines have the same number of cells. A comma that only ever stands
// between digits divides nothing. Without any, lines are single cells.
func dividerOf(head []byte) byte {
	best, bestLines, bestWidth := byte('\t'), 0, 0
	lines := sample(head)
	for _, mark := range dividers {
		widths := map[int]int{}
		divides := mark != ','
		for _, line := range lines {
			n, clear := countMarks(line, mark)
			divides = divides || clear
			if n > 0 {
				widths[n]++
			}
		}
		width, most := 0, 0
		for w, n := range widths {
			if n > most || n == most && w > width {
				width, most = w, n
			}
		}
		if divides && (most > bestLines || most == bestLines && width > bestWidth && (mark != ',' || best == '\t' || !decimals(lines))) {
			best, bestLines, bestWidth = mark, most, width
		}
	}
	return best
}

// decimals reports whether most commas of the lines stand between digits, as
// they do before decimals.
func decimals(lines []string) bool {
	between, others := 0, 0
	for _, line := range lines {
		for i := 1; i+1 < len(line); i++ {
			if line[i] == ',' {
				if isDigit(line[i-1]) && isDigit(line[i+1]) {
					between++
				} else {
					others++
				}
			}
		}
	}
	return between > others
}

// sample returns the first lines that are no comments and not blank.
func sample(head []byte) (out []string) {
	text := strings.ReplaceAll(strings.ReplaceAll(string(head), "\r\n", "\n"), "\r", "\n")
	for line := range strings.SplitSeq(text, "\n") {
		if line == "" || isComment(line) || strings.TrimSpace(line) == "" {
			continue
		}
		if out = append(out, line); len(out) == dividerLines {
			break
		}
	}
	if len(out) > 1 && !bytes.HasSuffix(head, []byte("\n")) && len(head) >= dividerHead {
		out = out[:len(out)-1] // the last may be cut
	}
	return out
}

// isComment reports whether a line begins with #, and not a cell of that name.
func isComment(line string) bool {
	return line[0] == '#' && (len(line) == 1 || strings.IndexByte(string(dividers), line[1]) < 0)
}

// countMarks counts the marks of a line outside quotes; clear tells whether one
// of them does not stand between digits.
func countMarks(line string, mark byte) (n int, clear bool) {
	quoted := false
	for i := 0; i < len(line); i++ {
		switch c := line[i]; {
		case c == '"':
			quoted = !quoted
		case c == mark && !quoted:
			n++
			if i == 0 || i+1 == len(line) || !isDigit(line[i-1]) || !isDigit(line[i+1]) {
				clear = true
			}
		}
	}
	return n, clear
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// declaredIn returns the divider that a line "sep=;" names above all others,
// and the number of that line; 0 without one.
func declaredIn(head []byte) (mark byte, number int) {
	text := strings.ReplaceAll(strings.ReplaceAll(string(head), "\r\n", "\n"), "\r", "\n")
	for line := range strings.SplitSeq(text, "\n") {
		number++
		if line == "" || line[0] == '#' {
			continue
		}
		line = strings.Trim(line, `"`)
		if len(line) == 5 && strings.EqualFold(line[:4], "sep=") && bytes.IndexByte(dividers, line[4]) >= 0 {
			return line[4], number
		}
		break
	}
	return 0, 0
}

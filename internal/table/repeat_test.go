package table_test

import (
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"ratchetmark/internal/record"
	"ratchetmark/internal/table"
)

// Whatever lines have in common with those above: the cells are those of each
// line by itself, in their places, and what is said to repeat does.
func FuzzRepeatedCells(f *testing.F) {
	f.Add("a;b;c\na;b;d\na;b;d\na;x\n;;;\n;;\n")
	f.Add("a;ä;c\na;ä;d\na;a;d\na;a;d;e\n")
	f.Add("a;1\r\na;1\r\na;\"1\"\r\na;1\r\n#\r\na;2\r\n")
	f.Fuzz(func(t *testing.T, text string) { repeated(t, "h;i\n"+text) })
}

// The same of lines longer than what is read at once.
func TestRepeatedCellsOfLongText(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 9))
	var s strings.Builder
	s.WriteString("h;i\n")
	cells := []string{"M-1", "boom", "230", "", "ä", "8"}
	for s.Len() < 300_000 {
		for range random.IntN(3) {
			cells[random.IntN(len(cells))] = []string{"", "x", "ö", "12.5", strings.Repeat("long", random.IntN(20))}[random.IntN(5)]
		}
		s.WriteString(strings.Join(cells[:1+random.IntN(len(cells))], ";") + "\n")
	}
	repeated(t, s.String())
}

func repeated(t *testing.T, text string) {
	t.Helper()
	if !utf8.ValidString(text) || strings.ContainsAny(text, "\x00\ufeff") || strings.Contains(text, "sep=") {
		return
	}
	lines := strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n")
	err := table.Walk("f.csv", strings.NewReader(text), table.Walker{
		Table: func(tb table.Table) error { return repeatedRows(t, tb.Rows, lines) },
		JSON:  func(_ string, in io.Reader) error { _, err := io.Copy(io.Discard, in); return err },
		Note:  func(record.Origin, record.Finding) {},
	})
	if err != nil {
		return // a refusal is another test's
	}
}

func repeatedRows(t *testing.T, rows table.Rows, lines []string) error {
	var above []string
	for {
		cells, err := rows.Next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			above = nil
			continue
		}
		at := rows.Place(0)
		line := lines[at.Line-1]
		if same := rows.(table.Repeating).Same(); same > 0 && (above == nil || same > len(above) || same > len(cells) || !slices.Equal(above[:same], cells[:same])) {
			t.Fatalf("line %d: got %d cells said to repeat, want %q in %q", at.Line, same, cells, above)
		}
		above = slices.Clone(cells)
		if strings.ContainsRune(line, '"') {
			continue
		}
		if got := strings.Join(cells, ";"); strings.Contains(line, ";") && len(cells) > 1 && got != line && strings.Count(line, ";") < 2000 {
			if !slices.ContainsFunc([]string{"\t", "|", ","}, func(mark string) bool { return strings.Join(cells, mark) == line }) {
				t.Fatalf("line %d: got %q, want %q", at.Line, cells, line)
			}
		}
		column := 1
		for i, c := range cells {
			if p := rows.Place(i); p.Line != at.Line || p.Column != column {
				t.Fatalf("line %d, cell %d: got %v, want column %d", at.Line, i+1, p, column)
			}
			if line, place := rows.(table.Spotted).Spot(i); line != at.Line || place != column {
				t.Fatalf("got %s, want it as the place says", fmt.Sprint(line, place))
			}
			column += utf8.RuneCountInString(c) + 1
		}
	}
}

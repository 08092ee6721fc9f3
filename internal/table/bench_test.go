package table_test

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"ratchetmark/internal/record"
	"ratchetmark/internal/table"
)

// drain reads all rows of a file, and returns their number.
func drain(b *testing.B, name string, in io.Reader) (rows int) {
	b.Helper()
	err := table.Walk(name, in, table.Walker{
		Table: func(t table.Table) error {
			for {
				switch _, err := t.Rows.Next(); err {
				case nil:
					rows++
				case io.EOF:
					return nil
				default:
					return err
				}
			}
		},
		JSON: func(_ string, in io.Reader) error { _, err := io.Copy(io.Discard, in); return err },
		Note: func(record.Origin, record.Finding) {},
	})
	if err != nil {
		b.Fatal(err)
	}
	return rows
}

// tenMegabytes is delimited text as exports have it.
func tenMegabytes() []byte {
	var b bytes.Buffer
	b.WriteString("machine,at,from_kg,to_kg,hours,powered_h\n")
	for i := 0; b.Len() < 10<<20; i++ {
		fmt.Fprintf(&b, "T-%02d,2026-03-02T08:%02d:00Z,%d,%d,%d.%d,%d\n", i%90, i%60, i%10*90, i%10*90+90, i%977, i%10, i%4999)
	}
	return b.Bytes()
}

func BenchmarkDelimited(b *testing.B) {
	text := tenMegabytes()
	quoted := []byte(`"` + strings.ReplaceAll(strings.ReplaceAll(strings.TrimSpace(string(text)), ",", `","`), "\n", "\"\n\"") + "\"\n")
	for _, c := range []struct {
		name string
		text []byte
	}{{"plain", text}, {"quoted", quoted}} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.text)))
			for b.Loop() {
				drain(b, "f.csv", bytes.NewReader(c.text))
			}
		})
		b.Run(c.name+"/encoding-csv", func(b *testing.B) {
			b.SetBytes(int64(len(c.text)))
			for b.Loop() {
				r := csv.NewReader(bytes.NewReader(c.text))
				r.ReuseRecord, r.FieldsPerRecord = true, -1
				for {
					if _, err := r.Read(); err == io.EOF {
						break
					} else if err != nil {
						b.Fatal(err)
					}
				}
			}
		})
	}
}

func BenchmarkDecode(b *testing.B) {
	text := append([]byte("[ "), tenMegabytes()...) // taken for JSON: given as it is decoded
	for _, c := range []struct {
		name string
		text []byte
	}{
		{"ascii", text},
		{"utf-8", bytes.ReplaceAll(text, []byte("T-"), []byte("Ü-"))},
		{"windows-1252", bytes.ReplaceAll(text, []byte("T-"), []byte("\xdc-"))},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.text)))
			for b.Loop() {
				drain(b, "f", bytes.NewReader(c.text))
			}
		})
	}
}

// bigSheet is the markup of a sheet of n rows of eight cells.
func bigSheet(n int) string {
	var s strings.Builder
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&s, `<row r="%d" spans="1:8"><c r="A%[1]d" t="s"><v>%d</v></c><c r="B%[1]d" s="2"><v>46083.%d</v></c>`, i, i%3, i*7919%100000)
		for j := range 6 {
			fmt.Fprintf(&s, `<c r="%c%d"><v>%d.%d</v></c>`, 'C'+j, i, i*(j+3)%9973, i%10)
		}
		s.WriteString("</row>")
	}
	return s.String()
}

func BenchmarkXLSX(b *testing.B) {
	const rows = 50000
	book := oneSheet(bigSheet(rows))
	book.strings, book.styles = `<si><t>T-01</t></si><si><t>T-02</t></si><si><t>T-03</t></si>`, styleList
	data, sheet := book.bytes(), len(book.sheets[0].rows)
	b.SetBytes(int64(len(data)))
	n := 0
	for b.Loop() {
		n += drain(b, "f.xlsx", bytes.NewReader(data))
	}
	b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "rows/s")
	b.ReportMetric(float64(n)/rows*float64(sheet)/1e6/b.Elapsed().Seconds(), "MB_XML/s")
}

// BenchmarkMarkup takes a sheet apart, unpacked and with nothing done to its
// tokens; beside it encoding/xml on the same bytes.
func BenchmarkMarkup(b *testing.B) {
	text := "<sheetData>" + bigSheet(50000) + "</sheetData>"
	b.Run("own", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		for b.Loop() {
			if _, err := table.CountMarkup(strings.NewReader(text)); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("encoding-xml", func(b *testing.B) {
		b.SetBytes(int64(len(text)))
		for b.Loop() {
			d := xml.NewDecoder(strings.NewReader(text))
			for {
				if _, err := d.RawToken(); err == io.EOF {
					break
				} else if err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}

func BenchmarkHTML(b *testing.B) {
	var s strings.Builder
	s.WriteString("<table>")
	for i := range 50000 {
		fmt.Fprintf(&s, "<tr><td>T-%02d</td><td>%d</td><td>%d</td><td>%d.5</td></tr>\n", i%90, i%10*90, i%10*90+90, i%977)
	}
	s.WriteString("</table>")
	b.SetBytes(int64(s.Len()))
	for b.Loop() {
		drain(b, "f.html", strings.NewReader(s.String()))
	}
}

// BenchmarkMemory streams 200 MB and reports the highest heap seen.
func BenchmarkMemory(b *testing.B) {
	piece := tenMegabytes()
	b.SetBytes(int64(20 * len(piece)))
	var peak uint64
	for b.Loop() {
		pieces := make([]io.Reader, 20)
		for i := range pieces {
			pieces[i] = bytes.NewReader(piece)
		}
		runtime.GC()
		var before runtime.MemStats
		runtime.ReadMemStats(&before)
		drain(b, "f.csv", &watched{in: io.MultiReader(pieces...), before: before.HeapAlloc, peak: &peak})
	}
	b.ReportMetric(float64(peak)/1e6, "MB_peak")
}

// watched looks at the heap each 8 MB.
type watched struct {
	in     io.Reader
	n      int
	before uint64
	peak   *uint64
}

func (w *watched) Read(p []byte) (int, error) {
	n, err := w.in.Read(p)
	if (w.n+n)>>23 != w.n>>23 {
		var now runtime.MemStats
		runtime.ReadMemStats(&now)
		if now.HeapAlloc > w.before {
			*w.peak = max(*w.peak, now.HeapAlloc-w.before)
		}
	}
	w.n += n
	return n, err
}

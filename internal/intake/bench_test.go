package intake_test

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"runtime"
	"strconv"
	"sync/atomic"
	"testing"
	"time"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// fleet writes delimited text of many machines: one row for each band.
func fleet(size int) []byte {
	var b bytes.Buffer
	b.WriteString(heading)
	day := time.Date(2020, 1, 1, 8, 0, 0, 0, time.UTC)
	for m := 0; b.Len() < size; m++ {
		for r := range 24 {
			at := day.AddDate(0, r, m%28).Format(time.RFC3339)
			for j := range 8 {
				to := fmt.Sprint(j*40 + 40)
				if j == 7 {
					to = ""
				}
				fmt.Fprintf(&b, "M-%05d,boom,230,2,262,%s,%d,%d.25,317,,%d,%s,%d.75\n", m, at, r*80+34, r*30, j*40, to, r*10+j)
			}
		}
	}
	return b.Bytes()
}

// BenchmarkDelimited reads delimited text, and the same bytes with encoding/csv
// without interpreting them. The aim is at least half of its speed.
func BenchmarkDelimited(b *testing.B) {
	text := fleet(10 << 20)
	var own, plain time.Duration
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		start := time.Now()
		batch, err := intake.ReadBytes("x", text)
		if err != nil || len(batch.Records) < 100 || record.Blocks(batch.Records[0].Findings) {
			b.Fatalf("got %v and %d records", err, len(batch.Records))
		}
		own += time.Since(start)
		start = time.Now()
		if n := rowsOf(b, text); n < 100_000 {
			b.Fatalf("got %d rows", n)
		}
		plain += time.Since(start)
	}
	b.ReportMetric(float64(len(text))*float64(b.N)/own.Seconds()/1e6, "MB/s-read")
	b.ReportMetric(float64(len(text))*float64(b.N)/plain.Seconds()/1e6, "MB/s-csv")
	b.ReportMetric(plain.Seconds()/own.Seconds(), "of-csv")
}

// BenchmarkWorkbook reads a workbook with the same rows as a text, which
// encoding/csv reads without interpreting it.
func BenchmarkWorkbook(b *testing.B) {
	text := fleet(3 << 20)
	book := workbook(b, text)
	var own, plain time.Duration
	for b.Loop() {
		start := time.Now()
		batch, err := intake.ReadBytes("x", book)
		if err != nil || len(batch.Records) < 30 || record.Blocks(batch.Records[0].Findings) {
			b.Fatalf("got %v and %d records", err, len(batch.Records))
		}
		own += time.Since(start)
		start = time.Now()
		rowsOf(b, text)
		plain += time.Since(start)
	}
	b.ReportMetric(float64(len(book))*float64(b.N)/own.Seconds()/1e6, "MB/s-packed")
	b.ReportMetric(float64(len(text))*float64(b.N)/own.Seconds()/1e6, "MB/s-as-text")
	b.ReportMetric(plain.Seconds()/own.Seconds(), "of-csv")
}

// workbook writes delimited text as a workbook of one sheet.
func workbook(b *testing.B, text []byte) []byte {
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		b.Fatal(err)
	}
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	part := func(name, text string) io.Writer {
		w, err := z.Create(name)
		if err != nil {
			b.Fatal(err)
		}
		fmt.Fprint(w, text)
		return w
	}
	const main, rel = "http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	part("[Content_Types].xml", `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`)
	part("_rels/.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="`+rel+`/officeDocument" Target="xl/workbook.xml"/></Relationships>`)
	part("xl/workbook.xml", `<workbook xmlns="`+main+`" xmlns:r="`+rel+`"><sheets><sheet name="Loads" sheetId="1" r:id="r1"/></sheets></workbook>`)
	part("xl/_rels/workbook.xml.rels", `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="r1" Type="`+rel+`/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`)
	w := part("xl/worksheets/sheet1.xml", `<worksheet xmlns="`+main+`"><sheetData>`)
	for r, row := range rows {
		fmt.Fprintf(w, `<row r="%d">`, r+1)
		for c, cell := range row {
			if _, err := strconv.ParseFloat(cell, 64); err == nil {
				fmt.Fprintf(w, `<c r="%c%d"><v>%s</v></c>`, 'A'+c, r+1, cell)
			} else if cell != "" {
				fmt.Fprintf(w, `<c r="%c%d" t="inlineStr"><is><t>%s</t></is></c>`, 'A'+c, r+1, cell)
			}
		}
		fmt.Fprint(w, "</row>")
	}
	fmt.Fprint(w, "</sheetData></worksheet>")
	if err := z.Close(); err != nil {
		b.Fatal(err)
	}
	return out.Bytes()
}

func rowsOf(b *testing.B, text []byte) (n int) {
	r := csv.NewReader(bytes.NewReader(text))
	r.ReuseRecord = true
	for {
		if _, err := r.Read(); err == io.EOF {
			return n
		} else if err != nil {
			b.Fatal(err)
		}
		n++
	}
}

// BenchmarkMemory reads 200 MB and reports the most memory in use on the way.
func BenchmarkMemory(b *testing.B) {
	text := fleet(4 << 20)
	for b.Loop() {
		var most atomic.Uint64
		done := make(chan struct{})
		go watch(&most, done)
		in := io.MultiReader(bytes.NewReader([]byte(heading)), &endless{text: string(text[len(heading):]), left: 200_000_000})
		if _, err := intake.Read("x", in, intake.Options{}, nil); err != nil {
			b.Fatal(err)
		}
		close(done)
		b.ReportMetric(float64(most.Load())/1e6, "MB-most")
	}
	b.SetBytes(200_000_000)
}

func watch(most *atomic.Uint64, done chan struct{}) {
	var m runtime.MemStats
	for {
		select {
		case <-done:
			return
		case <-time.After(20 * time.Millisecond):
			runtime.ReadMemStats(&m)
			if m.HeapAlloc > most.Load() {
				most.Store(m.HeapAlloc)
			}
		}
	}
}

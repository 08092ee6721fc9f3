package intake_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"runtime"
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
				fmt.Fprintf(&b, "M-%05d,boom,230,2,262,%s,%d.5,%d.25,217,,%d,%s,%d.75\n", m, at, r*100+800, r*30, j*40, to, r*10+j)
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

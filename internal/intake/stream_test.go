package intake_test

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// counting counts what is taken from a reader.
type counting struct {
	r     io.Reader
	n     int64
	ended bool
}

func (c *counting) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.n += int64(n)
	c.ended = c.ended || err == io.EOF
	return n, err
}

// endless repeats a text up to a size, without holding it in memory.
type endless struct {
	text string
	left int64
	at   int
}

func (e *endless) Read(p []byte) (int, error) {
	if e.left == 0 {
		return 0, io.EOF
	}
	n := 0
	for n < len(p) && e.left > 0 {
		k := copy(p[n:min(len(p), n+int(min(e.left, int64(len(e.text)))))], e.text[e.at:])
		n, e.left, e.at = n+k, e.left-int64(k), (e.at+k)%len(e.text)
	}
	return n, nil
}

const heading = "machine,kind,rated_load_kg,persons,load_sensing_kg,reading_at,powered_h,moving_h,peak_kg,peak_at,from_kg,to_kg,hours\n"

// A file of 100 MB that is no record is refused before much of it is read.
func TestHugeFilesAreRefusedEarly(t *testing.T) {
	const size = 100_000_000
	for name, v := range map[string]struct {
		start, rest string
		refused     string
		most        int64 // bytes taken
	}{
		"no end of line":            {"", "all work and no play ", "x:1: the line is longer than 64 KiB", 128 << 10},
		"no end of line, in a row":  {heading + "A,", "0123456789", "x:2: the line is longer than 64 KiB", 128 << 10},
		"wrong heading":             {"", "the quick brown fox\n", `x: no row is a heading that is known; the first is "the quick brown fox"`, 64 << 10},
		"wrong heading, delimited":  {"", "a;b;c\n1;2;3\n", "x: no row is a heading that is known", 64 << 10},
		"zeros":                     {"", "\x00", "x: byte 1 is zero: the file is not text", 16 << 10},
		"blank lines":               {"", " \n", "x: the file begins with nothing but blank lines", 16 << 10},
		"a picture":                 {"\xff\xd8\xff\xe0", "abc", "x: the file is a JPEG picture", 16 << 10},
		"deep JSON":                 {"", "[", "x: more than 64 MiB of JSON", 65 << 20},
		"an open quote, no newline": {heading + `"`, "a", "x:2: the line is longer than 64 KiB", 128 << 10},
	} {
		in := &counting{r: io.MultiReader(strings.NewReader(v.start), &endless{text: v.rest, left: size})}
		_, err := intake.Read("x", in, intake.Options{}, nil)
		var refusal *intake.Refusal
		if !errors.As(err, &refusal) || !strings.HasPrefix(err.Error(), v.refused) {
			t.Errorf("%s: got %v, want %s", name, err, v.refused)
		}
		if in.n > v.most {
			t.Errorf("%s: got %d bytes taken, want at most %d", name, in.n, v.most)
		}
	}
}

// A long record in the right form is read whole: 5 MB of 3 600 readings.
func TestLongDelimitedFile(t *testing.T) {
	var text strings.Builder
	text.WriteString(heading)
	const readings, bands = 3600, 20
	for i := range readings {
		day := record.Date{}
		day.Time = day.Time.AddDate(1999, 0, i)
		for j := range bands {
			to := fmt.Sprint(j*20 + 20)
			if j == bands-1 {
				to = ""
			}
			fmt.Fprintf(&text, "A,boom,230,2,262,%sT08:00:00Z,%d.5,%d,217,,%d,%s,%d.25\n", day, i*21, i, j*20, to, i)
		}
	}
	if text.Len() < 4_000_000 {
		t.Fatalf("got %d bytes, want a long file", text.Len())
	}
	told := int64(0)
	batch, err := intake.Read("x", strings.NewReader(text.String()), intake.Options{}, func(n int64) error { told = n; return nil })
	if err != nil || len(batch.Records) != 1 || len(batch.Records[0].Findings) > 0 {
		t.Fatalf("got %v and %d records, want one without a finding", err, len(batch.Records))
	}
	c := batch.Records[0].Case
	if len(c.Readings) != readings || len(c.Readings[readings-1].Bands) != bands {
		t.Errorf("got %d readings, want %d of %d bands", len(c.Readings), readings, bands)
	}
	if told != int64(text.Len()) || batch.Bytes != told {
		t.Errorf("got told of %d bytes, want %d", told, text.Len())
	}
	var counted float64
	for _, s := range capacity.Segments(record.Lay(&c).Life()) {
		counted += float64(s.Hours)
	}
	if want := bands * (readings - 1 + 0.25); counted != want {
		t.Errorf("got %v h counted, want %v h", counted, want)
	}
}

// The limit of a line is one of 64 KiB, wherever in a read it is crossed.
func TestLineLimit(t *testing.T) {
	row := "A,boom,230,2,,2026-03-02,1,,99,,0,90,"
	for _, v := range []struct {
		length  int
		refused bool
	}{{64 << 10, false}, {64<<10 + 1, true}, {64<<10 + 100, true}, {65<<10 + 4000, true}} {
		text := heading + row + strings.Repeat("0", v.length-len(row)-1) + "1\n"
		_, err := intake.Read("x", strings.NewReader(text), intake.Options{}, nil)
		if got := err != nil && strings.Contains(err.Error(), "x:2: the line is longer"); got != v.refused {
			t.Errorf("%d bytes: got %v, want refused %v", v.length, err, v.refused)
		}
	}
}

// Reading stops where the progress function says so.
func TestCancel(t *testing.T) {
	for name, v := range map[string][2]string{"delimited": {heading, "A,,230,,,2026-03-02,,,,,0,90,1\n"}, "json": {"[", "# a comment\n "}} {
		in := &counting{r: io.MultiReader(strings.NewReader(v[0]), &endless{text: v[1], left: 50_000_000})}
		_, err := intake.Read("x", in, intake.Options{}, func(n int64) error {
			if n > 1_000_000 {
				return batch.ErrCancelled
			}
			return nil
		})
		if !errors.Is(err, batch.ErrCancelled) {
			t.Errorf("%s: got %v, want it cancelled", name, err)
		}
		if in.n > 1_300_000 {
			t.Errorf("%s: got %d bytes taken, want little more than 1 000 000", name, in.n)
		}
	}
}

// A reader that fails is not a refusal: its own error comes through.
func TestReaderFails(t *testing.T) {
	broken := errors.New("the cable was pulled")
	for name, start := range map[string]string{"at once": "", "in a heading": heading[:50], "in a row": heading + "A,boom,23", "in json": `{"format":`} {
		_, err := intake.Read("x", io.MultiReader(strings.NewReader(start), failing{broken}), intake.Options{}, nil)
		if !errors.Is(err, broken) {
			t.Errorf("%s: got %v, want %v", name, err, broken)
		}
	}
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error) { return 0, f.err }

// Millions of rows that do not fit their table are counted, not looked at one
// by one: 4 MiB of them took twenty seconds. The time allowed is far above what
// a busy machine needs.
func TestManyRaggedRows(t *testing.T) {
	const rows = 2_000_000
	fits := "A,boom,230,2,,2026-03-02,1,,99,,0,90,1\n"
	block := strings.Repeat("x\n", 1000) + fits // a table none of whose rows fits is given up
	start := time.Now()
	batch, err := intake.Read("x", io.MultiReader(strings.NewReader(heading+fits), &endless{text: block, left: rows / 1000 * int64(len(block))}), intake.Options{}, nil)
	if err != nil || len(batch.Records) != 1 {
		t.Fatalf("got %v and %d records, want one", err, len(batch.Records))
	}
	found := batch.Records[0].Findings
	if last := fmt.Sprintf("%d further findings are not listed", rows-500); len(found) < 501 || !slices.ContainsFunc(found, func(f record.Finding) bool { return f.Message == last }) {
		t.Errorf("got %d findings, want 500 and then %q", len(found), last)
	}
	if spent := time.Since(start); spent > 10*time.Second {
		t.Errorf("got %v, want about half a second", spent)
	}
}

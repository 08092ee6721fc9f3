package wording_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"ratchetmark/internal/wording"
)

const (
	anyMark = wording.Unknown
	point   = wording.Point
	comma   = wording.Comma
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		text string
		mark wording.Mark
		want float64
	}{
		{"0", anyMark, 0}, {"412", anyMark, 412}, {"007", anyMark, 7}, {" 7 ", anyMark, 7}, {"\u00a07\u00a0", anyMark, 7}, {"+3", anyMark, 3},
		{"412.6", anyMark, 412.6}, {"412,6", anyMark, 412.6}, {"-0,5", anyMark, -0.5}, {"\u22125", anyMark, -5}, {"-0", anyMark, 0},
		{".5", anyMark, 0.5}, {",5", anyMark, 0.5}, {"0.123", anyMark, 0.123}, {"0,125", anyMark, 0.125}, {"1234,5", anyMark, 1234.5}, {"12,5", anyMark, 12.5},
		{"1234,567", anyMark, 1234.567}, {"12.3456", anyMark, 12.3456}, {"1,2345", anyMark, 1.2345},
		{"1.234,5", anyMark, 1234.5}, {"1,234.5", anyMark, 1234.5}, {"1,234,567", anyMark, 1234567}, {"1.234.567", anyMark, 1234567}, {"1.234.567,25", anyMark, 1234567.25},
		{"1 234", anyMark, 1234}, {"1\u00a0234,5", anyMark, 1234.5}, {"1\u202f234\u202f567", anyMark, 1234567}, {"1\u2009234.5", anyMark, 1234.5},
		{"1'234", anyMark, 1234}, {"1’234.5", anyMark, 1234.5}, {"1 234,567", anyMark, 1234.567}, {"12 345.678", anyMark, 12345.678},
		{"1,234", point, 1234}, {"1,234", comma, 1.234}, {"1.234", point, 1.234}, {"1.234", comma, 1234}, {"-1,234", point, -1234}, {"999,999", point, 999999},
		{"1e3", anyMark, 1000}, {"1,5E-3", anyMark, 0.0015}, {"1.234e5", anyMark, 123400}, {"1e308", anyMark, 1e308}, {"1e-400", anyMark, 0},
		{"123456789012345", anyMark, 123456789012345}, {"1234567890123456789", anyMark, 1234567890123456789}, {"0.1", point, 0.1}, {"0.000000000000001", point, 1e-15},
	} {
		if got, err := wording.Number(c.text, c.mark); err != nil || got != c.want || math.Signbit(got) != (c.want < 0) {
			t.Errorf("%q, %v: got %v, %v, want %v", c.text, c.mark, got, err, c.want)
		}
	}
}

func TestNumberAmbiguous(t *testing.T) {
	for _, text := range []string{"1,234", "1.234", "12,345", "412.650", "-1,234", "+1.000", "999,999"} {
		if got, err := wording.Number(text, anyMark); !errors.Is(err, wording.ErrAmbiguous) {
			t.Errorf("%q: got %v, %v, want it asked about", text, got, err)
		}
		if m, twoWays := wording.MarkOf(text); m != anyMark || !twoWays {
			t.Errorf("mark of %q: got %v, %v, want two ways", text, m, twoWays)
		}
	}
}

func TestNumberRefused(t *testing.T) {
	for text, fault := range map[string]string{
		"": "is not a number", " ": "is not a number", "about twelve": "is not a number", "NaN": "is not a number", "Inf": "is not a number", "-Infinity": "is not a number",
		"-": "is not a number", "--1": "is not a number", "+-1": "is not a number", "1-": "is not a number", "5.": "is not a number", ",": "is not a number", "1..2": "is not a number",
		"12 h": "is not a number", "0x10": "is not a number", "1_000": "is not a number", "1e": "is not a number", "1e+": "is not a number", "1e+-5": "is not a number", "e5": "is not a number",
		"\u0661": "is not a number", "1  234": "is not a number", "- 5": "is not a number", "(5)": "is not a number", "12:30": "is not a number", "1'": "is not a number",
		"12,34,567": "has marks where a number has none", "1234,567,890": "has marks where a number has none", "1,23.4": "has marks where a number has none", "1.2.3": "has marks where a number has none",
		"1 23": "has marks where a number has none", "0 123": "has marks where a number has none", "1 234'567": "has marks where a number has none", "1.234,567.8": "has marks where a number has none", "0,123,456": "has marks where a number has none",
		"1e309": "is too large", "-1e999": "is too large", strings.Repeat("9", 400): "is too large",
	} {
		got, err := wording.Number(text, anyMark)
		if err == nil || !strings.HasSuffix(err.Error(), fault) || errors.Is(err, wording.ErrAmbiguous) {
			t.Errorf("%q: got %v, %v, want it %s", text, got, err, fault)
		}
		if m, twoWays := wording.MarkOf(text); fault != "is too large" && (m != anyMark || twoWays) {
			t.Errorf("mark of %q: got %v, %v, want none", text, m, twoWays)
		}
	}
	for text, mark := range map[string]wording.Mark{"12,5": point, "12.5": comma, "0.125": comma, "1234,567": point, "12.3456": comma, "1.234,5": point, ".5": comma} {
		if got, err := wording.Number(text, mark); err == nil {
			t.Errorf("%q with a %v: got %v, want an error", text, mark, got)
		}
	}
}

func TestMarkOf(t *testing.T) {
	for text, want := range map[string]wording.Mark{
		"12": anyMark, "1 234": anyMark, "12.5": point, "12,5": comma, "0,125": comma, "1.234,5": comma, "1,234.5": point,
		"1,234,567": point, "1.234.567": comma, "1'234.5": point, "1.234e5": point, " 3,25 ": comma,
	} {
		if got, twoWays := wording.MarkOf(text); got != want || twoWays {
			t.Errorf("%q: got %v, %v, want %v", text, got, twoWays, want)
		}
	}
}

// Every error says what was found, what was expected and what to do; its text
// is clipped and cannot break the line.
func TestErrorsSayWhatToDo(t *testing.T) {
	long := strings.Repeat("x\n", 500)
	_, number := wording.Number(long, anyMark)
	_, _, quantity := wording.Quantity(long, anyMark, wording.NoUnit)
	_, _, _, when := wording.Time(long, wording.UnknownOrder, nil)
	_, day := wording.Daytime(long)
	_, band := wording.Band(long, anyMark, wording.NoUnit)
	for _, err := range []error{number, quantity, when, day, band} {
		var u *wording.Unreadable
		if !errors.As(err, &u) || u.Fault == "" || u.Expected == "" || u.Hint == "" {
			t.Errorf("got %#v, want fault, expectation and hint", err)
		}
		if s := err.Error(); len(s) > 200 || strings.Contains(s, "\n") {
			t.Errorf("got %q, want one short line", s)
		}
	}
}

// Unicode CLDR, numbers: decimal and group of the locales, from memory.
var locales = []struct {
	name  string
	mark  wording.Mark
	group string
}{
	{"en", point, ","}, {"de", comma, "."}, {"de-AT", comma, "\u00a0"}, {"de-CH", point, "’"}, {"fr", comma, "\u202f"}, {"es", comma, "."}, {"it", comma, "."}, {"si", point, " "}, {"plain", point, ""},
}

// written writes a number with a mark and a divider of thousands.
func written(x float64, mark wording.Mark, group string) string {
	s := strconv.FormatFloat(x, 'f', -1, 64)
	whole, fraction, has := strings.Cut(strings.TrimPrefix(s, "-"), ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + group + whole[i:]
	}
	if has {
		whole += string(rune(mark)) + fraction
	}
	if x < 0 {
		whole = "-" + whole
	}
	return whole
}

func TestNumberRoundTrip(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		x := math.Round((random.Float64()-0.5)*math.Pow(10, float64(random.IntN(16)))) / math.Pow(10, float64(random.IntN(7)))
		for _, l := range locales {
			text := written(x, l.mark, l.group)
			if got, err := wording.Number(text, l.mark); err != nil || got != x {
				t.Fatalf("%s: %q: got %v, %v, want %v", l.name, text, got, err, x)
			}
			got, err := wording.Number(text, anyMark)
			m, twoWays := wording.MarkOf(text)
			switch {
			case twoWays != errors.Is(err, wording.ErrAmbiguous):
				t.Fatalf("%q: got two ways %v and %v, want the same", text, twoWays, err)
			case !twoWays && (err != nil || got != x):
				t.Fatalf("%s: %q with no mark known: got %v, %v, want %v", l.name, text, got, err, x)
			case m != anyMark && m != l.mark:
				t.Fatalf("%s: %q: got proof of a %v, want %v", l.name, text, m, l.mark)
			}
		}
	}
}

func TestPlainNumbersDoNotAllocate(t *testing.T) {
	for _, text := range []string{"12.5", "320", "0"} {
		if n := testing.AllocsPerRun(100, func() { _, _ = wording.Number(text, anyMark) }); n != 0 {
			t.Errorf("%q: got %v allocations, want none", text, n)
		}
	}
}

func BenchmarkNumber(b *testing.B) {
	for _, text := range []string{"12.5", "320", "0", "1.234,5"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				_, _ = wording.Number(text, anyMark)
			}
		})
	}
}

func FuzzNumber(f *testing.F) {
	for _, s := range []string{"0", "12.5", "1,234", "1.234.567,8", "-1e-5", "1 234", "1’234.5", "\u22125", ".5", "NaN", "1e309"} {
		f.Add(s, byte(0))
		f.Add(s, byte(1))
		f.Add(s, byte(2))
	}
	f.Fuzz(func(t *testing.T, s string, which byte) {
		mark := []wording.Mark{anyMark, point, comma}[which%3]
		x, err := wording.Number(s, mark)
		if err != nil {
			_ = err.Error()
			return
		}
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%q: got %v, want a finite number", s, x)
		}
		if again, err := wording.Number(strconv.FormatFloat(x, 'g', -1, 64), point); err != nil || again != x {
			t.Fatalf("%q: got %v, %v when read again, want %v", s, again, err, x)
		}
	})
}

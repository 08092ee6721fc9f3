package chart_test

import (
	"encoding/xml"
	"flag"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ratchetmark/internal/chart"
)

var update = flag.Bool("update", false, "write the golden files anew")

// machine is an invented ruler with all that it can show: bands below, across
// and above the rated load, an open one, a window, marks and a peak.
func machine() chart.Ruler {
	return chart.Ruler{
		Label: "Load ruler of an invented machine", Unit: "kg", Rated: 240, Peak: 674,
		Blocks: []chart.Block{
			{From: 0, To: 70, Hours: 401.7, Words: "401.7 h"},
			{From: 70, To: 180, Hours: 308.7, Words: "308.7 h"},
			{From: 180, To: 290, Hours: 20, Words: "20.0 h", Parts: []chart.Piece{{3, chart.Rules}, {0.8, chart.Solid}}, OverWords: "3.8 h"},
			{From: 290, To: 520},
			{From: 520, Open: true, Parts: []chart.Piece{{0.6, chart.Hatch}}, OverWords: "0.6 h"},
		},
		Marks:  []chart.Mark{{264, "110 %: dynamic test"}, {300, "125 %: static test"}, {360, "150 %"}},
		Window: [2]float64{240, 288}, Sense: "load sensing acts",
		Within: "within", Over: "over",
		Steps: []chart.Mark{{120, "1"}, {200, "2"}, {280, "3"}, {360, "4"}}, StepWords: "persons of 80 kg, with 40 kg of tools",
	}
}

// picture checks what holds for every picture and returns its elements.
func picture(t *testing.T, name, svg string) []xml.StartElement {
	t.Helper()
	for i := range len(svg) {
		if svg[i] > 126 || svg[i] < 32 {
			t.Fatalf("%s: got byte %#x at %d, want printable ASCII", name, svg[i], i)
		}
	}
	var elements []xml.StartElement
	ids, used := map[string]bool{}, []string{}
	for dec := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := dec.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatalf("%s: got %v, want well-formed XML", name, err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		elements = append(elements, e.Copy())
		for _, a := range e.Attr {
			if a.Name.Local == "id" {
				if ids[a.Value] {
					t.Errorf("%s: got id %q twice, want once", name, a.Value)
				}
				ids[a.Value] = true
			}
			if _, ref, ok := strings.Cut(a.Value, "url(#"); ok {
				used = append(used, strings.TrimSuffix(ref, ")"))
			}
			number(t, name, e.Name.Local, a)
		}
	}
	for _, id := range used {
		if !ids[id] {
			t.Errorf("%s: got a reference to %q, want it defined", name, id)
		}
	}
	return elements
}

// number checks that a coordinate is one, and a size not below zero.
func number(t *testing.T, name, element string, a xml.Attr) {
	t.Helper()
	switch a.Name.Local {
	case "x", "y", "x1", "x2", "y1", "y2", "width", "height":
		v, err := strconv.ParseFloat(a.Value, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 1e5 {
			t.Errorf("%s: got %s %s=%q, want a number on the canvas", name, element, a.Name.Local, a.Value)
		}
		if (a.Name.Local == "width" || a.Name.Local == "height") && v < 0 {
			t.Errorf("%s: got %s %s=%q, want no negative size", name, element, a.Name.Local, a.Value)
		}
	case "viewBox", "d":
		if strings.Contains(a.Value, "N") || strings.Contains(a.Value, "Inf") {
			t.Errorf("%s: got %s %s=%q, want numbers", name, element, a.Name.Local, a.Value)
		}
	}
}

func attr(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func float(e xml.StartElement, name string) float64 {
	v, _ := strconv.ParseFloat(attr(e, name), 64)
	return v
}

// of returns the elements of a class.
func of(elements []xml.StartElement, class string) []xml.StartElement {
	var out []xml.StartElement
	for _, e := range elements {
		if attr(e, "class") == class {
			out = append(out, e)
		}
	}
	return out
}

func TestRulerGolden(t *testing.T) {
	svg := chart.DrawRuler("r", machine(), 900)
	picture(t, "ruler", svg)
	golden(t, "ruler.svg", strings.ReplaceAll(svg, "><", ">\n<")+"\n")
}

func TestRangesGolden(t *testing.T) {
	svg := chart.Ranges("g", "Use of the budget", "%", []chart.Range{
		{Words: "this machine", Figures: "0.62 % to 16 %, about 3.9 %", Low: 0.62, High: 16, Mark: 3.9, HasMark: true},
		{Words: "not bounded above", Figures: "at least 2 %", Low: 2, Open: true},
	}, 600)
	picture(t, "ranges", svg)
	golden(t, "ranges.svg", strings.ReplaceAll(svg, "><", ">\n<")+"\n")
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := "../../testdata/golden/" + name
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v; run the test with -update", err)
	}
	if got != string(want) {
		t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
	}
}

// The area of a block is its hours: blocks below the rated load stand to each
// other as their hours do.
func TestAreaIsHours(t *testing.T) {
	var blocks []chart.Block
	hours := []float64{10, 25, 40, 5}
	for i, h := range hours {
		blocks = append(blocks, chart.Block{From: float64(i * i * 20), To: float64((i + 1) * (i + 1) * 20), Hours: h})
	}
	surfaces := of(picture(t, "areas", chart.DrawRuler("r", chart.Ruler{Rated: 400, Blocks: blocks}, 900)), "t-plain")
	if len(surfaces) != len(hours) {
		t.Fatalf("got %d surfaces, want %d", len(surfaces), len(hours))
	}
	area := func(i int) float64 { return float(surfaces[i], "width") * float(surfaces[i], "height") }
	for i := range hours {
		if got, want := area(i)/area(1), hours[i]/hours[1]; math.Abs(got-want) > 0.03*want { // coordinates have one decimal
			t.Errorf("block %d: got %v of the area of block 1, want %v", i, got, want)
		}
	}
}

// A band that straddles the rated load is split by its line.
func TestSplitAtRatedLoad(t *testing.T) {
	e := picture(t, "split", chart.DrawRuler("r", machine(), 900))
	line := float(of(e, "rated")[0], "x1")
	below, above := of(e, "t-plain")[2], of(e, "t-rules")[0]
	if end := float(below, "x") + float(below, "width"); math.Abs(end-line) > 0.11 {
		t.Errorf("below: got it to end at %v, want %v", end, line)
	}
	if begin := float(above, "x"); math.Abs(begin-line) > 0.11 {
		t.Errorf("above: got it to begin at %v, want %v", begin, line)
	}
	// the two causes stand one above the other and share its height by hours
	upper := of(e, "t-solid")[0]
	if got, want := float(upper, "height")/float(above, "height"), 0.8/3; math.Abs(got-want) > 0.02 {
		t.Errorf("pieces: got heights in ratio %v, want %v", got, want)
	}
	if top := float(upper, "y") + float(upper, "height"); math.Abs(top-float(above, "y")) > 0.11 {
		t.Errorf("pieces: got the upper to end at %v, want %v", top, float(above, "y"))
	}
}

// Whatever is above the rated load can be seen, and a magnified picture says so.
func TestMagnified(t *testing.T) {
	r := machine()
	svg := chart.DrawRuler("r", r, 900)
	if !strings.Contains(svg, "over: heights x 10") {
		t.Errorf("got %q, want it to say by how much heights are magnified", svg)
	}
	r.Blocks[2].Parts[0].Hours = 400
	if svg := chart.DrawRuler("r", r, 900); strings.Contains(svg, "heights x") {
		t.Error("got a magnified picture, want none where the hours are as many")
	}
}

// The second scale has a tick for each step up to the right end, and figures
// where there is room for them.
func TestSteps(t *testing.T) {
	r := machine()
	bare := r
	bare.Steps = nil
	var width float64 = 900
	plain, with := chart.DrawRuler("r", bare, width), chart.DrawRuler("r", r, width)
	if got, want := strings.Count(with, `class="tick"`)-strings.Count(plain, `class="tick"`), 4; got != want {
		t.Errorf("got %d ticks more, want %d", got, want)
	}
	if !strings.Contains(with, r.StepWords) || strings.Contains(plain, r.StepWords) {
		t.Error("got the words of the steps without steps, or none with them")
	}
	r.Steps = nil
	for i := range 200 {
		r.Steps = append(r.Steps, chart.Mark{At: float64(i * 10), Words: "1234"})
	}
	dense := chart.DrawRuler("r", r, width)
	if got := strings.Count(dense, ">1234<"); got < 5 || got > 30 {
		t.Errorf("got %d figures on a dense scale, want as many as there is room for", got)
	}
	if got := strings.Count(dense, `class="tick"`) - strings.Count(plain, `class="tick"`); got >= 200 || got < 60 {
		t.Errorf("got %d ticks, want those up to the right end, 714 kg", got)
	}
	picture(t, "dense", dense)
}

// Data at the ends of what a number can be, and data that means nothing, still
// give a picture.
func TestExtremes(t *testing.T) {
	tiny, huge, nan, inf := 5e-324, math.MaxFloat64, math.NaN(), math.Inf(1)
	many := machine()
	many.Blocks = nil
	for i := range 200 {
		many.Blocks = append(many.Blocks, chart.Block{From: float64(i * 5), To: float64(i*5 + 5), Hours: float64(i % 7)})
	}
	rulers := map[string]chart.Ruler{
		"nothing": {}, "rated load alone": {Rated: 240}, "one band": {Rated: 240, Blocks: []chart.Block{{From: 0, To: 80, Hours: 3}}},
		"zero hours": {Rated: 240, Blocks: []chart.Block{{From: 0, To: 80}, {From: 80, Open: true}}},
		"200 bands":  many,
		"no width":   {Rated: 240, Blocks: []chart.Block{{From: 80, To: 80, Hours: 3}, {From: 300, To: 300, Parts: []chart.Piece{{2, chart.Dots}}}}},
		"reversed":   {Rated: 240, Blocks: []chart.Block{{From: 160, To: 80, Hours: 3}}},
		"dense band": {Rated: 240, Blocks: []chart.Block{{From: 80, To: math.Nextafter(80, 81), Hours: 1e308}}},
		"open at the peak": {Rated: 240, Peak: 300, Blocks: []chart.Block{
			{From: 300, Open: true, Parts: []chart.Piece{{2, chart.Dots}}}}},
	}
	for _, x := range []float64{tiny, 1e-300, 1e-9, 1, 1e5, 1e15, 1e300, huge, -1, nan, inf} {
		r := machine()
		r.Rated = x
		rulers[fmt.Sprint("rated ", x)] = r
		r = machine()
		r.Peak = x
		rulers[fmt.Sprint("peak ", x)] = r
		r = machine()
		r.Marks[0].At, r.Steps[0].At, r.Window = x, x, [2]float64{x, x}
		rulers[fmt.Sprint("mark ", x)] = r
		r = machine()
		r.Blocks[2].Hours, r.Blocks[2].Parts[0].Hours = x, x
		rulers[fmt.Sprint("hours ", x)] = r
		r = machine()
		r.Blocks[4].From, r.Blocks[3].To = x, x
		rulers[fmt.Sprint("edge ", x)] = r
		rulers[fmt.Sprint("all ", x)] = chart.Ruler{Rated: x, Peak: x, Blocks: []chart.Block{{From: x, To: x, Hours: x}, {From: x, Open: true, Parts: []chart.Piece{{x, chart.Solid}}}}}
	}
	for name, r := range rulers {
		for _, width := range []float64{320, 900, 2000} {
			svg := chart.DrawRuler("r", r, width)
			picture(t, name, svg)
			if len(svg) > 100_000 {
				t.Errorf("%s: got %d bytes, want a picture of some ten thousand", name, len(svg))
			}
		}
	}
	for _, x := range []float64{0, tiny, 1e-300, 1e-15, 1e-9, 1, 1e15, 1e300, huge, -1, nan, inf} {
		svg := chart.Ranges("g", "", "%", []chart.Range{{Low: x, High: x, Mark: x, HasMark: true}, {Low: x, Open: true}}, 600)
		picture(t, fmt.Sprint("range ", x), svg)
		if len(svg) > 20_000 {
			t.Errorf("range %v: got %d bytes, want a small picture", x, len(svg))
		}
	}
	picture(t, "no range", chart.Ranges("g", "", "%", nil, 600))
	picture(t, "no weight", chart.Weights("s", "", nil, 200))
	picture(t, "no pull", chart.DrawBalance("s", chart.Balance{Wholes: []chart.Whole{{Low: math.Inf(-1), High: math.Inf(1), At: math.NaN()}}}, 200))
}

// Words from a file may hold anything; they stay words.
func TestHostileWords(t *testing.T) {
	for _, words := range []string{
		`<script>alert("x")</script>`, `"><img src=x onerror=alert(1)>`, `' onload='alert(1)`, "]]>", "<!--", "&amp;&#60;",
		"\x00\x1b[31m\r\n\t\x7f\u0085", "\u202e\u200b\ufffe\uffff\U0010ffff", "\xff\xfe", "\u00e4\u6f22\U0001f600", strings.Repeat("m", 3000),
	} {
		r := machine()
		r.Label, r.Unit, r.Sense, r.Within, r.Over = words, words, words, words, words
		r.Steps[0].Words, r.StepWords = words, words
		r.Marks[0].Words, r.Blocks[0].Words, r.Blocks[2].OverWords = words, words, words
		for what, svg := range map[string]string{
			"ruler":   chart.DrawRuler("r", r, 900),
			"ranges":  chart.Ranges("g", words, words, []chart.Range{{Words: words, Figures: words, Low: 1, High: 2}}, 600),
			"weights": chart.Weights("s", words, []chart.Weight{{chart.Hatch, words, words, 0.5}}, 300),
			"balance": chart.DrawBalance("s", chart.Balance{Label: words, Left: words, Right: words, Pulls: []chart.Pull{{words, words, 9}}, Wholes: []chart.Whole{{Words: words, Figure: words}}}, 300),
		} {
			plain := 0
			for _, e := range picture(t, what, svg) {
				switch e.Name.Local {
				case "svg", "defs", "linearGradient", "stop", "mask", "rect", "pattern", "path", "circle", "line", "text", "g":
				default:
					t.Errorf("%s of %q: got element %s, want none from the words", what, words, e.Name.Local)
				}
				for _, a := range e.Attr {
					if strings.HasPrefix(a.Name.Local, "on") {
						t.Errorf("%s of %q: got attribute %s, want none from the words", what, words, a.Name.Local)
					}
				}
				plain++
			}
			if plain < 3 {
				t.Errorf("%s: got %d elements, want a picture", what, plain)
			}
		}
	}
}

// Words come out as they went in, read as XML.
func TestWordsSurvive(t *testing.T) {
	r := machine()
	r.Marks[0].Words = `5 < 6 & "7" > ä漢😀`
	var all strings.Builder
	for dec := xml.NewDecoder(strings.NewReader(chart.DrawRuler("r", r, 900))); ; {
		token, err := dec.Token()
		if err != nil {
			break
		}
		if text, ok := token.(xml.CharData); ok {
			all.Write(text)
		}
	}
	if !strings.Contains(all.String(), r.Marks[0].Words) {
		t.Errorf("got %q, want it to hold %q", all.String(), r.Marks[0].Words)
	}
}

// The same data gives the same bytes, and drawing changes no data.
func TestSameBytes(t *testing.T) {
	r := machine()
	first := chart.DrawRuler("r", r, 900)
	if again := chart.DrawRuler("r", r, 900); again != first {
		t.Error("got other bytes the second time, want the same")
	}
	if r.Blocks[4].To != 0 {
		t.Errorf("got an open block that ends at %v, want the data left alone", r.Blocks[4].To)
	}
}

// Two pictures on one page must not share ids.
func TestIDsHaveThePrefix(t *testing.T) {
	for what, svg := range map[string]string{
		"ruler": chart.DrawRuler("left", machine(), 900), "swatch": chart.Swatch("left", chart.Dots), "weights": chart.Weights("left", "", []chart.Weight{{chart.Rules, "", "", 1}}, 200), "balance": chart.DrawBalance("left", chart.Balance{RightTexture: chart.Hatch, Pulls: []chart.Pull{{"", "", 1}}}, 200),
	} {
		for _, e := range picture(t, what, svg) {
			if id := attr(e, "id"); id != "" && !strings.HasPrefix(id, "left-") {
				t.Errorf("%s: got id %q, want it to begin with left-", what, id)
			}
		}
	}
}

func TestTextures(t *testing.T) {
	seen := map[string]bool{}
	for _, texture := range []chart.Texture{chart.Plain, chart.Solid, chart.Hatch, chart.Dots, chart.Hollow, chart.Rules} {
		e := of(picture(t, string(texture), chart.Swatch("s", texture)), "t-"+string(texture))
		if len(e) != 1 || seen[string(texture)] {
			t.Fatalf("%s: got %d surfaces, want one of its own class", texture, len(e))
		}
		seen[string(texture)] = true
		pattern := texture == chart.Hatch || texture == chart.Dots || texture == chart.Rules
		if got := attr(e[0], "fill") != ""; got != pattern {
			t.Errorf("%s: got a pattern %v, want %v", texture, got, pattern)
		}
	}
}

func TestRangesPositions(t *testing.T) {
	e := picture(t, "ranges", chart.Ranges("g", "", "%", []chart.Range{{Low: 25, High: 75, Mark: 50, HasMark: true}, {Low: 100, Open: true}}, 1028))
	// 1000 px between margins of 14 px carry 104 %
	x := func(v float64) float64 { return 14 + 1000*v/104 }
	bar, estimate, open := of(e, "bar")[0], of(e, "estimate")[0], of(e, "bar")[1]
	for what, v := range map[string][2]float64{
		"low":      {float(bar, "x"), x(25)},
		"high":     {float(bar, "x") + float(bar, "width"), x(75)},
		"estimate": {float(estimate, "x1"), x(50)},
		"open low": {float(open, "x"), x(100)},
		"open end": {float(open, "x") + float(open, "width"), 1014},
	} {
		if math.Abs(v[0]-v[1]) > 0.11 {
			t.Errorf("%s: got %v, want %v", what, v[0], v[1])
		}
	}
}

// A pull reaches as far from the middle as it is, up to the end of the axis,
// and the range of the whole lies where its ends are.
func TestBalancePositions(t *testing.T) {
	b := chart.Balance{
		Left: "for a shock", Right: "for tie-down", LeftTexture: chart.Dots, RightTexture: chart.Solid,
		Pulls:  []chart.Pull{{"right", "10 times", 1}, {"left", "3 times", -0.5}, {"beyond", "900 times", 2.95}},
		Wholes: []chart.Whole{{"all together", "20 times", 0.2, 1.3, 2}, {"another", "half", -1, -0.3, 0.5}, {"beyond, too", "294 times", 1.7, 2.47, 2.86}},
	}
	svg := chart.DrawBalance("b", b, 424)
	var bars []string
	tips := 0
	for _, e := range picture(t, "balance", svg) {
		at := map[string]string{}
		for _, a := range e.Attr {
			at[a.Name.Local] = a.Value
		}
		switch at["class"] {
		case "t-solid", "t-dots", "bar":
			bars = append(bars, at["class"]+" "+at["x"]+" "+at["width"])
		case "onward":
			tips++
		}
	}
	middle, half := 212.0, 212-14.0 // the side margin is 14
	at := func(from, to float64) string {
		return fmt.Sprintf("%.5g %.5g", middle+half*from/2, half*(to-from)/2)
	}
	bars = bars[2:] // the sides' own
	want := []string{"t-solid " + at(0, 1), "t-dots " + at(-0.5, 0), "t-solid " + at(0, 2), "bar " + at(0.2, 2), "bar " + at(-1, 0.5), "bar " + at(1.7, 2)}
	if !slices.Equal(bars, want) || tips != 2 {
		t.Errorf("got %q with %d tips, want %q with two", bars, tips, want)
	}
}

// The length of a weight's bar is its share of the axis.
func TestWeightsPositions(t *testing.T) {
	svg := chart.Weights("w", "weights", []chart.Weight{{chart.Solid, "work", "25 %", 0.25}, {chart.Hatch, "tie-down", "75 %", 0.75}}, 362)
	var widths []string
	for _, e := range picture(t, "weights", svg) {
		at := map[string]string{}
		for _, a := range e.Attr {
			at[a.Name.Local] = a.Value
		}
		if strings.HasPrefix(at["class"], "t-") {
			widths = append(widths, at["width"])
		}
	}
	if want := []string{"50", "150"}; !slices.Equal(widths, want) {
		t.Errorf("got widths %q, want %q", widths, want)
	}
}

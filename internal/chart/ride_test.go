package chart_test

import (
	"encoding/xml"
	"math"
	"strings"
	"testing"

	"ratchetmark/internal/chart"
)

func stowed() chart.Stowed {
	return chart.Stowed{Label: "A stowed machine", Route: "rails", AngleDeg: 60, Reads: "305 to 560 kg", Side: "from the side", End: "from the end", Cell: "load cell"}
}

func plan() chart.Plan {
	return chart.Plan{Label: "A machine from above", Front: "front", Lines: []chart.PlanLine{{Way: "front", Count: 2, PlanDeg: 30}, {Way: "rear", Count: 3, PlanDeg: 20}, {Way: "over", Count: 2}},
		Margins: [4]chart.PlanMargin{{Words: "forward", Percent: 148}, {Words: "rear", Percent: 237}, {Words: "left", Percent: 99.7}, {Words: "right", Percent: -1}}}
}

var widths = []float64{620, 358}

func count(elements []xml.StartElement, class string) (n int) {
	for _, e := range elements {
		if attr(e, "class") == class {
			n++
		}
	}
	return n
}

// A strap is drawn where one goes: two legs and what lies between, seen from the
// end; nothing where nothing goes over the platform. A block is drawn under it.
func TestStowed(t *testing.T) {
	for _, width := range widths {
		for _, scissor := range []bool{false, true} {
			for _, route := range []string{"rails", "floor", "mount", "none", "roof"} {
				s := stowed()
				s.Scissor, s.Route = scissor, route
				elements := picture(t, route, chart.DrawStowed("s", s, width))
				straps, forces := 3, 2
				if route == "none" || route == "roof" {
					straps, forces = 0, 0
				}
				if count(elements, "strap") != straps || count(elements, "force") != forces || count(elements, "cell") != 1 || count(elements, "t-rules") != 0 {
					t.Errorf("%s, scissor %v: got %d straps, %d forces", route, scissor, count(elements, "strap"), count(elements, "force"))
				}
				s.Blocked = true
				if blocks := count(picture(t, route, chart.DrawStowed("s", s, width)), "t-rules"); blocks != 2 {
					t.Errorf("%s, scissor %v: got %d blocks, want 2", route, scissor, blocks)
				}
			}
		}
	}
}

// The legs stand at their angle.
func TestStowedAngle(t *testing.T) {
	for _, angle := range []float64{5, 30, 60, 85, 90} {
		s := stowed()
		s.AngleDeg = angle
		legs := 0
		for _, e := range picture(t, "legs", chart.DrawStowed("s", s, 620)) {
			x1, y1, x2, y2 := float(e, "x1"), float(e, "y1"), float(e, "x2"), float(e, "y2")
			if attr(e, "class") != "strap" || y1 == y2 {
				continue
			}
			legs++
			if got := math.Atan2(y2-y1, math.Abs(x2-x1)) * 180 / math.Pi; math.Abs(got-angle) > 1 {
				t.Errorf("got a leg at %v degrees, want %v", got, angle)
			}
		}
		if legs != 2 {
			t.Errorf("%v degrees: got %d legs, want 2", angle, legs)
		}
	}
}

// Ranges of loads lie on one scale with the marks: twice the load is twice as far.
func TestLoads(t *testing.T) {
	rows := []chart.Range{{Words: "tensioned", Figures: "200 to 400 kg", Low: 200, High: 400, Mark: 300, HasMark: true}}
	marks := []chart.Mark{{At: 200, Words: "rated load"}, {At: 400, Words: "peak"}}
	for _, width := range widths {
		var bar, rated xml.StartElement
		for _, e := range picture(t, "loads", chart.Loads("l", "Loads", "kg", rows, marks, width)) {
			switch attr(e, "class") {
			case "bar":
				bar = e
			case "rated":
				rated = e
			}
		}
		from, to := float(bar, "x"), float(bar, "x")+float(bar, "width")
		if math.Abs(from-float(rated, "x1")) > 0.2 || math.Abs((to-14)-2*(from-14)) > 0.5 {
			t.Errorf("got a bar from %v to %v and the rated load at %v", from, to, float(rated, "x1"))
		}
	}
	for _, x := range []float64{0, -1, math.NaN(), math.Inf(1), 1e300} {
		picture(t, "extreme", chart.Loads("l", "Loads", "kg", []chart.Range{{Low: x, High: x, Mark: x, HasMark: true}}, []chart.Mark{{At: x}}, 358))
	}
	picture(t, "nothing", chart.Loads("l", "Loads", "kg", nil, nil, 358))
}

// Margins are as long as what is held, told from each other by filling and
// words; what does not hold all is never called held, nor rounded up to it.
func TestPlan(t *testing.T) {
	for _, width := range widths {
		svg := chart.DrawPlan("p", plan(), width)
		short := plan()
		short.Margins[0].Percent = 80.9
		svg2 := chart.DrawPlan("p", short, width)
		elements := picture(t, "plan", svg)
		if count(elements, "held") != 2 || count(elements, "t-hollow") != 1 || count(elements, "needed") != 3 || count(elements, "strap") != 7 {
			t.Errorf("got %d held, %d hollow, %d lines, %d lashings, want 2, 1, 3 and 7", count(elements, "held"), count(elements, "t-hollow"), count(elements, "needed"), count(elements, "strap"))
		}
		for _, want := range []string{">148 %<", ">237 %<", ">99 %, not held<", ">80 %<", ">not held<", ">not worked out<", ">front<"} {
			if !strings.Contains(svg+svg2, want) {
				t.Errorf("got no %q in %s", want, svg)
			}
		}
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), -5, 1e300} {
		p := plan()
		p.Lines[0].PlanDeg, p.Margins[0].Percent = x, x
		if svg := chart.DrawPlan("p", p, 358); strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
			t.Errorf("%v: got %s, want no figure that means nothing", x, svg)
		}
	}
}

// A poster stands by itself and holds all of its words, whole, in any language.
func TestPoster(t *testing.T) {
	s := stowed()
	p := chart.Poster{Title: "Wie f\u00e4hrt sie?", Sub: "NF-07", Drawing: &s, Foot: []string{"The end."},
		Blocks: []chart.PosterBlock{{Heading: "First", Lines: []string{strings.Repeat("many words ", 30)}}, {Heading: "Never <b>", Lines: []string{"no", "& no"}, Frame: true}}}
	svg := chart.DrawPoster("q", p)
	elements := picture(t, "poster", svg)
	if strings.Count(svg, "many words")+strings.Count(svg, "many<") < 25 || !strings.Contains(svg, "&#228;") || !strings.Contains(svg, "Never &lt;b&gt;") || count(elements, "p-frame") != 1 || count(elements, "stowed") != 1 {
		t.Errorf("got %s, want every word escaped, a frame and a drawing", svg)
	}
	height, lowest := float(elements[0], "height"), 0.0
	for _, e := range elements {
		if strings.HasPrefix(attr(e, "class"), "p-") {
			lowest = math.Max(lowest, float(e, "y"))
		}
	}
	if lowest > height {
		t.Errorf("got words at %v of %v, want them within", lowest, height)
	}
}

package browsertest

import (
	"os"
	"path/filepath"
	"testing"
)

// shotFolder is where the pictures go: a folder of the project that is not kept.
const shotFolder = "../../.shots"

// state is one thing that a reader can have before them.
type state struct {
	name  string
	steps func(p *Page)
	paper bool // printed too
}

// states are all states of the app. Each begins on the start page.
var states = []state{
	{"start", func(*Page) {}, false},
	{"paste", func(p *Page) { p.Click("#start details summary") }, false},
	{"typing", func(p *Page) { p.Click("#type"); p.WaitFor("#typing") }, false},
	{"typing-problems", func(p *Page) {
		p.Click("#type")
		p.Click("#finish")
		p.WaitFor("#problems p")
	}, false},
	{"typing-told", func(p *Page) {
		p.Files("#file", "../../testdata/told/tied.case.json")
		p.WaitFor("#sheet")
		p.Click("#correct")
		p.Click("#checks-fold")
		p.Click("#tie_downs-fold")
		p.WaitFor("#t1-over")
	}, false},
	{"told", func(p *Page) {
		p.Files("#file", "../../testdata/told/checked.case.json")
		p.WaitFor("#sheet")
		p.Click("#piece-1 summary")
	}, true},
	{"refused", func(p *Page) {
		p.Drop("#app", "photo.jpg", "image/jpeg", []byte("\xff\xd8\xff\xe0 not a record"))
		p.WaitFor("#notices")
	}, false},
	{"columns", func(p *Page) {
		p.Drop("#app", "riddles.csv", "text/csv", []byte(riddles))
		p.WaitFor("#pointing")
		choose(p, "#field-1", "machine, name or number")
	}, false},
	{"two-ways", func(p *Page) {
		p.Drop("#app", "two.csv", "text/csv", []byte(twoWays))
		p.WaitFor("#pointing")
	}, false},
	{"blocking", func(p *Page) {
		p.Files("#file", "../../testdata/bad/overlap.case.json")
		p.WaitFor("#sheet")
	}, false},
	{"pounds", func(p *Page) {
		example(5)(p)
		p.Click("#unit")
	}, false},
	{"assumptions", func(p *Page) {
		example(3)(p)
		p.Click("#assumed-use > summary")
		p.Type("#cycles_per_hour-value", "many")
		p.Type("#self_weight_share-value", "0.4")
	}, false},
	{"rules", func(p *Page) {
		openCarry(p, "several-rated-loads.case.json")
		p.Click("#rules > summary")
	}, false},
	{"planner", func(p *Page) {
		openCarry(p, "several-rated-loads.case.json")
		p.Click("#planner > summary")
		p.Click("#any > summary")
		p.Click("#crews > summary")
		p.Click("#worth > summary")
	}, true},
	{"carry-pounds", func(p *Page) {
		openCarry(p, "pounds.case.json")
		p.Click("#rules > summary")
		p.Click("#planner > summary")
		p.Click("#unit")
	}, false},
	{"ride", func(p *Page) {
		p.Files("#file", "../../testdata/lash/held-en.case.json")
		p.WaitFor("#sheet")
		p.Click("#holding > summary")
		p.Type("#ride-friction", "0.9")
		p.Type("#ride-friction", "0.2")
	}, true},
	{"ride-not-held", func(p *Page) { // a scissor lift, on two thin straps
		example(1)(p)
		p.Click("#holding > summary")
		p.WaitFor("#add-lashing")
		p.Click("#add-lashing")
		p.WaitFor("#ride-gear-2")
		p.Choose("#ride-gear-1", "web-25")
		p.Choose("#ride-gear-2", "web-25")
		p.Choose("#ride-route", "mount")
	}, false},
	{"card", func(p *Page) {
		p.Files("#file", "../../testdata/lash/held-en.case.json")
		p.WaitFor("#sheet")
		p.Click("#show-card")
		p.WaitFor("#card")
	}, true},
	{"fault", func(p *Page) {
		example(3)(p)
		p.Do(`(() => { const real = URL.createObjectURL; URL.createObjectURL = () => { URL.createObjectURL = real; throw new Error("a fault made for the picture") } })()`)
		p.Click("#save-case")
		p.WaitFor("#crash")
	}, false},
	{"sheet-1", example(1), true},
	{"sheet-2", example(2), true},
	{"sheet-3", example(3), true},
	{"sheet-4", example(4), true},
	{"sheet-5", example(5), true},
	{"cost", func(p *Page) {
		p.Files("#file", "../../testdata/structure/crack.case.json")
		p.WaitFor("#sheet")
		for _, id := range []string{"claim", "static", "spread", "cycles", "stretches", "classes", "detail", "road", "forecast", "tell"} {
			p.Click("#cost-" + id + "-fold")
		}
	}, true},
	{"sheet-reasons", func(p *Page) {
		example(3)(p)
		p.Do(`document.querySelectorAll("details").forEach((d) => { d.open = true })`)
	}, false},
}

// example opens the worked example and its nth machine.
func example(n int) func(*Page) {
	return func(p *Page) {
		p.Click("#example")
		p.WaitFor("#sheet")
		p.Click(nth(".machines button", n))
		p.WaitFor(nth(".machines button", n) + "[aria-pressed=true]")
	}
}

// openCarry opens a file about what a machine may carry.
func openCarry(p *Page, name string) {
	p.Files("#file", "../../testdata/carry/"+name)
	p.WaitFor("#sheet")
}

// look is how the reader's system is set.
type look struct {
	name  string
	media Media
	sizes []Viewport
}

var looks = []look{
	{"light", Media{ReducedMotion: true}, []Viewport{Tablet, Phone}},
	{"dark", Media{ReducedMotion: true, Dark: true}, []Viewport{Tablet, Phone}},
	{"contrast", Media{ReducedMotion: true, ForcedColors: true}, []Viewport{Tablet}},
}

// TestShots writes a picture of every state in every look and size, and of its printed pages.
func TestShots(t *testing.T) {
	if !*shots {
		t.Skip("takes pictures only with -shots")
	}
	if err := os.RemoveAll(shotFolder); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(shotFolder, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, s := range states {
		t.Run(s.name, func(t *testing.T) {
			p := Open(t, Tablet)
			s.steps(p)
			shoot(t, p, s)
			if s.paper {
				print(t, p, s)
			}
		})
	}
}

// shoot writes the state in every look and size.
func shoot(t *testing.T, p *Page, s state) {
	t.Helper()
	for _, l := range looks {
		for _, size := range l.sizes {
			p.Show(l.media)
			p.Resize(size)
			p.Settle()
			p.Resize(p.whole(size))
			p.Settle()
			name := filepath.Join(shotFolder, s.name+"-"+size.Name+"-"+l.name+".png")
			if err := os.WriteFile(name, p.Screenshot(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// print writes the state's printed pages.
func print(t *testing.T, p *Page, s state) {
	t.Helper()
	p.Show(Media{})
	for _, paper := range []Paper{A4, Letter} {
		if err := Pages(p.PDF(paper), filepath.Join(shotFolder, s.name+"-print-"+paper.Name)); err != nil {
			t.Fatalf("pdftoppm: %v\nhint: install the package poppler-utils", err)
		}
	}
}

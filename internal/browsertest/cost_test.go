package browsertest

import (
	"strings"
	"testing"
)

// What is told of the structure changes the answer at once, is kept on the device, and stands in the saved case.
func TestTellingOfTheStructure(t *testing.T) {
	p := Open(t, Tablet)
	p.Files("#file", "../../testdata/demo/lashed.case.json")
	p.WaitFor("#sheet")
	p.WaitText("#cost-detail", "Not worked out")
	p.Click("#cost-tell-fold")
	p.WaitFor("#told-stress-range")
	p.Type("#told-stress-range", "82")
	p.Choose("#told-standard", "EN 1993-1-9")
	p.WaitFor("#told-category")
	p.Type("#told-category", "71")
	p.WaitText("#cost-detail", "for 82 MPa at rated load")
	p.Choose("#told-disposal", "2029-04-01") // a date field takes no typed text
	p.WaitText("#cost-forecast", "1 April 2029")
	p.Choose("#told-claim", "crack")
	p.WaitText("#cost-claim", "For a fatigue crack")
	p.Type("#told-load-cycles", "a lot")
	p.WaitText("#told-load-cycles-problem", "is not a number")

	_, saved := p.Download(func() { p.Click("#save-case") })
	for _, want := range []string{`"stress_range_mpa": 82`, `"category": 71`, `"disposal": "2029-04-01"`, `"claim": "crack"`} {
		if !strings.Contains(string(saved), want) {
			t.Errorf("got no %s in the saved case, want it", want)
		}
	}
	p.Go("/")
	p.WaitReady()
	p.Click(".kept button")
	p.WaitFor("#sheet")
	p.WaitText("#cost-detail", "for 82 MPa at rated load")
}

// The parts unfold to their pictures and tables, by mouse and by keyboard, and fit the narrowest phone.
func TestCostPartsUnfold(t *testing.T) {
	p := Open(t, Phone)
	p.Click("#example")
	p.WaitFor("#sheet")
	for _, id := range []string{"claim", "static", "spread", "cycles", "stretches", "classes", "road", "forecast", "fleet"} {
		if p.Count("#cost-"+id) == 0 {
			continue // nothing to say for this machine
		}
		p.Click("#cost-" + id + "-fold")
		p.WaitFor("#cost-" + id + "[open]")
	}
	if p.Count("#cost-stretches table tr") < 4 || p.Count("#cost-spread svg .bar") < 4 {
		t.Errorf("got %d rows and %d ranges, want at least 4 each", p.Count("#cost-stretches table tr"), p.Count("#cost-spread svg .bar"))
	}
	if wide := Eval[int](p, "document.documentElement.scrollWidth - document.documentElement.clientWidth"); wide > 0 {
		t.Errorf("got the page %d px wider than the window, want it to fit", wide)
	}
}

package browsertest

import (
	"path/filepath"
	"strings"
	"testing"
)

// A crew is planned by hand: two people, one of them 118 kg in harness, a grinder and 60 kg of cable. What is left is said
// as it is typed, and the plan is there when the machine is opened again.
func TestPlanACrew(t *testing.T) {
	p := Open(t, Phone)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	p.Click("#planner > summary")
	p.Tap("#add-person", 0)
	p.WaitFor("#plan-p1-body")
	p.Settle()
	if got := Eval[string](p, "document.activeElement.id"); got != "plan-p1-body" {
		t.Errorf("got the keyboard on %q, want plan-p1-body", got)
	}
	p.Key("1", "1", "8")
	p.WaitText("#planner-answer", "The plan of 122 kg: 108 kg left")
	p.Type("#plan-p1-harness", "2,5")
	p.WaitText("#planner-answer", "The plan of 124.5 kg")
	p.Tap("#add-person", 0)
	p.WaitText("#planner-answer", "Not added up yet")
	p.Type("#plan-p2-body", "81")
	p.Tap(more("#plan-p2-body"), 0)
	p.Tap("#add-item", 0)
	p.Type("#plan-i1-name", "grinder")
	p.Type("#plan-i1-mass", "3.5")
	p.Tap("#add-item", 0)
	p.Type("#plan-i2-mass", "30")
	p.Tap(more("#plan-i2-count"), 0)
	p.WaitText("#planner-answer", "The plan of 274 kg: 44 kg over the rated load: nothing left, take off at least as much.")
	p.WaitText("#planner > summary", "44 kg over the rated load")
	p.Tap("#plan-i2-remove", 0)
	p.WaitText("#planner-answer", "16 kg left, 6 % of the rated load")
	smallTargets(t, p, "#planner")

	p.Go("/")
	p.WaitReady()
	p.Click(nth(".kept li", 1) + " [id^=open]")
	p.WaitFor("#sheet")
	p.WaitText("#planner > summary", "16 kg left, 6 % of the rated load")
}

// A region is chosen: rule, window, the list after an overload and the ruler follow, and a value can be set in pounds.
func TestChooseARegion(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "lashed.case.json"))
	p.WaitText("#after", "No region is stated")
	p.Click("#rules > summary")
	p.Choose("#region", "United States")
	p.WaitText("#carry .reasoning", "175 lb (79.4 kg)")
	p.WaitText("#after", "WAC 296-869-40010")
	p.Type("#person_mass_kg-value", "200")
	p.WaitText("#carry .reasoning", "persons x 90.7 kg")
	p.Choose("#edition", "decree 47-1592")
	p.WaitText("#carry .reasoning", "165 kg for the first person")
	smallTargets(t, p, "#rules")
	p.Click("#add-zone")
	p.Type("#zone-1-name", "deck extended")
	p.Type("#zone-1-rated", "120")
	p.WaitText("#carry .answer", "It has 2 rated loads.")
}

// A load is typed: the hours over it are bounded at once, within a band too, and it is drawn with the others.
func TestAskForALoad(t *testing.T) {
	p := Open(t, Tablet)
	openFile(p, filepath.Join(testdata, "demo", "mixed.case.json"))
	p.Click("#any > summary")
	p.Type("#any-load", "200,5")
	p.WaitText("#any > summary", "Over 200.5 kg: between")
	p.WaitText("#any", "with loads uniform in the band")
	p.WaitText("#carry .figure", "over 200.5 kg, asked")
	p.Type("#any-load", "heavy")
	p.WaitText("#any-load-problem", "heavy")
	p.Type("#any-load", "")
	p.WaitGone("#any-load-problem")
	p.Click("#crews > summary")
	p.WaitText("#crews-answer", "men of 20 years and more")
	p.Choose("#crew-population", "england-women")
	p.WaitText("#crews-answer", "women, England 2022")
	if text := p.Text("#crews > summary"); !strings.Contains(text, "A crew of 2 drawn at random") {
		t.Errorf("got %q, want the answer in it", text)
	}
	smallTargets(t, p, "#carry")
}

// smallTargets reports what is pressed or typed into within an element and is smaller than 44 px.
func smallTargets(t *testing.T, p *Page, selector string) {
	t.Helper()
	for _, small := range Eval[[]string](p, `[...document.querySelectorAll(`+quote(selector+" :is(button, input, select, summary)")+`)]
		.filter((e) => e.checkVisibility() && (e.getBoundingClientRect().height < 43.9 || e.getBoundingClientRect().width < 43.9))
		.map((e) => (e.id || e.innerText) + " " + e.getBoundingClientRect().width + " x " + e.getBoundingClientRect().height)`) {
		t.Errorf("got %s, want at least 44 px each way", small)
	}
}

package dossier_test

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/dossier"
)

// The members of the result as the format document fixes them. "inputs[].name"
// is the member name of every item of inputs; the ones in optional may be
// missing, those in added are not in the document but may be there.
var (
	fixed = []string{
		"method", "inputs", "machine", "findings", "capacity", "exceedances", "exposure", "cautions",
		"inputs[].name", "inputs[].sha256", "inputs[].bytes",
		"machine.id", "machine.kind", "machine.rated_load_kg", "machine.persons", "machine.load_sensing_kg", "machine.mass_kg",
		"findings[].code", "findings[].severity", "findings[].where", "findings[].message",
		"capacity.rated_load_kg", "capacity.persons", "capacity.smallest_rated_load_kg", "capacity.peak_pct", "capacity.hours_over",
		"capacity.hours_over[].pct", "capacity.hours_over[].low_h", "capacity.hours_over[].estimate_h", "capacity.hours_over[].high_h",
		"exceedances[].what", "exceedances[].interval", "exceedances[].from_kg", "exceedances[].to_kg", "exceedances[].peak_kg",
		"exceedances[].hours", "exceedances[].hours.low", "exceedances[].hours.high",
		"exceedances[].posterior", "exceedances[].posterior.worked", "exceedances[].posterior.lashed", "exceedances[].posterior.shock", "exceedances[].posterior.drift",
		"exceedances[].verdict", "exceedances[].likelihood_ratio", "exceedances[].words",
		"exceedances[].reasons", "exceedances[].reasons[].id", "exceedances[].reasons[].text", "exceedances[].reasons[].log10",
		"exceedances[].reasons[].log10.worked", "exceedances[].reasons[].log10.lashed", "exceedances[].reasons[].log10.shock", "exceedances[].reasons[].log10.drift",
		"exceedances[].ask_for", "exceedances[].ask_for[].record", "exceedances[].ask_for[].why", "exceedances[].ask_for[].gain_bits",
		"exposure.load_cycles", "exposure.load_cycles.low", "exposure.load_cycles.estimate", "exposure.load_cycles.high",
		"exposure.design_cycles", "exposure.relative", "exposure.relative.low", "exposure.relative.estimate", "exposure.relative.high",
		"exposure.spectrum_factor", "exposure.spectrum_factor.low", "exposure.spectrum_factor.estimate", "exposure.spectrum_factor.high", "exposure.class",
	}
	optional = []string{"machine.in_service",
		"machine.region", "machine.senses_only_raising", "machine.zones", "machine.zones[].name", "machine.zones[].rated_load_kg", "machine.zones[].persons",
	}
	added = []string{
		"note", "noted", "answers", "answers.summary", "answers.recorded", "answers.carry", "answers.over", "answers.cost", "answers.ride", "answers.handover",
		"findings[].expected", "findings[].effect", "findings[].hint", "findings[].file", "findings[].line", "findings[].column",
		"capacity.spare_kg", "capacity.persons_within", "capacity.load_sensing_from_kg", "capacity.load_sensing_to_kg", "capacity.peak_kg", "capacity.counted_h",
		"capacity.mean_load_kg", "capacity.mean_load_kg.low", "capacity.mean_load_kg.estimate", "capacity.mean_load_kg.high",
		"exceedances[].hours.estimate", "exceedances[].title", "exceedances[].answer", "exceedances[].reasons[].title", "exceedances[].reasons[].reads",
		"exceedances[].leader", "exceedances[].beyond_belief", "exceedances[].like_load_test", "exceedances[].otherwise", "exceedances[].may_be_under", "exceedances[].likelihood_ratio.value", "exceedances[].likelihood_ratio.low", "exceedances[].likelihood_ratio.high", "exceedances[].likelihood_ratio.against",
		"exceedances[].matters", "exceedances[].matters[].name", "exceedances[].matters[].low", "exceedances[].matters[].high", "exceedances[].matters[].usual", "exceedances[].matters[].unit", "exceedances[].matters[].ratio_at_low", "exceedances[].matters[].ratio_at_high", "exceedances[].matters[].flips_at", "exceedances[].matters[].flips_to", "exceedances[].matters[].text",
		"exceedances[].beside", "told", "told[].pieces", "told[].title", "told[].when", "told[].answer",
		"settle", "settle[].record", "settle[].name", "settle[].do", "settle[].tell", "settle[].on", "settle[].gain_bits", "settle[].of_the_doubt",
		"settle[].pieces", "settle[].pieces[].piece", "settle[].pieces[].gain_bits",
		"exceedances[].hours_by_cause", "exceedances[].hours_by_cause[].cause", "exceedances[].hours_by_cause[].low", "exceedances[].hours_by_cause[].high",
		"assumptions", "assumptions[].id", "assumptions[].name", "assumptions[].unit", "assumptions[].value", "assumptions[].low", "assumptions[].high",
		"assumptions[].source", "assumptions[].status", "assumptions[].edited", "assumptions[].group",
		"capacity.region", "capacity.edition", "capacity.edition_stated", "capacity.hours_over[].smooth_h",
		"capacity.shares", "capacity.shares[].id", "capacity.shares[].words", "capacity.shares[].pct", "capacity.shares[].load_kg",
		"capacity.shares[].source", "capacity.shares[].source.document", "capacity.shares[].source.edition", "capacity.shares[].source.clause", "capacity.shares[].source.status",
		"capacity.peak_stage", "capacity.peak_stage.over_pct", "capacity.peak_stage.words",
		"capacity.marks", "capacity.marks[].load_kg", "capacity.marks[].words", "capacity.band_edges", "capacity.band_edges[].load_kg", "capacity.band_edges[].persons", "capacity.band_edges[].rest_kg",
		"capacity.exceeded_for", "capacity.exceeded_for[].share", "capacity.exceeded_for[].low_kg", "capacity.exceeded_for[].uniform_kg", "capacity.exceeded_for[].smooth_kg", "capacity.exceeded_for[].high_kg",
		"capacity.over_loads", "capacity.over_loads[].load_kg", "capacity.over_loads[].low_h", "capacity.over_loads[].uniform_h", "capacity.over_loads[].smooth_h", "capacity.over_loads[].high_h",
		"capacity.estimates_apart", "capacity.estimates_apart.load_kg", "capacity.estimates_apart.hours",
		"capacity.left_for_tools", "capacity.left_for_tools[].persons", "capacity.left_for_tools[].assumed_kg", "capacity.left_for_tools[].real_kg",
		"capacity.crew", "capacity.crew.population", "capacity.crew.people", "capacity.crew.mean_kg", "capacity.crew.persons", "capacity.crew.worn_kg", "capacity.crew.tools_kg",
		"capacity.crew.source", "capacity.crew.source.document", "capacity.crew.source.edition", "capacity.crew.source.clause", "capacity.crew.source.status",
		"capacity.crew.over", "capacity.crew.over[].pct", "capacity.crew.over[].load_kg", "capacity.crew.over[].chance", "capacity.crew.over[].error",
		"capacity.plan", "capacity.plan.lines", "capacity.plan.lines[].name", "capacity.plan.lines[].person", "capacity.plan.lines[].mass_kg", "capacity.plan.lines[].sum_kg", "capacity.plan.lines[].alone", "capacity.plan.lines[].over",
		"capacity.plan.total_kg", "capacity.plan.left_kg", "capacity.plan.left_pct", "capacity.plan.first_over", "capacity.plan.surplus", "capacity.plan.words", "capacity.plan.zones", "capacity.plan.zones[].name", "capacity.plan.zones[].left_kg",
		"capacity.several_rated_loads", "capacity.several_rated_loads.low_h", "capacity.several_rated_loads.high_h", "capacity.several_rated_loads.zones", "capacity.several_rated_loads.zones[].name",
		"capacity.several_rated_loads.zones[].rated_load_kg", "capacity.several_rated_loads.zones[].persons", "capacity.several_rated_loads.zones[].smallest_rated_load_kg",
		"capacity.several_rated_loads.zones[].low_h", "capacity.several_rated_loads.zones[].estimate_h", "capacity.several_rated_loads.zones[].high_h",
		"capacity.several_rated_loads.bands", "capacity.several_rated_loads.bands[].from_kg", "capacity.several_rated_loads.bands[].to_kg", "capacity.several_rated_loads.bands[].side",
		"capacity.after_overload", "capacity.after_overload.region", "capacity.after_overload.own", "capacity.after_overload.asked", "capacity.after_overload.asked[].id", "capacity.after_overload.asked[].what",
		"capacity.after_overload.asked[].who", "capacity.after_overload.asked[].sources", "capacity.after_overload.asked[].sources[].document", "capacity.after_overload.asked[].sources[].edition",
		"capacity.after_overload.asked[].sources[].clause", "capacity.after_overload.asked[].sources[].status",
		"capacity.asked_findings", "capacity.asked_findings[].code", "capacity.asked_findings[].severity", "capacity.asked_findings[].where", "capacity.asked_findings[].message",
		"capacity.asked_findings[].expected", "capacity.asked_findings[].effect", "capacity.asked_findings[].hint",
		"assumptions[].stated",
		"transport", "transport.strap", "transport.strap.device", "transport.strap.route", "transport.strap.straps", "transport.strap.angle_deg", "transport.strap.blocked",
		"transport.strap.source", "transport.strap.status", "transport.strap.apparent_kg", "transport.strap.apparent_kg.low", "transport.strap.apparent_kg.estimate", "transport.strap.apparent_kg.high",
		"transport.strap.percent_of_rated", "transport.strap.percent_of_rated.low", "transport.strap.percent_of_rated.estimate", "transport.strap.percent_of_rated.high",
		"transport.strap.after_settling_kg", "transport.strap.after_settling_kg.low", "transport.strap.after_settling_kg.estimate", "transport.strap.after_settling_kg.high",
		"transport.peak_matches", "transport.peak_matches[].device", "transport.peak_matches[].straps", "transport.peak_matches[].angle_deg", "transport.peak_matches[].tension_dan",
		"transport.held", "transport.held.rule", "transport.held.ok", "transport.held.margins", "transport.held.margins[].direction", "transport.held.margins[].needed_dan", "transport.held.margins[].held_dan", "transport.held.margins[].percent",
		"transport.held.tipping", "transport.held.tipping.direction", "transport.held.tipping.needed_dan", "transport.held.tipping.held_dan", "transport.held.tipping.percent",
		"transport.held.aggregate", "transport.held.aggregate.required_lb", "transport.held.aggregate.counted_lb", "transport.held.aggregate.number", "transport.held.aggregate.least",
		"transport.held.downforce", "transport.held.downforce.direction", "transport.held.downforce.needed_dan", "transport.held.downforce.held_dan", "transport.held.downforce.percent", "transport.held.not_covered",
		"transport.findings", "transport.findings[].code", "transport.findings[].severity", "transport.findings[].where", "transport.findings[].message", "transport.findings[].expected", "transport.findings[].effect", "transport.findings[].hint",
		"transport.trips", "transport.trips.total", "transport.trips.by_haulier", "transport.trips.by_haulier[].haulier", "transport.trips.by_haulier[].crew", "transport.trips.by_haulier[].rate",
		"transport.trips.list", "transport.trips.list[].from", "transport.trips.list[].to", "transport.trips.list[].haulier", "transport.trips.list[].crew", "transport.trips.list[].bracketed", "transport.trips.list[].why_not", "transport.trips.list[].raised_the_peak", "transport.trips.list[].peak_kg",
		"transport.trips.briefing", "transport.trips.briefing.on", "transport.trips.briefing.words",
	}
)

func init() {
	for _, rate := range []string{"total", "by_haulier[].rate", "briefing.before", "briefing.after"} {
		if strings.HasPrefix(rate, "briefing") {
			added = append(added, "transport.trips."+rate)
		}
		for _, name := range []string{"raised", "trips", "without_readings", "per_trip", "low", "high"} {
			added = append(added, "transport.trips."+rate+"."+name)
		}
	}
}

// members visits every object of a JSON value with the path to it.
func members(path string, v any, visit func(path string, object map[string]any)) {
	switch v := v.(type) {
	case map[string]any:
		visit(path, v)
		for name, member := range v {
			members(strings.TrimPrefix(path+"."+name, "."), member, visit)
		}
	case []any:
		for _, item := range v {
			members(path+"[]", item, visit)
		}
	}
}

// Every object has every fixed member, and none that is not listed here.
func TestJSONHasTheFixedMembers(t *testing.T) {
	seen := map[string]bool{}
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			var line bytes.Buffer
			if err := dossier.WriteJSON(&line, &d); err != nil {
				t.Fatal(err)
			}
			var v any
			if err := json.Unmarshal(line.Bytes(), &v); err != nil {
				t.Fatal(err)
			}
			members("", v, func(at string, object map[string]any) {
				for _, want := range fixed {
					if parent, name := split(want); parent == at {
						if _, ok := object[name]; !ok {
							t.Errorf("%s: got no %s, want it", path, want)
						}
					}
				}
				for name := range object {
					full := strings.TrimPrefix(at+"."+name, ".")
					seen[full] = true
					if !slices.Contains(fixed, full) && !slices.Contains(optional, full) && !slices.Contains(added, full) {
						t.Errorf("%s: got %s, want no member that is not listed", path, full)
					}
				}
			})
		}
	}
	for _, name := range slices.Concat(fixed, optional, added) {
		if !seen[name] {
			t.Errorf("got no %s in any file, want it somewhere", name)
		}
	}
}

// split parts the last step of a path from what holds it.
func split(path string) (parent, name string) {
	i := strings.LastIndex(path, ".")
	if i < 0 {
		return "", path
	}
	return path[:i], path[i+1:]
}

// The values that the format document lists, and no others.
func TestJSONValues(t *testing.T) {
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			for _, x := range d.Exceedances {
				if !slices.Contains([]string{"peak", "band", "episode"}, string(x.What)) || !slices.Contains([]string{"worked", "lashed", "shock", "drift", "undecided"}, string(x.Verdict)) {
					t.Errorf("%s: got %s with verdict %s, want the listed words", path, x.What, x.Verdict)
				}
				if (x.Hours == nil) != (x.What == "peak") || (x.Peak == nil) != (x.What == "band") {
					t.Errorf("%s: got %+v, want hours of a band and the load of a peak", path, x)
				}
				var sum float64
				for _, p := range []float64{x.Posterior.Worked, x.Posterior.Lashed, x.Posterior.Shock, x.Posterior.Drift} {
					sum += p
				}
				if sum < 1-1e-12 || sum > 1+1e-12 {
					t.Errorf("%s: got a posterior of %v in all, want 1", path, sum)
				}
			}
			for _, f := range d.Findings {
				if !slices.Contains([]string{"note", "doubt", "blocking"}, string(f.Severity)) {
					t.Errorf("%s: got severity %q, want a listed one", path, f.Severity)
				}
			}
			if d.Method != "ratchetmark 0.2.0" {
				t.Errorf("got %q, want ratchetmark 0.2.0", d.Method)
			}
		}
	}
}

// Markup in a text of the record is written as it is: a result is data, and
// whoever shows it escapes it for the place where it is shown.
func TestJSONKeepsText(t *testing.T) {
	var line bytes.Buffer
	if err := dossier.WriteJSON(&line, &dossiers(t, "bad/html-in-fields.case.json")[0]); err != nil {
		t.Fatal(err)
	}
	if want := `"id":"<script>alert(\"T-01\")</script>"`; !strings.Contains(line.String(), want) {
		t.Errorf("got %s, want it to hold %s", line.String(), want)
	}
}

// Lists are never null: who reads the result need not ask.
func TestJSONListsAreNotNull(t *testing.T) {
	for _, path := range goldenFiles {
		for _, d := range dossiers(t, path) {
			var line bytes.Buffer
			if err := dossier.WriteJSON(&line, &d); err != nil {
				t.Fatal(err)
			}
			for _, name := range []string{"inputs", "findings", "exceedances", "reasons", "ask_for", "hours_over", "cautions", "assumptions", "cycles_by", "against", "spread", "stretches", "forecast", "shares", "terms", "tests", "examine", "told", "settle", "pieces"} {
				if strings.Contains(line.String(), `"`+name+`":null`) {
					t.Errorf("%s: got null for %s, want a list", path, name)
				}
			}
		}
	}
}

package intake

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/record"
)

// readJSON reads one case object, a list of them, or several one after the
// other. Values that are no cases are read as tables.
func (g *gatherer) readJSON(name string, in io.Reader) ([]Record, error) {
	data, err := io.ReadAll(io.LimitReader(in, maxJSON+1))
	if err != nil {
		return nil, err
	}
	if len(data) > maxJSON {
		return nil, &Refusal{File: name, Found: fmt.Sprintf("more than %d MiB of JSON", maxJSON>>20), Expected: "a case file; one machine takes a few kilobytes", Hint: "split the file by machine"}
	}
	tree := newTreeReader(name, data)
	var records []Record
	var plain []node
	for {
		tree.values = 0
		n, err := tree.next(0)
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		switch {
		case isGuide(n):
			guide, err := ReadGuide(data[n.offset:tree.dec.InputOffset()])
			if err != nil {
				return nil, tree.badGuide(n, err)
			}
			g.brought = append(g.brought, guide)
		case looksLikeCase(n):
			records = append(records, readCase(tree, n))
		case n.shape == array && len(n.items) > 0 && all(n.items, looksLikeCase):
			for _, c := range n.items {
				records = append(records, readCase(tree, c))
			}
		case n.shape == scalar || len(n.items)+len(n.fields) == 0:
			return nil, tree.notACase(n)
		case n.shape == array && allScalar(n.items):
			return nil, tree.notACase(n.items[0])
		default:
			plain = append(plain, n)
		}
	}
	if len(plain) > 0 {
		return records, g.readPlain(tree, plain)
	}
	return records, nil
}

// isGuide reports whether a value calls itself a guide.
func isGuide(n node) bool {
	format := n.step("format")
	if n.shape != object || format == nil {
		return false
	}
	text, _ := format.value.(string)
	return text == batch.GuideFormat
}

func (t *treeReader) badGuide(n node, err error) *Refusal {
	r := t.refuse(n.offset, err.Error(), "a guide as this program writes it")
	r.Hint = "write the guide anew: open a file, point out its columns and save the guide"
	return r
}

func all(nodes []node, is func(node) bool) bool {
	for _, n := range nodes {
		if !is(n) {
			return false
		}
	}
	return true
}

// looksLikeCase reports whether a value is meant as a case: an object that names
// a format, or has the parts of a case in their shapes and under their names.
func looksLikeCase(n node) bool {
	if n.shape != object {
		return false
	}
	machine, readings := n.step("machine"), n.step("readings")
	switch {
	case n.step("format") != nil:
		return true
	case machine != nil && machine.shape == object || readings != nil && readings.shape == array && machine == nil:
		return mostlyOurs(n)
	}
	return false
}

// mostlyOurs reports whether the names in a record, its machine and its first
// reading are those of a case file, for the greater part.
func mostlyOurs(n node) bool {
	ours, others := 0, 0
	count := func(n *node, names string) {
		if n == nil {
			return
		}
		for _, f := range n.fields {
			if slices.Contains(strings.Fields(names), f.name) {
				ours++
			} else {
				others++
			}
		}
	}
	count(&n, "machine readings custody events daily checks tie_downs note assumptions")
	count(n.step("machine"), "id kind rated_load_kg persons load_sensing_kg mass_kg in_service")
	if readings := n.step("readings"); readings != nil {
		count(readings.step("1"), "at powered_h moving_h bands peak_kg peak_at")
	}
	return ours >= others
}

func (t *treeReader) notACase(n node) *Refusal {
	r := t.refuse(n.offset, n.kindText()+" that is not a case", `an object with "format", "machine" and "readings"`)
	r.Hint = "open a case file saved by this program, or delimited text in the form of the template"
	return r
}

// caseReader turns nodes into a case and notes what does not fit.
type caseReader struct {
	tree *treeReader
	out  Record
	cut  int // findings left out
}

func readCase(t *treeReader, n node) Record {
	r := &caseReader{tree: t}
	r.out.Origins = record.Origins{}
	c := &r.out.Case
	r.object(n, "", members{
		"format":        func(n node, at record.Path) { c.Format = r.text(n, at) },
		"note":          func(n node, at record.Path) { c.Note = r.text(n, at) },
		"machine":       func(n node, at record.Path) { r.machine(n, at, &c.Machine) },
		"readings":      func(n node, at record.Path) { c.Readings = list(r, n, at, maxEntries, r.reading) },
		"custody":       func(n node, at record.Path) { c.Custody = list(r, n, at, maxEntries, r.custody) },
		"events":        func(n node, at record.Path) { c.Events = list(r, n, at, maxEntries, r.event) },
		"daily":         func(n node, at record.Path) { c.Daily = list(r, n, at, maxEntries, r.daily) },
		"checks":        func(n node, at record.Path) { c.Checks = list(r, n, at, maxEntries, r.check) },
		"tie_downs":     func(n node, at record.Path) { c.TieDowns = list(r, n, at, maxEntries, r.tieDown) },
		"assumptions":   func(n node, at record.Path) { c.Assumptions = r.assumptions(n, at) },
		"plan":          func(n node, at record.Path) { c.Plan = r.plan(n, at) },
		"crew":          func(n node, at record.Path) { c.Crew = r.crew(n, at) },
		"thresholds_kg": func(n node, at record.Path) { c.Thresholds = r.loads(n, at) },
		"structure":     func(n node, at record.Path) { c.Structure = r.structure(n, at) },
		"transport":     func(n node, at record.Path) { c.Transport = r.transport(n, at) },
	})
	r.sayCut()
	r.origins(n)
	return r.out
}

func (r *caseReader) machine(n node, at record.Path, m *record.Machine) {
	r.object(n, at, members{
		"id":              func(n node, at record.Path) { m.ID = r.text(n, at) },
		"kind":            func(n node, at record.Path) { m.Kind = record.Kind(r.text(n, at)) },
		"rated_load_kg":   func(n node, at record.Path) { m.RatedLoad = number[record.Kilogram](r, n, at) },
		"persons":         func(n node, at record.Path) { m.Persons = r.whole(n, at) },
		"load_sensing_kg": func(n node, at record.Path) { m.LoadSensing = number[record.Kilogram](r, n, at) },
		"mass_kg":         func(n node, at record.Path) { m.Mass = number[record.Kilogram](r, n, at) },
		"in_service":      func(n node, at record.Path) { m.InService = r.date(n, at) },

		"region":              func(n node, at record.Path) { m.Region = r.text(n, at) },
		"edition":             func(n node, at record.Path) { m.Edition = r.text(n, at) },
		"moved_by_hand":       func(n node, at record.Path) { m.ByHand = r.truth(n, at) },
		"senses_only_raising": func(n node, at record.Path) { m.RaisingOnly = r.truth(n, at) },
		"zones":               func(n node, at record.Path) { m.Zones = list(r, n, at, maxZones, r.zone) },
	})
}

func (r *caseReader) reading(n node, at record.Path) (out record.Reading) {
	r.object(n, at, members{
		"at":        func(n node, at record.Path) { out.At = orZero(r.time(n, at)) },
		"powered_h": func(n node, at record.Path) { out.Powered = number[record.Hour](r, n, at) },
		"moving_h":  func(n node, at record.Path) { out.Moving = number[record.Hour](r, n, at) },
		"bands":     func(n node, at record.Path) { out.Bands = r.bands(n, at) },
		"peak_kg":   func(n node, at record.Path) { out.Peak = number[record.Kilogram](r, n, at) },
		"peak_at":   func(n node, at record.Path) { out.PeakAt = r.time(n, at) },
	})
	return out
}

// bands reads the bands of a reading. One that cannot be read makes all of
// them useless: what the rest would say is not known without it.
func (r *caseReader) bands(n node, at record.Path) []record.Band {
	whole := true
	bands := list(r, n, at, maxBands, func(n node, at record.Path) (b record.Band) {
		var from *record.Kilogram
		var hours *record.Hour
		openOrRead := true
		r.object(n, at, members{
			"from_kg": func(n node, at record.Path) { from = number[record.Kilogram](r, n, at) },
			"to_kg": func(n node, at record.Path) {
				b.To = number[record.Kilogram](r, n, at)
				openOrRead = b.To != nil || isNull(n)
			},
			"hours": func(n node, at record.Path) { hours = number[record.Hour](r, n, at) },
		})
		if from == nil || hours == nil || !openOrRead {
			whole = false
			return b
		}
		b.From, b.Hours = *from, *hours
		return b
	})
	fault := ""
	switch {
	case n.shape != array && !isNull(n):
		fault = "the bands are not a list"
	case !whole:
		fault = "at least one band lacks an edge or its hours"
	case len(n.items) > maxBands:
		fault = fmt.Sprintf("more than %d bands in one reading", maxBands)
	}
	if fault != "" {
		r.find(n.offset, record.Finding{
			Code: "bands-incomplete", Severity: record.Blocking, Path: at,
			Message: fault, Expected: "from_kg, to_kg (null for the open band) and hours in every band",
			Effect: "the bands of this reading are left out; its peak is still used", Hint: "complete the band that is named",
		})
		return nil
	}
	return bands
}

func (r *caseReader) custody(n node, at record.Path) (out record.Custody) {
	r.object(n, at, members{
		"from":   func(n node, at record.Path) { out.From = orZero(r.time(n, at)) },
		"to":     func(n node, at record.Path) { out.To = orZero(r.time(n, at)) },
		"holder": func(n node, at record.Path) { out.Holder = record.Holder(r.text(n, at)) },
		"who":    func(n node, at record.Path) { out.Who = r.text(n, at) },
		"note":   func(n node, at record.Path) { out.Note = r.text(n, at) },
	})
	return out
}

func (r *caseReader) event(n node, at record.Path) (out record.Event) {
	r.object(n, at, members{
		"at":      func(n node, at record.Path) { out.At = orZero(r.time(n, at)) },
		"kind":    func(n node, at record.Path) { out.Kind = record.EventKind(r.text(n, at)) },
		"load_kg": func(n node, at record.Path) { out.Load = number[record.Kilogram](r, n, at) },
		"note":    func(n node, at record.Path) { out.Note = r.text(n, at) },
	})
	return out
}

func (r *caseReader) daily(n node, at record.Path) (out record.Daily) {
	r.object(n, at, members{
		"date":      func(n node, at record.Path) { out.Date = orZero(r.date(n, at)) },
		"powered_h": func(n node, at record.Path) { out.Powered = number[record.Hour](r, n, at) },
		"moving_h":  func(n node, at record.Path) { out.Moving = number[record.Hour](r, n, at) },
	})
	return out
}

func (r *caseReader) assumptions(n node, at record.Path) map[string]record.Assumed {
	out := map[string]record.Assumed{}
	if n.shape != object {
		r.wrong(n, at, "an object")
		return nil
	}
	for _, f := range n.fields {
		var v record.Assumed
		set := func(to *float64) func(node, record.Path) {
			return func(n node, at record.Path) { *to = orZero(number[float64](r, n, at)) }
		}
		name, changed := Visible(f.name)
		if changed {
			r.find(f.offset, hiddenCharacters(at))
		}
		r.object(f.node, at.At(name), members{"low": set(&v.Low), "value": set(&v.Value), "high": set(&v.High)})
		out[name] = v
	}
	return out
}

func orZero[T any](p *T) (zero T) {
	if p == nil {
		return zero
	}
	return *p
}

func isNull(n node) bool { return n.shape == scalar && n.value == nil }

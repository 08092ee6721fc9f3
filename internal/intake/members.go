package intake

import (
	"encoding/json"
	"errors"
	"fmt"
	"strconv"
	"time"

	"ratchetmark/internal/record"
)

// members says for each member of an object how it is read.
type members map[string]func(n node, at record.Path)

// object reads the members of an object. A member that is not known is kept
// out and noted; of a member that stands twice the first counts.
func (r *caseReader) object(n node, at record.Path, ms members) {
	if n.shape != object {
		r.wrong(n, at, "an object")
		return
	}
	seen := map[string]bool{}
	for _, f := range n.fields {
		here := at.At(f.name)
		read, known := ms[f.name]
		switch {
		case !known:
			r.find(f.offset, record.Finding{
				Code: "member-unknown", Severity: record.Note, Path: here,
				Where: at.Words(), Message: fmt.Sprintf("member %q is not known", short(f.name)), Expected: "the members of a case file",
				Effect: "it is not used", Hint: "check the spelling if it was meant to count",
			})
		case seen[f.name]:
			r.find(f.offset, record.Finding{
				Code: "member-twice", Severity: record.Doubt, Path: here,
				Message: fmt.Sprintf("member %q stands twice", f.name), Expected: "each member once",
				Effect: "the first of the two is used", Hint: "remove the wrong one",
			})
		default:
			seen[f.name] = true
			read(f.node, here)
		}
	}
}

// list reads an array, item by item, up to a limit.
func list[T any](r *caseReader, n node, at record.Path, most int, read func(node, record.Path) T) []T {
	if isNull(n) {
		return nil
	}
	if n.shape != array {
		r.wrong(n, at, "a list")
		return nil
	}
	var out []T
	for i, item := range n.items {
		if i == most {
			r.find(item.offset, record.Finding{
				Code: "too-many", Severity: record.Blocking, Path: at,
				Message: fmt.Sprintf("%d entries", len(n.items)), Expected: fmt.Sprintf("at most %d", most),
				Effect: "the entries from here on are not read", Hint: "split the record",
			})
			break
		}
		out = append(out, read(item, at.At(i+1)))
	}
	return out
}

// number reads a number; nil for null and for what is not one.
func number[T ~float64](r *caseReader, n node, at record.Path) *T {
	if isNull(n) {
		return nil
	}
	v, ok := n.value.(json.Number)
	if !ok {
		r.wrong(n, at, "a number")
		return nil
	}
	x, err := strconv.ParseFloat(v.String(), 64)
	if errors.Is(err, strconv.ErrRange) {
		r.wrong(n, at, "a number that can be held, below 1e308")
		return nil
	}
	return record.Of(T(x))
}

func (r *caseReader) whole(n node, at record.Path) *int {
	x := number[float64](r, n, at)
	if x == nil {
		return nil
	}
	if *x != float64(int32(*x)) {
		r.wrong(n, at, "a whole number")
		return nil
	}
	return record.Of(int(*x))
}

func (r *caseReader) text(n node, at record.Path) string {
	if isNull(n) {
		return ""
	}
	s, ok := n.value.(string)
	if !ok {
		r.wrong(n, at, "a text")
		return ""
	}
	clean, changed := Visible(oneLine(s))
	if changed {
		r.find(n.offset, hiddenCharacters(at))
	}
	clean, cut := clip(clean)
	if cut {
		r.find(n.offset, textCut(at))
	}
	return clean
}

func (r *caseReader) time(n node, at record.Path) *time.Time {
	s, ok := n.value.(string)
	if isNull(n) || ok && s == "" {
		return nil
	}
	if ok {
		if t, err := time.Parse(time.RFC3339, s); err == nil && writable(t) {
			return &t
		}
	}
	r.wrong(n, at, "a time such as 2026-03-02T08:10:00Z")
	return nil
}

func (r *caseReader) date(n node, at record.Path) *record.Date {
	s, ok := n.value.(string)
	if isNull(n) || ok && s == "" {
		return nil
	}
	if ok {
		if d, err := record.ParseDate(s); err == nil {
			return &d
		}
	}
	r.wrong(n, at, "a date such as 2026-03-02")
	return nil
}

// wrong notes a value that is not what its place asks for.
func (r *caseReader) wrong(n node, at record.Path, expected string) {
	r.find(n.offset, unreadable(at, n.kindText(), expected))
}

func unreadable(at record.Path, found, expected string) record.Finding {
	return record.Finding{
		Code: "value-unreadable", Severity: record.Doubt, Path: at,
		Message: "found " + found, Expected: expected,
		Effect: "the value is taken as missing", Hint: "correct the value in the file",
	}
}

func textCut(at record.Path) record.Finding {
	return record.Finding{
		Code: "text-cut", Severity: record.Note, Path: at,
		Message: fmt.Sprintf("the text is longer than %d characters", maxText), Expected: "a name or a short note",
		Effect: "the rest of it is not shown or saved", Hint: "keep the file if the text matters",
	}
}

func hiddenCharacters(at record.Path) record.Finding {
	return record.Finding{
		Code: "hidden-characters", Severity: record.Note, Path: at,
		Message: "the text holds characters that do not show", Expected: "plain text",
		Effect: "none; they are shown by their code", Hint: "check where the text was copied from",
	}
}

// find keeps a finding with its place in the file.
func (r *caseReader) find(offset int, f record.Finding) {
	if len(r.out.Findings) >= maxFindings {
		r.cut++
		return
	}
	at := r.tree.line.at(offset)
	f = f.At(record.Origin{File: r.tree.name, Line: at.Line, Column: at.Column})
	if f.Where == "" {
		f.Where = f.Path.Words()
	}
	r.out.Findings = append(r.out.Findings, f)
}

// sayCut says how many findings were left out.
func (r *caseReader) sayCut() {
	if r.cut > 0 {
		r.out.Findings = append(r.out.Findings, findingsCut(r.cut))
	}
}

func findingsCut(n int) record.Finding {
	return record.Finding{
		Code: "findings-cut", Severity: record.Doubt, Where: "the whole record",
		Message: fmt.Sprintf("%d further findings are not listed", n), Expected: "a record with fewer faults",
		Effect: "they would repeat the kinds above", Hint: "correct those first",
	}
}

// origins notes where in the file the parts stand that a check of the case will name.
func (r *caseReader) origins(root node) {
	paths := []record.Path{"machine/rated_load_kg", "machine/persons"}
	for i, f := range record.Check(&r.out.Case) {
		if i == maxFindings {
			break
		}
		paths = append(paths, f.Path)
	}
	if r.out.Case.Structure != nil {
		paths = append(paths, "structure")
	}
	for id := range r.out.Case.Assumptions {
		paths = append(paths, record.Path("assumptions").At(id))
	}
	for _, p := range append(paths, morePaths(&r.out.Case)...) {
		at := r.tree.line.at(root.find(p))
		r.out.Origins[p] = record.Origin{File: r.tree.name, Line: at.Line, Column: at.Column}
	}
}

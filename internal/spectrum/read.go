package spectrum

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"ratchetmark/internal/endurance"
	"ratchetmark/internal/record"
)

// mostRows is how many rows a spectrum may have, mostFindings how many findings
// are listed.
const (
	mostRows     = 1_000_000
	mostFindings = 100
)

// reading is a file as it is read.
type reading struct {
	in     *json.Decoder
	out    Result
	spec   endurance.Spec
	design endurance.Design
	sum    endurance.Sum
	rows   []endurance.Row // that came before the curve
	curve  bool            // it was read
	read   int
	most   int // rows
}

// Read reads {"curve":{...},"spectrum":[...]} and works out the damage. What
// cannot be read at all is a refusal; what can be read and not be used is a
// finding in the result.
func Read(name string, in io.Reader) (Result, error) { return readUpTo(name, in, mostRows) }

func readUpTo(name string, in io.Reader, most int) (Result, error) {
	r := &reading{in: json.NewDecoder(in), most: most}
	r.out.Findings = []record.Finding{}
	if err := r.object(); err != nil {
		return Result{}, refusal(name, r.in.InputOffset(), err)
	}
	r.close()
	return r.out, nil
}

func refusal(name string, offset int64, err error) *record.Refusal {
	return &record.Refusal{
		File: name, Found: found(err, offset), Expected: `an object with "curve" and "spectrum"`,
		Hint: "compare with the examples in the README",
	}
}

// found says what is wrong with a file, and where.
func found(err error, offset int64) string {
	var kind *json.UnmarshalTypeError
	switch {
	case errors.Is(err, io.ErrUnexpectedEOF) && offset == 0:
		return "the file is empty"
	case errors.Is(err, io.ErrUnexpectedEOF), errors.Is(err, io.EOF):
		return fmt.Sprintf("the file ends in the middle of a value, at byte %d", offset)
	case errors.As(err, &kind):
		return fmt.Sprintf("%s holds a %s that cannot be used, in the value that ends at byte %d", kind.Field, kind.Value, offset)
	}
	return fmt.Sprintf("%v, at byte %d", err, offset)
}

// object reads the whole object.
func (r *reading) object() error {
	if err := r.delim('{'); err != nil {
		return err
	}
	seen := map[string]bool{}
	for r.in.More() {
		t, err := r.in.Token()
		if err != nil {
			return err
		}
		name, _ := t.(string)
		if seen[name] {
			return fmt.Errorf("%q stands twice", name)
		}
		seen[name] = true
		switch name {
		case "curve":
			err = r.readCurve()
		case "spectrum":
			err = r.readRows()
		default:
			r.unknown(record.Path(name))
			err = r.in.Decode(new(json.RawMessage))
		}
		if err != nil {
			return err
		}
	}
	if err := r.delim('}'); err != nil {
		return err
	}
	if !seen["curve"] || !seen["spectrum"] {
		return fmt.Errorf("no curve or no spectrum")
	}
	if _, err := r.in.Token(); err != io.EOF {
		return fmt.Errorf("something behind the object")
	}
	return nil
}

func (r *reading) delim(want json.Delim) error {
	t, err := r.in.Token()
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	if err == nil && t != want {
		err = fmt.Errorf("%v in place of %v", t, want)
	}
	return err
}

func (r *reading) readCurve() error {
	var text json.RawMessage
	if err := r.in.Decode(&text); err != nil {
		return err
	}
	if err := json.Unmarshal(text, &r.spec); err != nil {
		return err
	}
	r.strangers(text, "curve")
	var findings []record.Finding
	r.design, findings = r.spec.Read("curve")
	for _, f := range findings {
		r.find(f)
	}
	r.curve = true
	for i, row := range r.rows {
		r.add(row, i+1)
	}
	r.rows = nil
	return nil
}

func (r *reading) readRows() error {
	if err := r.delim('['); err != nil {
		return err
	}
	for r.in.More() {
		r.read++
		if r.read > r.most {
			return fmt.Errorf("more than %d rows", r.most)
		}
		row, err := r.readRow()
		if err != nil {
			return err
		}
		if r.curve {
			r.add(row, r.read)
		} else {
			r.rows = append(r.rows, row)
		}
	}
	return r.delim(']')
}

// readRow reads a row. One with as many quotes as its members need has no
// member that is not known, and need not be looked at again.
func (r *reading) readRow() (row endurance.Row, err error) {
	var text json.RawMessage
	if err := r.in.Decode(&text); err != nil {
		return row, err
	}
	if err := json.Unmarshal(text, &row); err != nil {
		return row, err
	}
	quotes := 0
	for _, member := range []*float64{row.Range, row.Cycles, row.Mean} {
		if member != nil {
			quotes += 2
		}
	}
	if bytes.Count(text, []byte{'"'}) != quotes {
		r.strangers(text, record.Path("spectrum").At(r.read))
	}
	return row, nil
}

// strangers notes the members of an object that are not known.
func (r *reading) strangers(text json.RawMessage, at record.Path) {
	var all map[string]json.RawMessage
	if json.Unmarshal(text, &all) != nil {
		return
	}
	for _, name := range sortedNames(all) {
		if !slices.Contains(members[at == "curve"], strings.ToLower(name)) {
			r.unknown(at.At(name))
		}
	}
}

// members are those of a row and of a curve.
var members = map[bool][]string{
	false: {"range_mpa", "cycles", "mean_mpa"},
	true: {"standard", "category", "stress", "gamma_mf", "gamma_ff", "concept", "consequence", "welded",
		"slope", "range_or_amplitude_at", "below", "slope_below", "mean_stress", "ultimate_mpa"},
}

func sortedNames(all map[string]json.RawMessage) (names []string) {
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

func (r *reading) unknown(at record.Path) {
	r.find(record.Finding{
		Code: "member-unknown", Severity: record.Note, Path: at, Where: at.Words(),
		Message: "this member is not known", Expected: "the members of a curve and a spectrum",
		Effect: "it is not used", Hint: "check the spelling if it was meant to count",
	})
}

// add counts a row, unless a finding has withheld the damage already.
func (r *reading) add(row endurance.Row, number int) {
	at := func() record.Path { return record.Path("spectrum").At(number) }
	if record.Blocks(r.out.Findings) && len(r.out.Findings) >= mostFindings {
		return
	}
	if r.design.GammaFf == 0 || record.Blocks(r.out.Findings) {
		return
	}
	if f := r.design.Add(&r.sum, row, at); f != nil {
		r.find(*f)
	}
}

func (r *reading) find(f record.Finding) {
	if len(r.out.Findings) < mostFindings || f.Severity == record.Blocking && !record.Blocks(r.out.Findings) {
		r.out.Findings = append(r.out.Findings, f)
	}
}

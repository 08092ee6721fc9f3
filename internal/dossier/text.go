package dossier

import (
	"fmt"
	"io"
	"strings"

	"ratchetmark/internal/assume"
	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// textWidth is the width of printed text, in characters.
const textWidth = 78

// WriteText prints a dossier for a person at a terminal.
func WriteText(w io.Writer, d *Dossier) error {
	p := &printer{}
	p.head(d)
	p.question("What did the machine record?", d.Answers.Recorded)
	for _, line := range d.Noted {
		p.wrap("  ", "    ", line)
	}
	p.findings(d.Findings)
	p.question("What may it carry?", d.Answers.Carry)
	p.capacity(d)
	p.question("What went over, and why?", d.Answers.Over)
	p.exceedances(d)
	p.after(d)
	p.question("What has it cost the structure?", d.Answers.Cost)
	p.exposure(d)
	p.rules(d)
	p.question("How should it ride?", d.Answers.Ride)
	p.ride(d)
	p.question("Hand it over", d.Answers.Handover)
	p.inputs(d)
	p.cautions(d)
	_, err := io.WriteString(w, p.b.String())
	return err
}

type printer struct{ b strings.Builder }

func (p *printer) line(format string, args ...any) {
	p.b.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " ") + "\n")
}

// wrap prints words from a column on, broken at the text width.
func (p *printer) wrap(first, rest, words string) {
	line := first
	indent := len(rest)
	for _, word := range strings.Fields(words) {
		if len([]rune(line))+1+len([]rune(word)) > textWidth && len(strings.TrimSpace(line)) > 0 {
			p.line("%s", line)
			line = strings.Repeat(" ", indent)
		}
		if line != "" && !strings.HasSuffix(line, " ") {
			line += " "
		}
		line += word
	}
	p.line("%s", line)
}

func (p *printer) head(d *Dossier) {
	p.line("%s", Heading(d))
	if d.Note != "" {
		p.wrap("", "", "Note: "+d.Note)
	}
	p.line("")
	p.wrap("", "", d.Answers.Summary)
}

func kindText(d *Dossier) string {
	switch d.Machine.Kind {
	case record.Boom:
		return "boom lift"
	case record.Scissor:
		return "scissor lift"
	case record.Mast:
		return "mast lift"
	}
	return "lift"
}

func ratedText(d *Dossier) string {
	if d.History.Rated <= 0 {
		return "not known"
	}
	return Kg(float64(d.History.Rated))
}

func (p *printer) question(question, answer string) {
	p.line("")
	p.line("%s", question)
	p.wrap("  ", "  ", answer)
}

func (p *printer) findings(fs []record.Finding) {
	for _, f := range fs {
		p.wrap(fmt.Sprintf("  [%s] ", f.Severity), "    ", FindingText(f))
	}
}

// FindingText writes a finding as sentences.
func FindingText(f record.Finding) string {
	where := f.Where
	if f.Line > 0 || f.Sheet != "" {
		where += " (" + f.Origin().String() + ")"
	}
	text := fmt.Sprintf("%s: %s; expected %s. Effect: %s.", where, f.Message, f.Expected, f.Effect)
	if f.Hint != "" {
		text += " To do: " + f.Hint + "."
	}
	return text
}

func (p *printer) capacity(d *Dossier) {
	c := d.Capacity
	if c == nil {
		return
	}
	p.line("")
	p.line("  over                    at least     about   at most")
	for _, o := range c.HoursOver {
		high := "not known"
		if !o.Unbounded {
			high = H(o.High)
		}
		about := "not known"
		if o.Estimate != nil {
			about = H(*o.Estimate)
		}
		load := float64(c.Rated) * float64(o.Percent) / 100
		p.line("  %3d %% = %-14s %9s %9s %9s", o.Percent, Kg(load), H(o.Low), about, high)
	}
	p.line("")
	for _, text := range CarryLines(d) {
		p.wrap("  ", "    ", text)
	}
}

// rules prints the values of the rules that figures rest on: those that were set
// for the case by themselves, the others together by their source.
func (p *printer) rules(d *Dossier) {
	if d.Capacity == nil {
		return
	}
	var rows []assume.Assumption
	for _, a := range d.Assumptions {
		if a.Rule && (a.Edited || capacity.Counts(a.ID)) {
			rows = append(rows, a)
		}
	}
	p.bySource("Rules", rows)
}

// assumptions prints what the exposure assumes.
func (p *printer) assumptions(d *Dossier) {
	var rows []assume.Assumption
	for _, a := range d.Assumptions {
		if a.Rule || a.Group == assume.ForCauses && !a.Edited {
			continue // rules stand with what the machine may carry, those that matter with each piece
		}
		rows = append(rows, a)
	}
	p.bySource("Assumed", rows)
}

// bySource prints values, those of one source together.
func (p *printer) bySource(title string, rows []assume.Assumption) {
	var sources []string
	values := map[string][]string{}
	for _, a := range rows {
		from := sourceText(a)
		if values[from] == nil {
			sources = append(sources, from)
		}
		values[from] = append(values[from], AssumptionValue(a))
	}
	for _, from := range sources {
		p.wrap("  "+title+": ", "    ", strings.Join(values[from], "; ")+": "+from+".")
	}
}

// after prints what is asked for after an overload.
func (p *printer) after(d *Dossier) {
	if d.Capacity == nil || d.Capacity.After == nil {
		return
	}
	p.line("")
	p.wrap("  ", "  ", "Asked for after an overload. "+d.Capacity.After.Line())
	own := " Source: " + string(assume.Own) + "."
	left := false
	for _, s := range d.Capacity.After.Rows {
		text, cut := strings.CutSuffix(AskedLine(s), own)
		left = left || cut
		p.wrap("  - ", "    ", text)
	}
	if left {
		p.wrap("  ", "  ", "What has no source is "+string(assume.Own)+".")
	}
}

func (p *printer) exposure(d *Dossier) {
	e := d.Exposure
	if e == nil {
		p.parts(CostParts(d))
		return
	}
	p.line("  load cycles      %s", CountBounds(e.LoadCycles))
	p.line("  of the budget    %s", PercentBounds(e.Relative))
	p.wrap("  spectrum factor  ", "                   ", FactorBounds(e.FactorKp)+", "+e.Class)
	p.wrap("  ", "  ", AsRead)
	p.line("")
	p.ranges(Main(d).Ranges)
	p.parts(CostParts(d))
	p.line("")
	p.assumptions(d)
}

// parts prints the reasoning about the exposure.
func (p *printer) parts(all []CostPart) {
	for _, part := range all {
		p.line("")
		p.wrap("  ", "    ", colon(part.Title)+" "+part.Answer)
		p.ranges(part.Ranges)
		if part.Table != nil {
			for _, row := range part.Table.Rows {
				p.wrap("    ", "      ", rowText(part.Table.Head, row))
			}
		}
		for _, line := range part.Lines {
			p.wrap("    ", "      ", line)
		}
	}
}

func (p *printer) ranges(all []CostRange) {
	for _, r := range all {
		p.wrap("    ", "      ", r.Words+": "+r.Figures)
	}
}

// colon ends a title so that words can follow.
func colon(title string) string {
	if strings.HasSuffix(title, "?") {
		return title
	}
	return title + ":"
}

// rowText writes a row of a table as words: "Hire X: at least 1 %, about 2 %".
func rowText(head, row []string) string {
	var cells []string
	for i, cell := range row[1:] {
		if cell == notKnown {
			continue
		}
		cells = append(cells, strings.ToLower(head[i+1][:1])+head[i+1][1:]+" "+cell)
	}
	return row[0] + ": " + strings.Join(cells, ", ")
}

// assumed returns the value in use of an assumption; 0 without one.
func assumed(d *Dossier, id assume.ID) float64 {
	for _, a := range d.Assumptions {
		if a.ID == id {
			return a.Value
		}
	}
	return 0
}

func (p *printer) inputs(d *Dossier) {
	for _, in := range d.Inputs {
		p.line("  %s, %s bytes", in.Name, Count(float64(in.Bytes)))
		p.line("    SHA-256 %s", in.SHA256)
	}
	p.line("  method %s", d.Method)
}

func (p *printer) cautions(d *Dossier) {
	p.line("")
	for _, c := range d.Cautions {
		p.wrap("! ", "  ", c)
	}
}

// Name returns the machine's name, or says that it has none.
func Name(d *Dossier) string {
	if d.Machine.ID == "" {
		return "machine without a name"
	}
	return d.Machine.ID
}

// Heading names the machine with its kind and rated load.
func Heading(d *Dossier) string {
	return Name(d) + ", " + kindText(d) + ", rated load " + ratedText(d)
}

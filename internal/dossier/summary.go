package dossier

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ratchetmark/internal/cause"
	"ratchetmark/internal/record"
)

// summary is the first sentence of the sheet: what came out, and what to do.
func summary(d *Dossier) string {
	if d.Capacity == nil {
		return "Nothing can be concluded yet: " + firstBlocking(d) + "."
	}
	if len(d.Exceedances) == 0 {
		return nothingOver(d)
	}
	if d.carriesNobody() {
		return "Nothing can be concluded yet: " + d.nobody() + ". Until then, keep the machine out of use: loads were recorded, up to " + d.mostRecorded() + "."
	}
	text := "This machine recorded " + highest(d) + ". " + Capital(byVerdict(d)) + "."
	if readLow(d) != nil {
		text += " True loads may have been higher, because " + cellLow(d) + "."
	}
	return text + " Keep it out of use until a competent person has examined it" + cellToo(d) + "."
}

// missing says what nothing can be concluded without.
func missing(d *Dossier) string {
	if d.History.Rated <= 0 {
		return "there is no rated load to hold the record against"
	}
	return "there is no reading"
}

func nothingOver(d *Dossier) string {
	rated := Kg(float64(d.Capacity.Rated))
	switch {
	case d.Blocked():
		return "Whether a load went over the rated " + rated + " cannot be said: part of the record is not usable: " + firstBlocking(d) + "."
	case readLow(d) != nil:
		text := "No load over the rated " + rated + " was kept, but a real one cannot be excluded, because " + cellLow(d) + "."
		if wrongNow(d) != nil {
			text += " Keep it out of use until the cell has been set and checked again."
		}
		return text
	case withoutPeak(d) != "":
		return "No counted hours lie over the rated " + rated + "; a short overload cannot be excluded, because " + withoutPeak(d) + "."
	}
	text := fmt.Sprintf("The record shows no load over the rated %s: the highest load was %s", rated, Kg(*d.Capacity.Peak))
	if mixed := d.Capacity.Mixed(); mixed != "" {
		text += "; " + mixed
	}
	text += "."
	if wrong := wrongNow(d); wrong != nil {
		text += " The load cell showed " + offWords(*wrong) + ": have it set and checked again before the machine is used."
	}
	return text
}

// Unsure reports whether no load over the rated one is known and yet one cannot
// be excluded. It is for a dossier with a rated load.
func (d *Dossier) Unsure() bool {
	return len(d.Exceedances) == 0 && (d.Blocked() || readLow(d) != nil || withoutPeak(d) != "")
}

// cellToo says that the load cell is wrong as well; empty where no check says so.
func cellToo(d *Dossier) string {
	switch wrong := wrongNow(d); {
	case wrong == nil:
		return ""
	case readLow(d) != nil:
		return ", and the load cell has been set and checked again"
	default:
		return ", and the load cell, which showed " + offWords(*wrong) + ", has been set and checked again"
	}
}

// cellLow says that a check showed too little; it is for where one did.
func cellLow(d *Dossier) string { return "the load cell showed " + offWords(*readLow(d)) }

// withoutPeak says why the peak does not bound the loads; empty when it does.
func withoutPeak(d *Dossier) string {
	switch {
	case d.has("peak-below-occupied-band"):
		return "the peak lies below loads that were counted and is not to be believed"
	case d.has("peak-fell"):
		return "the peak was cleared"
	case d.Capacity.Peak == nil:
		return "there is no usable peak"
	case *d.Capacity.Peak <= 0:
		return "a peak of 0 kg is that of a register that was cleared"
	}
	return ""
}

// has reports whether there is a finding with one of the codes.
func (d *Dossier) has(codes ...string) bool {
	return slices.ContainsFunc(d.Findings, func(f record.Finding) bool { return slices.Contains(codes, f.Code) })
}

// incomplete says that hours are missing from the figures; empty when none are.
func incomplete(d *Dossier) string {
	switch {
	case d.Capacity != nil && d.Capacity.Counted == 0 && d.Blocked():
		return " The hours of the record could not be used."
	case d.has("row-ragged", "row-broken", "row-undated", "too-many"):
		return " Rows of the file could not be read: the true figures may be higher."
	case d.has("bands-incomplete", "bands-missing"):
		return " The bands of a reading could not be used: the true figures may be higher."
	case d.has("counter-backwards", "bands-changed", "faster-than-clock"):
		return " Only the counters of the last reading are in it: the true figures may be higher."
	case d.has("peak-above-all-bands"):
		return " Loads above the last band are not in it: the true figures may be higher."
	case d.has("unit-unknown", "unit-unclear", "unit-elsewhere", "column-unread", "load-twofold", "number-ambiguous", "date-ambiguous", "share-without-hours", "edges-without-rated-load", "heading-unread", "line-unread", "shares-unclear", "shares-of-one", "shares-or-hours", "rows-unexplained", "hours-alike", "counts-unclear", "table-given-up"):
		return " Values of the file could not be used: the true figures may differ."
	case d.has("band-gap"):
		return " Loads in the gap between bands are not in it: the true figures may be higher."
	}
	return ""
}

func firstBlocking(d *Dossier) string {
	for _, f := range d.Findings {
		if f.Severity == record.Blocking {
			return f.Where + ": " + f.Message
		}
	}
	return "no reading could be used"
}

// highest says how far and for how long the rated load was exceeded.
func highest(d *Dossier) string {
	rated := "its rated load of " + Kg(float64(d.Capacity.Rated))
	hours := ""
	if over := d.Capacity.HoursOver[0]; over.High > 0 {
		hours = HoursBetween(over.Low, over.High)
	}
	p := d.Capacity.Peak
	if p == nil || *d.Capacity.PeakPercent <= 100 {
		return hours + " over " + rated
	}
	text := fmt.Sprintf("a peak of %s, %s of %s", cause.LoadOver(record.Kilogram(*p), d.Capacity.Rated), cause.SharePercent(*d.Capacity.PeakPercent/100), rated)
	if hours == "" {
		return text
	}
	return text + ", and " + hours + " over it"
}

// carriesNobody reports whether the rated load is too small for a platform that
// carries a person: whatever is held against it means little.
func (d *Dossier) carriesNobody() bool {
	return d.History.Rated > 0 && d.History.Rated < cause.LeastPlatform
}

func (d *Dossier) nobody() string {
	return "a rated load of " + Kg(float64(d.History.Rated)) + " carries no person; read the plate again, rated load and unit"
}

// mostRecorded is the highest load that was recorded.
func (d *Dossier) mostRecorded() string {
	most := 0.0
	for _, x := range d.Exceedances {
		most = max(most, float64(x.From))
	}
	if p := d.Capacity.Peak; p != nil {
		most = max(most, *p)
	}
	return Kg(most)
}

// refuseSmall makes a rated load that carries no person a finding that blocks.
func (d *Dossier) refuseSmall() {
	if !d.carriesNobody() {
		return
	}
	for i := range d.Findings {
		if f := &d.Findings[i]; f.Code == "plate-inconsistent" && f.Path == "machine/rated_load_kg" {
			f.Severity = record.Blocking
			f.Effect = "no cause is named and nothing is said to have gone over, or not to have, until it is known what the machine may carry"
		}
	}
}

// byVerdict says what came of the pieces: "the record supports tie-down over
// the platform as the cause of 1.9 h (strong support); the peak of 812 kg stays
// undecided".
func byVerdict(d *Dossier) string {
	var parts []string
	for _, verdict := range append(slices.Clone(cause.All), cause.Undecided) {
		subject, all := piecesWith(d, verdict)
		switch {
		case subject == "":
		case all && verdict == cause.Undecided:
			parts = append(parts, "the record alone does not say why"+leaning(d))
		case verdict == cause.Undecided:
			parts = append(parts, subject+" "+stay(subject)+" undecided")
		case all:
			parts = append(parts, "the record supports "+Phrase(verdict)+" as the cause of all of it ("+weakest(d, verdict)+")")
		default:
			parts = append(parts, "the record supports "+Phrase(verdict)+" as the cause of "+subject+" ("+weakest(d, verdict)+")")
		}
	}
	return strings.Join(parts, "; ")
}

// leaning says which cause fits best where nothing is named but one leads in
// every piece that surely went over; empty where none does.
func leaning(d *Dossier) string {
	var sure []*Exceedance
	for i := range d.Exceedances {
		if x := &d.Exceedances[i]; !x.MayBeUnder {
			sure = append(sure, x)
		}
	}
	if len(sure) == 0 || slices.ContainsFunc(sure, func(x *Exceedance) bool { return x.Leader != sure[0].Leader || x.Ratio.Value < alike || x.Beyond }) {
		return ""
	}
	return fmt.Sprintf(", but it fits %s best (%s times as well as the next best, which is not enough to name it)", Phrase(sure[0].Leader), spanOf(sure).values())
}

// weakest returns the words for the weakest support among the pieces with a verdict.
func weakest(d *Dossier, verdict cause.Cause) string {
	least := math.Inf(1)
	for _, x := range d.Exceedances {
		if x.Verdict == verdict {
			least = min(least, x.Ratio.Value)
		}
	}
	return cause.Words(least)
}

// piecesWith names the pieces with a verdict, and says whether they are all.
func piecesWith(d *Dossier, verdict cause.Cause) (subject string, all bool) {
	var peaks []string
	var low, high float64
	all = true
	for _, x := range d.Exceedances {
		switch {
		case x.Verdict != verdict:
			all = false
		case x.What == cause.Peak:
			peaks = append(peaks, digits(float64(*x.Peak), 0))
		default:
			low, high = low+x.Hours.Low, high+x.Hours.High
		}
	}
	var parts []string
	if high > 0 {
		over := d.Capacity.HoursOver[0] // pieces of withheld intervals may repeat hours
		parts = append(parts, HoursBetween(min(low, over.Low), min(high, over.High)))
	}
	switch len(peaks) {
	case 0:
	case 1:
		parts = append(parts, "the peak of "+peaks[0]+" kg")
	default:
		parts = append(parts, "the peaks of "+list(peaks, "and")+" kg")
	}
	return list(parts, "and"), all
}

// stay is the verb for what stays undecided.
func stay(subject string) string {
	if strings.HasPrefix(subject, "the peak of") {
		return "stays"
	}
	return "stay"
}

// Capital begins words with a capital letter.
func Capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

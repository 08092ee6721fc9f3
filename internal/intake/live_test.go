package intake_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"ratchetmark/internal/batch"
	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// Rows beyond those that are read ahead are read as they come, and what they
// repeat of the row above is passed over. The machine they are of is the same as
// where they stand at the beginning of a file.
func TestRowsReadAsTheyCome(t *testing.T) {
	for _, v := range []struct {
		name, head, filler string // filler has the number of its reading in it
		rows               []string
		alone              []string // the rows as they are to be read; nil: as they stand
	}{
		{name: "units in a column", head: "machine;rated_load_kg;reading_at;from;to;unit;hours", filler: "Z;230;%s;0;90;kg;1",
			rows: []string{"A;230;2026-03-02;0;100;kg;5", "A;230;2026-03-02;220.5;441;lb;6", "A;230;2026-03-02;300;;kg;7"}},
		{name: "minutes in a column", head: "machine;rated_load_kg;reading_at;from_kg;to_kg;hours;minutes", filler: "Z;230;%s;0;90;1;0",
			rows: []string{"A;230;2026-03-02;0;90;5;30", "A;230;2026-03-02;90;180;6;45", "A;230;2026-03-02;180;;7;"}},
		{name: "alarms that grow over the bands", head: "machine;rated_load_kg;reading_at;from_kg;to_kg;hours;overload alarms", filler: "Z;230;%s;0;90;1;0",
			rows: []string{"A;230;2026-03-02;0;90;5;0", "A;230;2026-03-02;90;180;6;3", "A;230;2026-03-02;180;230;7;1"}},
		{name: "a peak beside the second band", head: "machine;rated_load_kg;reading_at;peak_kg;from_kg;to_kg;hours", filler: "Z;230;%s;99;0;90;1",
			rows: []string{"A;;2026-03-02;;0;90;5", "A;230;2026-03-02;217;90;180;6", "A;;2026-03-02;;180;;7"}},
		{name: "a dash for what the row above says", head: "machine;rated_load_kg;reading_at;from_kg;to_kg;hours", filler: "Z;230;%s;0;90;1",
			rows:  []string{"A;230;2026-03-02;0;90;5", ";-;-;90;180;6", "-;;;180;;7"},
			alone: []string{"A;230;2026-03-02;0;90;5", "A;230;2026-03-02;90;180;6", "A;230;2026-03-02;180;;7"}},
		{name: "a date in either of two columns", head: "machine;rated_load_kg;reading_at;reading_date;from_kg;to_kg;hours", filler: "Z;230;%s;;0;90;1",
			rows: []string{"A;230;2026-03-02;;0;90;5", "A;230;-;2026-03-09;0;90;6", "A;230;2026-03-16;2026-03-09;0;90;7"}},
		{name: "a row twice, a blank one, a broken one", head: "machine;rated_load_kg;reading_at;from_kg;to_kg;hours", filler: "Z;230;%s;0;90;1",
			rows:  []string{"A;230;2026-03-02;0;90;5", "A;230;2026-03-02;0;90;5", "", "A;230;2026-03-02;90;180;6", `A;"x"y;2026-03-02;90;180;8`, "A;230;2026-03-02;180;;7"},
			alone: []string{"A;230;2026-03-02;0;90;5", "A;230;2026-03-02;90;180;6", "A;230;2026-03-02;180;;7"}},
		{name: "a row left out that begins another reading", head: "machine;rated_load_kg;reading_at;from_kg;to_kg;hours", filler: "Z;230;%s;0;90;1",
			rows:  []string{"A;230;2026-03-02;0;90;5", "A;230;2026-03-09;90;180", "A;230;2026-03-09;0;90;6"},
			alone: []string{"A;230;2026-03-02;0;90;5", "A;230;2026-03-09;0;90;6"}},
		{name: "rows in one cell each", head: `"machine  reading_at  from_kg  to_kg  hours"`, filler: `"Z  %s  0  90  1"`,
			rows: []string{`"A  2026-03-02  0  90  5"`, `"A  2026-03-02  90  180  6"`, `"A  2026-03-02  90  180  6"`}},
	} {
		alone := v.alone
		if alone == nil {
			alone = v.rows
		}
		var text strings.Builder
		text.WriteString(v.head + "\n")
		day := record.Date{}
		for i := range 1200 {
			day.Time = day.Time.AddDate(1999, 0, i)
			fmt.Fprintf(&text, v.filler+"\n", day)
			day = record.Date{}
		}
		text.WriteString(strings.Join(v.rows, "\n") + "\n")
		got, want := recordOf(t, text.String(), "A"), recordOf(t, v.head+"\n"+strings.Join(alone, "\n")+"\n", "A")
		if len(want.Case.Readings) == 0 || !reflect.DeepEqual(got.Case, want.Case) {
			t.Errorf("%s: got %+v, want %+v", v.name, got.Case, want.Case)
		}
		if got, want := messagesOf(got, "alarms-counted"), messagesOf(want, "alarms-counted"); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: got %q, want %q", v.name, got, want)
		}
	}
}

// recordOf reads a text and returns what it says of one machine.
func recordOf(t *testing.T, text, id string) batch.Record {
	t.Helper()
	read, err := intake.ReadBytes("x", []byte(text))
	if err != nil {
		t.Fatalf("%.200s: %v", text, err)
	}
	for _, r := range read.Records {
		if r.Case.Machine.ID == id {
			return r
		}
	}
	t.Fatalf("%.200s: got %d records, want one of %s", text, len(read.Records), id)
	return batch.Record{}
}

// messagesOf returns the messages of the findings with a code.
func messagesOf(r batch.Record, code string) (out []string) {
	for _, f := range r.Findings {
		if f.Code == code {
			out = append(out, f.Message)
		}
	}
	return out
}

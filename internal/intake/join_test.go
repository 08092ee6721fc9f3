package intake_test

import (
	"strings"
	"testing"

	"ratchetmark/internal/intake"
	"ratchetmark/internal/record"
)

// Two readings of one time are joined; a value then has the place it was read
// from, not that of one that was left out.
func TestPlaceOfJoinedValue(t *testing.T) {
	text := strings.Join([]string{"> 320 kg: 0 h", "Kind: scissor", "Reading: 2026-03-14T08:10:00Z", "Peak,2",
		"Reading: 2026-03-14T08:10:00Z", "Peak: 318 kg", "180-320 kg: 94 lb,4 h"}, "\n")
	for range 20 {
		batch, err := intake.ReadBytes("x", []byte(text))
		if err != nil || len(batch.Records) != 1 {
			t.Fatalf("got %v and %d records, want one", err, len(batch.Records))
		}
		r := batch.Records[0]
		if len(r.Case.Readings) != 1 || r.Case.Readings[0].Peak == nil || *r.Case.Readings[0].Peak != 318 {
			t.Fatalf("got %+v, want one reading with a peak of 318 kg", r.Case.Readings)
		}
		if at := r.Origins[record.Path("readings/1/peak_kg")]; at.Line != 6 {
			t.Fatalf("got the peak in line %d, want 6", at.Line)
		}
	}
}

package record

import (
	"math"
	"strconv"
	"time"
)

// Kilogram is a mass, or a load expressed as the mass that weighs as much.
type Kilogram float64

// Hour is a duration in hours, as hour meters count it.
type Hour float64

// Of returns a pointer to v: the form in which a value that may be missing is kept.
func Of[T any](v T) *T { return &v }

// Finite reports whether x is an ordinary number.
func Finite[T ~float64](x T) bool {
	return !math.IsNaN(float64(x)) && !math.IsInf(float64(x), 0)
}

// hourGrain is the step to which differences of hour counters are rounded, so
// that 412.5 - 301.2 is 111.3 and not 111.30000000000001. Machines count in
// steps of 0.1 h or one minute, both far above it.
const hourGrain = 1e6

// minus returns a - b on the hour grain.
func (a Hour) minus(b Hour) Hour {
	return Hour(math.Round(float64(a-b)*hourGrain) / hourGrain)
}

// Number writes x with as many digits as it has, for messages.
func Number[T ~float64](x T) string {
	return strconv.FormatFloat(float64(x), 'g', 12, 64)
}

// Date is a calendar day without a time of day.
type Date struct{ time.Time }

const dateForm = "2006-01-02"

// ParseDate reads a date as 2026-03-02.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(dateForm, s)
	return Date{t}, err
}

// String writes the date as 2026-03-02.
func (d Date) String() string { return d.Format(dateForm) }

// MarshalJSON hides the one of time.Time, which would write a time of day.
func (d Date) MarshalJSON() ([]byte, error) { return []byte(`"` + d.String() + `"`), nil }

// UnmarshalJSON reads the date as 2026-03-02.
func (d *Date) UnmarshalJSON(text []byte) error {
	day, err := time.Parse(`"`+dateForm+`"`, string(text))
	d.Time = day
	return err
}

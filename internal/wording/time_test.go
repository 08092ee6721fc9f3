package wording_test

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"ratchetmark/internal/wording"
)

const (
	anyOrder   = wording.UnknownOrder
	dayFirst   = wording.DayFirst
	monthFirst = wording.MonthFirst
)

var (
	cet    = time.FixedZone("", 3600)
	day    = time.Date(2026, 3, 2, 0, 0, 0, 0, time.UTC)
	moment = time.Date(2026, 3, 2, 8, 10, 0, 0, time.UTC)
)

func TestTime(t *testing.T) {
	for _, text := range []string{
		"2026-03-02", "2026/03/02", "2026.03.02", "2026-3-2", "20260302", "02.03.2026", "2.3.2026", "2. 3. 2026", " 2026-03-02 ",
		"2 Mar 2026", "2 March 2026", "02-Mar-2026", "2026-Mar-02", "2026 March 2", "Mar 2, 2026", "March 2nd, 2026", "2nd March 2026", "2nd of March 2026", "Mon, 2 Mar 2026", "Monday, March 2, 2026", "MAR 2 2026", "2/Mar/2026",
		"2. März 2026", "2. Maerz 2026", "2.Mrz.2026", "Montag, 2. März 2026", "Mo, 2. März 2026", "2. MÄRZ 2026", "2. Ma\u0308rz 2026",
		"2 mars 2026", "le 2 mars 2026", "lundi 2 mars 2026", "lun. 2 mars 2026", "2 de marzo de 2026", "2 marzo 2026", "lunes, 2 de marzo de 2026", "lunedì 2 marzo 2026", "2 mar. 2026", "2\u00a0mars\u00a02026",
	} {
		if got, zoned, clock, err := wording.Time(text, anyOrder, nil); err != nil || zoned || clock || !got.Equal(day) {
			t.Errorf("%q: got %v, %v, %v, %v, want %v without zone and clock", text, got, zoned, clock, err, day)
		}
	}
	for _, text := range []string{
		"2026-03-02T08:10:00", "2026-03-02T08:10", "2026-03-02 08:10:00", "2026-03-02 08:10", "2026-03-02 8:10", "2026-03-02, 08:10", "20260302T0810", "20260302T081000", "2026-03-02 08:10:00.000", "2026-03-02T08:10:00,0",
		"02.03.2026 08:10", "02.03.2026, 08:10 Uhr", "2. März 2026 um 08:10 Uhr", "2. März 2026, 8.10 Uhr", "Mar 2, 2026 8:10 AM", "Mar 2, 2026, 8:10\u202fa.m.", "March 2, 2026 at 8:10 am", "2 mars 2026 à 8h10", "2 mars 2026 08:10", "2 de marzo de 2026 a las 8:10", "2 marzo 2026 alle 8:10", "2 marzo 2026 ore 8.10", "2026-03-02 - 08:10",
	} {
		got, zoned, clock, err := wording.Time(text, anyOrder, cet)
		if want := moment.Add(-time.Hour); err != nil || zoned || !clock || !got.Equal(want) || got.Day() != 2 {
			t.Errorf("%q: got %v, %v, %v, %v, want %v, no zone", text, got, zoned, clock, err, want)
		}
	}
	for _, text := range []string{
		"2026-03-02T08:10:00Z", "2026-03-02T08:10:00z", "2026-03-02t08:10:00Z", "2026-03-02 08:10Z", "2026-03-02T09:10:00+01:00", "2026-03-02T09:10:00+0100", "2026-03-02T09:10:00+01", "2026-03-02 09:10 +01:00", "20260302T081000Z", "2026-03-01T23:10:00-09:00", "2026-03-02 08:10 UTC", "2026-03-02 09:10 UTC+01:00", "2026-03-02 08:10:00 GMT", "2026-03-02T08:10:00-00:00", "2.3.2026 09:10 +01:00", "2026-03-02T13:55:00+05:45",
	} {
		if got, zoned, clock, err := wording.Time(text, anyOrder, cet); err != nil || !zoned || !clock || !got.Equal(moment) {
			t.Errorf("%q: got %v, %v, %v, %v, want %v with a zone", text, got, zoned, clock, err, moment)
		}
	}
}

func TestTimeOrder(t *testing.T) {
	march, february := day, time.Date(2026, 2, 3, 0, 0, 0, 0, time.UTC)
	for _, c := range []struct {
		text    string
		order   wording.Order
		want    time.Time
		proves  wording.Order
		twoWays bool
	}{
		{"02/03/2026", dayFirst, march, anyOrder, true}, {"02/03/2026", monthFirst, february, anyOrder, true}, {"02-03-2026", dayFirst, march, anyOrder, true}, {"3/2/2026 8:10 AM", monthFirst, moment, anyOrder, true},
		{"03/03/2026", anyOrder, march.AddDate(0, 0, 1), anyOrder, false}, {"25/03/2026", anyOrder, time.Date(2026, 3, 25, 0, 0, 0, 0, time.UTC), dayFirst, false}, {"03/25/2026", anyOrder, time.Date(2026, 3, 25, 0, 0, 0, 0, time.UTC), monthFirst, false}, {"25/03/2026", monthFirst, time.Date(2026, 3, 25, 0, 0, 0, 0, time.UTC), dayFirst, false},
		{"02.03.2026", monthFirst, march, dayFirst, false}, {"2026-03-02", monthFirst, march, anyOrder, false}, {"2 Mar 2026", monthFirst, march, anyOrder, false}, {"Mon 25/03/2026", anyOrder, time.Date(2026, 3, 25, 0, 0, 0, 0, time.UTC), dayFirst, false},
	} {
		if got, _, _, err := wording.Time(c.text, c.order, nil); err != nil || !got.Equal(c.want) {
			t.Errorf("%q, %v: got %v, %v, want %v", c.text, c.order, got, err, c.want)
		}
		if o, twoWays := wording.OrderOf(c.text); o != c.proves || twoWays != c.twoWays {
			t.Errorf("order of %q: got %v, %v, want %v, %v", c.text, o, twoWays, c.proves, c.twoWays)
		}
		if _, _, _, err := wording.Time(c.text, anyOrder, nil); errors.Is(err, wording.ErrAmbiguous) != c.twoWays {
			t.Errorf("%q: got %v, want two ways %v", c.text, err, c.twoWays)
		}
	}
	for _, text := range []string{"", "x", "32/13/2026", "00/01/2026", "13/13/2026", "03.25.2026", "2/3/26", "12.5", "31/02/2026"} {
		if o, twoWays := wording.OrderOf(text); o != anyOrder || twoWays {
			t.Errorf("order of %q: got %v, %v, want none", text, o, twoWays)
		}
	}
}

func TestTimeRefused(t *testing.T) {
	for text, fault := range map[string]string{
		"": "is not a time", "soon": "is not a time", "March 2": "is not a time", "12:30": "is not a time", "412.6": "is not a time", "2026": "is not a time", "2026-03": "is not a time", "2/3-2026": "is not a time", "2 Foo 2026": "is not a time", "20260302081000": "is not a time", "12026-03-02": "is not a time", "2026-W10-1": "is not a time",
		"3/2/26": "two digits", "02.03.26 08:10": "two digits", "2 Mar 26": "two digits", "1969-12-31": "outside the years", "2101-01-01": "outside the years", "1899-12-31T00:00:00Z": "outside the years", "2026-02-30": "calendar", "2026-13-01": "calendar", "31.02.2026": "calendar", "03.25.2026": "calendar", "29 Feb 2025": "calendar", "2026-00-10": "calendar", "13/13/2026": "calendar",
		"2026-03-02T25:10:00Z": "no time of day", "2026-03-02T24:00:00Z": "no time of day", "2026-03-02T08:60:00Z": "no time of day", "2026-03-02T08:10:61Z": "no time of day", "2026-03-02 13:10 PM": "no time of day", "2026-03-02 0:10 AM": "no time of day", "2026-03-02Z": "no time of day", "2026-03-02 8": "no time of day", "2026-03-02 soon": "no time of day",
		"2026-03-02T08:10:00+24:00": "not an offset", "2026-03-02 08:10 CET": "not an offset", "2026-03-02T08:10:00+1:00": "not an offset", "2026-03-02T08:10:00+01:75": "not an offset", "2026-03-02T08:10:60Z": "second 60",
	} {
		if got, _, _, err := wording.Time(text, anyOrder, nil); err == nil || !strings.Contains(err.Error(), fault) {
			t.Errorf("%q: got %v, %v, want %s", text, got, err, fault)
		}
	}
	if got, _, _, err := wording.Time("2026-03-02 08:10", anyOrder, time.FixedZone("", 30*3600)); err == nil {
		t.Errorf("a zone of 30 hours: got %v, want an error", got)
	}
}

// RFC 3339, 5.8: the examples; those of 1985, 1990 and 1996 are read, two of
// them leap seconds, the one of 1937 is outside the years of a record.
func TestTimeRFC3339(t *testing.T) {
	for text, want := range map[string]time.Time{
		"1985-04-12T23:20:50.52Z": time.Date(1985, 4, 12, 23, 20, 50, 520_000_000, time.UTC), "1996-12-19T16:39:57-08:00": time.Date(1996, 12, 20, 0, 39, 57, 0, time.UTC),
		"1990-12-31T23:59:60Z": time.Date(1991, 1, 1, 0, 0, 0, 0, time.UTC), "1990-12-31T15:59:60-08:00": time.Date(1991, 1, 1, 0, 0, 0, 0, time.UTC),
	} {
		if got, _, _, err := wording.Time(text, anyOrder, nil); err != nil || !got.Equal(want) {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
		}
	}
	if got, _, _, err := wording.Time("1937-01-01T12:00:27.87+00:20", anyOrder, nil); err == nil {
		t.Errorf("1937: got %v, want an error", got)
	}
}

// ISO 8601-1:2019: basic and extended forms of a date and of a date with a time
// say the same. The day is the standard's own example, from memory.
func TestTimeISO8601(t *testing.T) {
	for basic, extended := range map[string]string{"19850412": "1985-04-12", "19850412T101530": "1985-04-12T10:15:30", "19850412T1015Z": "1985-04-12T10:15Z", "19850412T101530+0400": "1985-04-12T10:15:30+04:00", "19850412T101530,5": "1985-04-12T10:15:30.5"} {
		a, _, _, errA := wording.Time(basic, anyOrder, nil)
		b, _, _, errB := wording.Time(extended, anyOrder, nil)
		if errA != nil || errB != nil || !a.Equal(b) {
			t.Errorf("%q, %q: got %v, %v and %v, %v, want the same", basic, extended, a, errA, b, errB)
		}
	}
}

// The names of the months, wide and abbreviated: Unicode CLDR, dates, from memory.
func TestMonths(t *testing.T) {
	for _, list := range []string{
		"January February March April May June July August September October November December", "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec",
		"Januar Februar März April Mai Juni Juli August September Oktober November Dezember", "Jan. Feb. März Apr. Mai Juni Juli Aug. Sept. Okt. Nov. Dez.", "Jänner Feber Mär Apr Mai Jun Jul Aug Sep Okt Nov Dez",
		"janvier février mars avril mai juin juillet août septembre octobre novembre décembre", "janv. févr. mars avr. mai juin juil. août sept. oct. nov. déc.",
		"enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre", "ene feb mar abr may jun jul ago sept oct nov dic",
		"gennaio febbraio marzo aprile maggio giugno luglio agosto settembre ottobre novembre dicembre", "gen feb mar apr mag giu lug ago set ott nov dic",
	} {
		for i, name := range strings.Fields(list) {
			want := time.Date(2026, time.Month(i+1), 25, 0, 0, 0, 0, time.UTC)
			for _, text := range []string{"25 " + name + " 2026", strings.ToUpper(name) + " 25, 2026", "25. " + name + " 2026"} {
				if got, _, _, err := wording.Time(text, anyOrder, nil); err != nil || !got.Equal(want) {
					t.Errorf("%q: got %v, %v, want %v", text, got, err, want)
				}
			}
		}
	}
}

// A time written in any of the forms is read as itself.
func TestTimeRoundTrip(t *testing.T) {
	forms := []string{time.RFC3339, time.RFC3339Nano, "2006-01-02T15:04:05Z0700", "20060102T150405Z07:00", "02.01.2006 15:04:05 Z07:00", "2 January 2006 15:04:05 -0700", "January 2, 2006 3:04:05 PM -07:00", "2006/01/02 15:04:05 Z07:00", time.RFC1123Z, "Monday, 02-Jan-2006 15:04:05 -0700"}
	random := rand.New(rand.NewPCG(3, 4))
	for range 20000 {
		want := time.Unix(random.Int64N(4_102_444_800-86400)+43200, 0).In(time.FixedZone("", (random.IntN(47)-23)*1800))
		form := forms[random.IntN(len(forms))]
		if got, zoned, clock, err := wording.Time(want.Format(form), anyOrder, nil); err != nil || !zoned || !clock || !got.Equal(want) {
			t.Fatalf("%q: got %v, %v, want %v", want.Format(form), got, err, want)
		}
		for order, form := range map[wording.Order]string{dayFirst: "02/01/2006 15:04", monthFirst: "1/2/2006 3:04 PM"} {
			text := want.Format(form)
			if got, _, _, err := wording.Time(text, order, want.Location()); err != nil || !got.Equal(want.Truncate(time.Minute)) {
				t.Fatalf("%q, %v: got %v, %v, want %v", text, order, got, err, want)
			}
		}
	}
}

func TestDaytime(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"08:10": 490, "8:10": 490, "08:10:00": 490, "8.10 Uhr": 490, "8:10 Uhr": 490, "8:10 AM": 490, "8:10am": 490, "8h10": 490, "8 h 10": 490, "8h10 min": 490, "ore 8.10": 490, "a las 8:10": 490, "08:10 h": 490, "08:10 hrs": 490,
		"8:10 PM": 1210, "8:10\u202fp.m.": 1210, "8:10 p. m.": 1210, "20:10": 1210, "8 Uhr": 480, "8 PM": 1200, "8 h": 480, "12:00 AM": 0, "12:00 PM": 720, "12:30 am": 30, "0:00": 0, "23:59": 1439,
	} {
		if got, err := wording.Daytime(text); err != nil || got != want*time.Minute {
			t.Errorf("%q: got %v, %v, want %v", text, got, err, want*time.Minute)
		}
	}
	if got, err := wording.Daytime("08:10:30.25"); err != nil || got != 490*time.Minute+30250*time.Millisecond {
		t.Errorf("seconds: got %v, %v", got, err)
	}
	for _, text := range []string{"", "8", "8.10", "0810", "24:00", "8:60", "8:1", "13:00 PM", "0:10 AM", "23:59:60", "08:10 CET", "8:10 kg", "112:30", "-8:10", "2026-03-02"} {
		if got, err := wording.Daytime(text); err == nil {
			t.Errorf("%q: got %v, want an error", text, got)
		}
	}
}

func TestHeadingOrder(t *testing.T) {
	for heading, want := range map[string]wording.Order{
		"Date (dd/mm/yyyy)": dayFirst, "Datum TT.MM.JJJJ": dayFirst, "Date [jj/mm/aaaa]": dayFirst, "Data (gg/mm/aaaa)": dayFirst, "Fecha dd-mm-aaaa": dayFirst, "Date (MM/DD/YYYY)": monthFirst, "m/d/yyyy h:mm": monthFirst,
		"Date": anyOrder, "yyyy-mm-dd": anyOrder, "": anyOrder, "hh:mm": anyOrder,
	} {
		if got := wording.HeadingOrder(heading); got != want {
			t.Errorf("%q: got %v, want %v", heading, got, want)
		}
	}
}

func BenchmarkTime(b *testing.B) {
	for _, text := range []string{"2026-03-02T08:10:00Z", "2026-03-02 08:10", "02.03.2026 08:10", "2. März 2026"} {
		b.Run(text, func(b *testing.B) {
			for b.Loop() {
				_, _, _, _ = wording.Time(text, anyOrder, nil)
			}
		})
	}
}

func FuzzTime(f *testing.F) {
	for _, s := range []string{"2026-03-02T08:10:00Z", "02.03.2026 08:10", "3/2/2026 8:10 PM", "2. März 2026 um 8.10 Uhr", "mar. 3 mars 2026", "1990-12-31T23:59:60Z", "20260302T081000+0100", "2026-03-02 08:10 UTC-05:00", "8h10", "Date (dd/mm/yyyy)"} {
		f.Add(s, byte(0))
		f.Add(s, byte(1))
	}
	f.Fuzz(func(t *testing.T, s string, order byte) {
		got, _, _, err := wording.Time(s, wording.Order(order%3), cet)
		if err == nil {
			text, bad := got.MarshalText()
			if bad != nil || got.Year() < 1970 || got.Year() > 2101 {
				t.Fatalf("%q: got %v, %v, want a time that can be written", s, got, bad)
			}
			if again, _, _, err := wording.Time(string(text), anyOrder, nil); (err != nil || !again.Equal(got)) && got.Year() <= 2100 {
				t.Fatalf("%q: got %v, %v when read again, want %v", s, again, err, got)
			}
		}
		if d, err := wording.Daytime(s); err == nil && (d < 0 || d >= 24*time.Hour) {
			t.Fatalf("%q: got %v, want a time within a day", s, d)
		}
		wording.OrderOf(s)
		wording.HeadingOrder(s)
	})
}

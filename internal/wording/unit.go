package wording

import "strings"

// Unit is what a number counts. The zero value is none.
type Unit byte

// The units that are known.
const (
	NoUnit   Unit = iota
	Kilogram      // load, as the mass that weighs as much
	Pound         // the international avoirdupois pound
	Tonne         // 1000 kg
	Hour
	Minute
	Second
	Clock   // hours and minutes of a duration, as 12:30 or 112:30:15
	Percent // of whatever the heading says
	KiloNewton
	DecaNewton
)

// units says what a unit is called and what one of it is in kg, h or as a share.
var units = [...]struct {
	name string
	base float64
}{
	NoUnit:   {"", 1},
	Kilogram: {"kg", 1},
	Pound:    {"lb", 0.45359237}, // exactly; NIST SP 811:2008, appendix B.8; agreement of 1959
	Tonne:    {"t", 1000},
	Hour:     {"h", 1},
	Minute:   {"min", 1.0 / 60},
	Second:   {"s", 1.0 / 3600},
	Clock:    {"h:mm", 1},
	Percent:  {"%", 0.01},
	// A force as the mass that weighs as much at the conventional acceleration of
	// free fall, 9.80665 m/s² (3rd CGPM, 1901; from memory).
	KiloNewton: {"kN", 1000 / StandardGravity},
	DecaNewton: {"daN", 10 / StandardGravity},
}

// StandardGravity is the conventional acceleration of free fall, m/s².
const StandardGravity = 9.80665

// String writes the symbol, nothing for no unit.
func (u Unit) String() string {
	if int(u) < len(units) {
		return units[u].name
	}
	return ""
}

// MarshalText writes the symbol.
func (u Unit) MarshalText() ([]byte, error) { return []byte(u.String()), nil }

// UnmarshalText reads what [Unit.MarshalText] wrote.
func (u *Unit) UnmarshalText(text []byte) error {
	for i := range units {
		if units[i].name == string(text) {
			*u = Unit(i)
			return nil
		}
	}
	return &Unreadable{Text: string(text), Fault: "is not a unit", Expected: "kg, lb, t, kN, daN, h, min, s, h:mm or %", Hint: "leave it out where the cells name their unit"}
}

// IsLoad reports whether the unit counts loads.
func (u Unit) IsLoad() bool {
	return u == Kilogram || u == Pound || u == Tonne || u.IsForce()
}

// IsForce reports whether the unit counts loads as forces.
func (u Unit) IsForce() bool { return u == KiloNewton || u == DecaNewton }

// IsTime reports whether the unit counts durations.
func (u Unit) IsTime() bool { return u == Hour || u == Minute || u == Second || u == Clock }

// In returns x of this unit in kg, in h or as a share of 1; x itself for no
// unit. Minutes, seconds and percent are divided, so that 45 min are 0.75 h.
func (u Unit) In(x float64) float64 {
	switch u {
	case Minute:
		return x / 60
	case Second:
		return x / 3600
	case Percent:
		return x / 100
	}
	if int(u) < len(units) {
		return x * units[u].base
	}
	return x
}

// unitWords are the symbols and names of units, folded. A name can be the last
// word of a heading without being set apart from it ("powered hours"). From
// memory: general usage, no source.
//
// Left out because they mean more than one thing: ton (2000 lb, 2240 lb or
// 1000 kg), Pfund and livre (500 g in common use), m (metres, unless it follows
// hours), to (a German tonne, an English preposition), and min alone in a heading about loads, where it is a minimum.
var unitWords = []struct {
	unit           Unit
	symbols, names string
}{
	{Kilogram, "kg kgs kgf kp kilo kilos", "kilogram kilograms kilogramme kilogrammes kilogramm kilogramo kilogramos chilogrammo chilogrammi chilo chili"},
	{Pound, "lb lbs lbf", "pound pounds libra libras libbra libbre"},
	{KiloNewton, "kn", "kilonewton kilonewtons"},
	{DecaNewton, "dan", "decanewton decanewtons dekanewton"},
	{Tonne, "t", "tonne tonnes tonnen tonelada toneladas tonnellata tonnellate"},
	{Hour, "h hr hrs std", "hour hours stunde stunden heure heures hora horas ora ore"},
	{Minute, "min mins mn", "minute minutes minuten minuto minutos minuti"},
	{Second, "s sec secs sek seg", "second seconds sekunde sekunden seconde secondes segundo segundos secondo secondi"},
	{Clock, "h:mm hh:mm h:mm:ss hh:mm:ss hhh:mm hhh:mm:ss hhhh:mm h:m h:min std:min hh:mm:ss.s", ""},
	{Percent, "% pct v.h.", "percent per-cent prozent pourcent pour-cent por-ciento per-cento"},
}

// unitOf finds the unit that a folded text names; name reports whether by its
// name rather than its symbol. A full stop after an abbreviation counts for nothing.
func unitOf(s string) (u Unit, name, ok bool) {
	if len(s) > 1 && s != "v.h." {
		s = strings.TrimSuffix(s, ".")
	}
	if s == "" {
		return NoUnit, false, false
	}
	s = strings.ReplaceAll(s, " ", "-")
	for _, row := range unitWords {
		if hasWord(row.symbols, s) {
			return row.unit, false, true
		}
		if hasWord(row.names, s) {
			return row.unit, true, true
		}
	}
	return NoUnit, false, false
}

// hasWord reports whether a list of words divided by spaces has the word.
func hasWord(list, word string) bool {
	for at := 0; word != ""; {
		i := strings.Index(list[at:], word)
		if i < 0 {
			return false
		}
		i += at
		end := i + len(word)
		if (i == 0 || list[i-1] == ' ') && (end == len(list) || list[end] == ' ') {
			return true
		}
		at = i + 1
	}
	return false
}

package capacity

import "ratchetmark/internal/record"

// Unit is the unit a mass or a value of a rule is stated in.
type Unit string

// The units of the rules.
const (
	Kg       Unit = "kg"
	Lb       Unit = "lb"
	Percent  Unit = "% of rated load"
	Metre    Unit = "m"
	Newton   Unit = "N"
	Floor    Unit = "% of the floor"
	Pressure Unit = "kN/m²"
)

// KgPerLb is the international pound of 1959, exact by definition (from memory).
const KgPerLb = 0.45359237

// Mass is a mass as a person wrote it.
type Mass struct {
	Value float64
	Unit  Unit // Lb, else kilograms
}

// Kilograms returns the mass in kg.
func (m Mass) Kilograms() record.Kilogram {
	if m.Unit == Lb {
		return record.Kilogram(m.Value * KgPerLb)
	}
	return record.Kilogram(m.Value)
}

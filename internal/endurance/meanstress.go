package endurance

// Mean-stress corrections turn the amplitude of a cycle about a mean stress into
// the one at fully reversed stress that does the same damage. They hold for
// details without residual stress; those of welds hold the mean stress high
// whatever the load, so for details as welded there is none.

// Goodman returns the factor on the amplitude, 1/(1 - mean/ultimate). ok is
// false where the mean reaches the ultimate strength. A mean below zero earns
// no credit. (Goodman 1899, from memory)
func Goodman(mean, ultimate float64) (factor float64, ok bool) {
	return corrected(max(mean, 0) / ultimate)
}

// Gerber returns the factor on the amplitude, 1/(1 - (mean/ultimate)²).
// (Gerber 1874, from memory)
func Gerber(mean, ultimate float64) (factor float64, ok bool) {
	x := max(mean, 0) / ultimate
	return corrected(x * x)
}

func corrected(used float64) (float64, bool) {
	if !(used < 1) {
		return 0, false
	}
	return 1 / (1 - used), true
}

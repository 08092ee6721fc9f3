package score

// NoClass is the truth of a forecast in which none of its classes is right.
const NoClass = -1

// Forecast is the probabilities given to classes, 0 to 1 each, and the index
// of the class that is true, or NoClass.
type Forecast struct {
	P     []float64
	Truth int
}

// Brier returns the score of a forecast: the sum over the classes of the
// square of what its probability is off by. 0 is perfect, 2 is certain and
// wrong. With NoClass every probability is wrong as it stands.
//
// Brier 1950, Monthly Weather Review 78, equation 2, for one occasion (memory).
func (f Forecast) Brier() float64 {
	var sum float64
	for k, p := range f.P {
		if k == f.Truth {
			p--
		}
		sum += p * p
	}
	return sum
}

// Brier returns the mean score of forecasts; nil when there is none.
func Brier(all []Forecast) *float64 {
	return mean(len(all), func(i int) float64 { return all[i].Brier() })
}

// mean returns the mean of n figures; nil when there is none.
func mean(n int, of func(i int) float64) *float64 {
	if n == 0 {
		return nil
	}
	var sum float64
	for i := range n {
		sum += of(i)
	}
	sum /= float64(n)
	return &sum
}

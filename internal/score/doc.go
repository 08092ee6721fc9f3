// Package score measures how good probabilities and verdicts are against what
// is known to be true. It knows nothing of machines or causes: it takes
// probabilities, likelihood ratios and labels.
//
// Where there is nothing to take a figure from, the figure is nil.
package score

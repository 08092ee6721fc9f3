// Package spectrum reads a stress spectrum with its curve, as the command takes
// them, and works out the damage. It reads row by row, so that a spectrum may
// have a million of them.
package spectrum

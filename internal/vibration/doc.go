// Package vibration works out what a random vibration does to a structure that
// answers in one mode: published spectra of truck floors, the response of the
// mode, and the damage of the response by two methods. Levels are in g²/Hz,
// frequencies in Hz.
package vibration

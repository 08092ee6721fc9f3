// Package record holds what a mobile elevating work platform (MEWP) keeps
// about its loads, as a person reads it off the machine: readings of the
// counters, who had the machine, what else was logged.
//
// It checks a record before anything is concluded from it ([Check]) and lays
// the readings out as intervals with their exact bounds ([Lay]). It mends
// nothing: what does not fit is a [Finding] with a place and a consequence.
//
// All loads are kilograms, all durations hours, all times RFC 3339.
package record

// Package simulate invents lives of machines whose causes are known, so that
// what is inferred from a record can be scored against what happened.
//
// A life runs in time: depot, trips, hires, workshop, one episode of load after
// the other. A load cell with errors of its own reads each true load, and the
// machine's counters turn the readings into bands, hour meters and a peak. What
// is then written down is a case like any other; the truth is kept beside it.
//
// The package knows nothing of how causes are inferred, and the other way
// round. Its parameters are rows of one table (parameters.go), wider than what
// is published, with structure that a simple model does not know: the same crew
// day after day, a haulier who lashes over the rails only at times, material
// left on a powered platform overnight, snow, test weights at the workshop.
// They are assumptions, and so are the base rates that follow from them.
package simulate

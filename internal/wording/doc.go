// Package wording reads what people write in headings and cells: numbers,
// quantities with units, times, labels of load bands, and the words of
// headings in English, German, French, Spanish and Italian.
//
// Nothing is guessed. What can be read in two ways is refused with
// [ErrAmbiguous] until the caller says which way it is meant; what proves a way
// is told by [MarkOf] and [OrderOf]. No function keeps any state, none returns
// a number that is not finite.
package wording

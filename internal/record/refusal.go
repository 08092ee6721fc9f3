package record

import "fmt"

// Refusal says why a file could not be read at all.
type Refusal struct {
	File     string `json:"file"`
	Line     int    `json:"line"` // 0: the whole file
	Column   int    `json:"column"`
	Found    string `json:"found"`
	Expected string `json:"expected"`
	Hint     string `json:"hint"`
}

// Error writes the refusal as "file:line:column: found; expected ...".
func (r *Refusal) Error() string {
	return fmt.Sprintf("%s: %s; expected %s", r.Place(), r.Found, r.Expected)
}

// Place writes where the fault was found.
func (r *Refusal) Place() string {
	return Origin{File: r.File, Line: r.Line, Column: r.Column}.String()
}

package assume

// Computed is the status of a value that follows from others; Own of what this
// program asks for without a document that does.
const (
	Computed Status = "computed from the values named"
	Own      Status = "a rule of this program, not of a standard"
)

// Source is where a value or a statement stands, and how it is known.
type Source struct {
	Document string `json:"document"`
	Edition  string `json:"edition,omitempty"`
	Clause   string `json:"clause,omitempty"`
	Status   Status `json:"status"`
}

// String writes the source as "ANSI/SAIA A92.20" or "EN 280-1:2022, 4.2".
func (s Source) String() string {
	text := s.Document
	switch {
	case s.Edition == "":
	case s.Edition[0] >= '0' && s.Edition[0] <= '9':
		text += ":" + s.Edition
	default: // "May 2014"
		text += ", " + s.Edition
	}
	if s.Clause != "" {
		text += ", " + s.Clause
	}
	return text
}

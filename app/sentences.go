package app

// Sentences is a list of sentences, each set off from the next.
type Sentences struct{ All []string }

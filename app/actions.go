package app

import "ratchetmark/app/model"

// Actions is a row of buttons.
type Actions struct {
	Model *model.Model
	All   []action
	Class string // beside the usual one; may be empty
}

func (c *Actions) class() string { return "row-actions " + c.Class }

// action is a button: its id, its words, and what it does.
type action struct {
	id, words string
	do        func()
	name      string // for a screen reader, where the words alone do not say it
	class     string
	folds     fold // whether it opens and closes something
	off       bool // cannot be pressed now
}

// fold is what a button that opens and closes something says about it.
type fold int

const (
	foldsNothing fold = iota
	foldedNow
	openNow
)

// foldOf returns what a button says about a thing that is open or not.
func foldOf(open bool) fold {
	if open {
		return openNow
	}
	return foldedNow
}

// label returns the name for a screen reader; nil leaves the attribute out.
func (a action) label() any {
	if a.name == "" {
		return nil
	}
	return a.name
}

// expanded returns the state for a screen reader; nil leaves the attribute out.
func (a action) expanded() any {
	switch a.folds {
	case openNow:
		return "true"
	case foldedNow:
		return "false"
	}
	return nil
}

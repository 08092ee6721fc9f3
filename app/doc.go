// Package app is what a person sees: one sheet, led by questions. Its
// components are views of a model.Model, which holds all state; a .vugu file is
// the markup of a component, the .go file of the same name its type.
package app

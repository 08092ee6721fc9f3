package app

import "ratchetmark/app/model"

// Knobs is a row of things that a person sets about how the machine rides.
type Knobs struct {
	Model *model.Model
	Specs []model.RideField
}

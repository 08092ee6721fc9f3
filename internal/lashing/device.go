package lashing

import "ratchetmark/internal/assume"

// Device is something a lashing is tightened with: the tension it leaves on its
// own side, in daN, when a person pulls it tight (Low, Usual, High).
type Device struct {
	ID, Name         string
	Low, Usual, High float64 // tension, daN
	Source           assume.Source
}

// Devices lists what is told apart, the weakest first.
var Devices = []Device{
	{ID: "web-25", Name: "25 mm ratchet strap", Low: 40, Usual: 80, High: 150,
		Source: assume.Source{Document: "tension about proportional to a hand force of 25 daN", Status: assume.Guess}},
	{ID: "web-35", Name: "35 mm ratchet strap", Low: 100, Usual: 180, High: 250,
		Source: assume.Source{Document: "between the 25 mm and the 50 mm strap", Status: assume.Guess}},
	{ID: "web-50", Name: "50 mm ratchet strap with short handle", Low: 250, Usual: 300, High: 350,
		Source: assume.Source{Document: "marked STF at 50 daN hand force, EN 12195-2", Status: assume.Restated}},
	{ID: "web-50-long", Name: "50 mm ratchet strap with long lever", Low: 500, Usual: 500, High: 1000,
		Source: assume.Source{Document: "marked STF at 50 daN hand force, EN 12195-2", Status: assume.Restated}},
	{ID: "chain-8", Name: "8 mm chain with binder", Low: 200, Usual: 1000, High: 2000,
		Source: assume.Source{Document: "BGHM-I 108: at least 0.25 LC by the tensioner; 0.05 to 0.5 LC allowed (restated)", Status: assume.Restated}},
	{ID: "chain-10", Name: "10 mm chain with binder", Low: 315, Usual: 1575, High: 3150,
		Source: assume.Source{Document: "BGHM-I 108: at least 0.25 LC by the tensioner; 0.05 to 0.5 LC allowed (restated)", Status: assume.Restated}},
	{ID: "chain-13", Name: "13 mm chain with binder", Low: 500, Usual: 1500, High: 5000,
		Source: assume.Source{Document: "BGHM-I 108: at least 0.15 LC by the tensioner; 0.05 to 0.5 LC allowed (restated)", Status: assume.Restated}},
}

// DeviceOf returns a device by its ID; nil where there is none.
func DeviceOf(id string) *Device {
	for i := range Devices {
		if Devices[i].ID == id {
			return &Devices[i]
		}
	}
	return nil
}

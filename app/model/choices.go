package model

import "ratchetmark/internal/record"

// Choice is one of the words that a field offers.
type Choice struct{ Value, Words string }

// choices are the words offered, by part and name of the field.
var choices = map[Part]map[string][]Choice{
	OfMachine: {"kind": {
		{string(record.Boom), "Boom lift"}, {string(record.Scissor), "Scissor lift"},
		{string(record.Mast), "Mast lift"}, {string(record.Other), "Another kind"},
	}},
	OfCustody: {"holder": {
		{string(record.Hire), "On hire"}, {string(record.Transit), "In transit"},
		{string(record.Depot), "Depot"}, {string(record.Workshop), "Workshop"},
	}},
	OfCheck: {"kind": {
		{string(record.ZeroCheck), "Nothing"}, {string(record.MassCheck), "A known mass"},
	}},
	OfTieDown: {
		"over_platform": {{"yes", "Yes"}, {"no", "No"}},
		"how": {
			{string(record.Seen), "Seen"}, {string(record.Pictured), "On a photo"},
			{string(record.Papers), "From a paper"}, {string(record.ToldOf), "The crew told"},
		},
	},
	OfEvent: {"kind": {
		{string(record.OverloadAlarm), "Overload alarm"}, {string(record.TiltAlarm), "Tilt alarm"},
		{string(record.PowerOn), "Power on"}, {string(record.PowerOff), "Power off"}, {string(record.PeakRise), "Peak rose"},
	}},
}

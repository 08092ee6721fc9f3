package lashing

import "ratchetmark/internal/assume"

// Pair is two surfaces with the friction between them.
type Pair struct {
	ID, Words string
	Mu        float64
	Source    assume.Source
}

var en12195 = assume.Source{Document: "EN 12195-1", Edition: "2010", Clause: "Annex B", Status: assume.Restated}

// Pairs lists what can be under the wheels, the most slippery first. The table of
// the standard has sawn wood, not wheels: that its values are taken is said.
var Pairs = []Pair{
	{"frost", "deck not swept, wet with oil, ice or frost", 0.20, en12195},
	{"steel", "bare steel deck (as sawn wood on steel)", 0.30, en12195},
	{"plywood", "plywood deck, swept (as sawn wood on plywood)", 0.45, en12195},
	{"tyres", "tyres on a low-loader, assumed in an example of the GDV handbook", 0.50, assume.Source{Document: "GDV handbook", Clause: "4.1.6", Status: assume.Read}},
	{"rubber", "rubber mats under all wheels, swept", 0.60, en12195},
}

// MostFriction is the highest friction that any row of the table gives.
const MostFriction = 0.60

// Edges lists what a strap bends over at the platform. That it comes to about
// 0.2 on steel and 0.3 on rough edges is from memory; the intervals are guesses.
var Edges = []struct {
	ID, Words string
	Edge      Edge
}{
	{"roller", "smooth rounded corner protector", Edge{0.05, 0.1, 0.2}},
	{"rail", "painted or galvanised rail", Edge{0.1, 0.2, 0.3}},
	{"rough", "rough or sharp edge, rubber", Edge{0.2, 0.3, 0.5}},
}

// EdgeSource says how the friction of edges is known.
var EdgeSource = assume.Source{Document: "friction of webbing over edges, about 0.2 to 0.3", Status: assume.Memory}

// EdgeOf returns an edge by its ID; that of a painted rail where there is none.
func EdgeOf(id string) Edge {
	for _, e := range Edges {
		if e.ID == id {
			return e.Edge
		}
	}
	return Edges[1].Edge
}

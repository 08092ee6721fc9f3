package bodymass

import (
	"ratchetmark/internal/assume"
	"ratchetmark/internal/record"
)

// percents are the percentiles of the published tables.
var percents = [...]float64{5, 10, 15, 25, 50, 75, 85, 90, 95}

// Table is a published table of body mass, in kg.
type Table struct {
	Group  string
	Mean   float64
	Error  float64 // standard error of the mean
	Mass   [len(percents)]float64
	Source assume.Source
}

// Percents returns the percentiles of the tables, in percent.
func Percents() []float64 { return percents[:] }

var nhanes = assume.Source{
	Document: "NCHS, Vital and Health Statistics, Series 3 No. 50", Edition: "2025",
	Clause: "Table 3, NHANES August 2021 to August 2023", Status: assume.Read,
}

// The tables. Measured in light clothing without shoes (from memory): what is
// worn at work comes on top.
var (
	menTable = Table{"men of 20 years and more, United States", 90.3, 0.9,
		[...]float64{60.9, 66.6, 70.0, 75.4, 86.6, 100.6, 111.0, 118.8, 131.8}, nhanes}
	womenTable = Table{"women of 20 years and more, United States", 77.9, 0.8,
		[...]float64{50.7, 54.7, 57.8, 62.6, 73.5, 89.2, 99.9, 107.2, 119.2}, nhanes}
)

// Tables returns the published tables: men, women.
func Tables() []Table { return []Table{menTable, womenTable} }

// Population is another group of people, of whom a mean is known: a table
// shifted so that its mean is theirs. That its spread is the same is an
// assumption.
type Population struct {
	ID, Name           string
	Women              bool
	Mean               float64 // kg
	Number             int     // people weighed; 0: not stated
	Lightest, Heaviest float64 // least and most of them, kg; 0: not stated
	Source             assume.Source
}

var restated = assume.Source{Document: "national figures, document not named", Status: assume.Restated}

// Populations lists the groups to choose from. The first two are the tables.
var Populations = []Population{
	{ID: "us-men", Name: menTable.Group, Mean: menTable.Mean, Source: nhanes},
	{ID: "us-women", Name: womenTable.Group, Women: true, Mean: womenTable.Mean, Source: nhanes},
	{ID: "england-men", Name: "men, England 2022", Mean: 85.8, Source: restated},
	{ID: "england-women", Name: "women, England 2022", Women: true, Mean: 72.8, Source: restated},
	{ID: "germany-men", Name: "men, Germany", Mean: 85.8, Source: restated},
	{ID: "germany-women", Name: "women, Germany", Women: true, Mean: 69.2, Source: restated},
	{ID: "offshore-men", Name: "men at work offshore, United Kingdom", Mean: 90.94, Number: 44_495, Lightest: 50, Heaviest: 158,
		Source: assume.Source{Document: "survey of men at work offshore, United Kingdom", Status: assume.Read}},
	{ID: "steel-erectors", Name: "steel erectors, United Kingdom", Mean: 91, Heaviest: 139, Source: restated},
}

// AtHeight95 is a mass in kg that underestimates the 95th percentile of people
// who work at height: HSE RR342 (read).
const AtHeight95 = 100.0

// Of returns the distribution of a population.
func Of(p Population) (Distribution, *record.Finding) {
	if p.Women {
		return Women().Shifted(p.Mean - womenTable.Mean)
	}
	return Men().Shifted(p.Mean - menTable.Mean)
}

// OverHeaviest returns how many of a population's people its distribution puts
// over the heaviest of them that was found; ok is false where that is not
// known. It is a check of the upper tail: 0 would be found.
func OverHeaviest(p Population) (people float64, ok bool) {
	d, f := Of(p)
	if f != nil || p.Number <= 0 || p.Heaviest <= 0 {
		return 0, false
	}
	return float64(p.Number) * (1 - d.Below(p.Heaviest)), true
}

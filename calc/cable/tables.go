// Package cable is conductor physics: resistance against temperature, the
// current-carrying capacity of a cable leg by leg with its rating factors, and
// the sizes that could take its place. Tables come from a rule set; nothing
// here knows a standard's numbers by heart.
package cable

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Tables are the rating-factor tables of one rule set.
type Tables struct {
	Air        []TempRow  // ambient air, reference 30 °C (Ca above ground)
	Ground     []TempRow  // ground temperature, reference 20 °C (Ca buried)
	Soil       []SoilRow  // thermal resistivity (Cs)
	Depth      []DepthRow // depth of laying (Cd); only a reduction is applied
	Grouping   []GroupRow
	Insulation []InsulationRow // thermal insulation (Ci)
	Buried     Factor          // Cc, buried cables with overload protection claimed
	Rewirable  Factor          // Cf, BS 3036
	// Terminals is the temperature that accessories allow; a cable with a
	// hotter conductor is rated from the 70 °C table when this is 70 °C.
	Terminals q.Kelvin
	// TerminalsSource says where that limit comes from.
	TerminalsSource finding.Source
	// Hot are the multipliers from 20 °C to operating temperature used for
	// design fault loops, by insulation key.
	Hot []HotRow
}

// Factor is a single factor with its source.
type Factor struct {
	Value  float64
	Source finding.Source
}

// TempRow is one row of an ambient table: the factor for each insulation key.
type TempRow struct {
	At      q.Kelvin
	Factors []Keyed
	Source  finding.Source
}

// Keyed is a factor for one insulation key ("70C thermoplastic").
type Keyed struct {
	Key   string
	Value float64
}

// SoilRow is one row of the soil table.
type SoilRow struct {
	At            q.KelvinMetrePerWatt
	Ducts, Direct float64
	Source        finding.Source
}

// DepthRow is one row of the depth table.
type DepthRow struct {
	At            q.Metre
	Ducts, Direct float64
	Source        finding.Source
}

// GroupRow is the grouping factor of one arrangement for N circuits.
type GroupRow struct {
	Item   string // "bunched", "single layer", "buried direct", "buried ducts"
	N      int
	Value  float64
	Source finding.Source
}

// InsulationRow is the factor for a length within thermal insulation.
type InsulationRow struct {
	Length q.Metre
	Value  float64
	Source finding.Source
}

// HotRow holds the operating-temperature multipliers of one insulation.
type HotRow struct {
	Key    string
	Core   float64 // copper core, 1.20 or 1.28
	Armour float64 // steel armour, 1.18 or 1.27
	Source finding.Source
}

package network

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Rating is the tabulated current-carrying capacity under one reference
// method, for two loaded conductors.
type Rating struct {
	Method  string // "C", "D", "E", "A", "100" ...
	Iz      q.Ampere
	Source  finding.Source
	Seventy bool // from the 70 °C table, for terminals limited to 70 °C
}

// EarthPath says which conductor of a cable returns fault current.
type EarthPath int

const (
	NoEarth     EarthPath = iota // two bare-minimum cores, no armour
	EarthCore                    // a core is the protective conductor
	EarthArmour                  // the armour is the protective conductor
)

// Cable is one catalogue cable with everything the tables say about it.
type Cable struct {
	Key        string // stock book key, "swa-3x1.5"
	Name       string // "Armoured 90 °C, 3 × 1.5 mm²"
	Family     string // sizes of one family are interchangeable: "swa90-3"
	Cores      int
	Size       q.SquareMetre // line conductor
	EarthSize  q.SquareMetre // protective core; 0 when there is none
	Earth      EarthPath
	Insulation string        // "70C thermoplastic", "90C thermosetting", ...: key of the k table
	Conductor  q.Kelvin      // conductor temperature of its tables
	R20        q.OhmPerMetre // line conductor at 20 °C, maximum of the standard
	EarthR20   q.OhmPerMetre // protective core at 20 °C
	ArmourArea q.SquareMetre // 0 without armour
	ArmourR20  q.OhmPerMetre // maximum d.c. resistance of the armour at 20 °C
	Drop       q.OhmPerMetre // tabulated single-phase mV/A/m, both conductors, hot
	Ratings    []Rating
	Diameter   q.Metre // overall; 0 unknown
	Waste      float64 // cutting allowance, 0.05 for 5 %
	Mains      bool    // may carry 230 V
	Buriable   bool    // armoured or made for burial
	Sunlight   bool
	Gland      string         // gland size by the table of its armour, "20S"; "" not in the table
	RSource    finding.Source // of R20
	DropSource finding.Source // of Drop
	ArmSource  finding.Source // of ArmourR20 and ArmourArea
	GlandFrom  finding.Source // of Gland
}

// Rating returns the tabulated capacity for a method; ok is false when the
// table has no such column. With seventy it is read from the 70 °C table.
func (c *Cable) Rating(method string, seventy bool) (r Rating, ok bool) {
	for _, r := range c.Ratings {
		if r.Method == method && r.Seventy == seventy {
			return r, true
		}
	}
	return Rating{}, false
}

package cable

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// tables are a few rows of BS 7671 Appendix 4 (Tables 4B1, 4B2, 4B3, 4B4, 4C1
// to 4C3, 52.2), enough for the edges of every factor.
func tables() *Tables {
	src := finding.Source{Standard: "test"}
	keyed := func(t70, t90 float64) []Keyed {
		return []Keyed{{"70C thermoplastic", t70}, {"90C thermosetting", t90}}
	}
	return &Tables{
		Air: []TempRow{
			{q.Celsius(25), keyed(1.03, 1.02), src},
			{q.Celsius(30), keyed(1.00, 1.00), src},
			{q.Celsius(35), keyed(0.94, 0.96), src},
			{q.Celsius(60), []Keyed{{"90C thermosetting", 0.71}}, src},
		},
		Ground: []TempRow{
			{q.Celsius(10), keyed(1.10, 1.07), src},
			{q.Celsius(15), keyed(1.05, 1.04), src},
			{q.Celsius(20), keyed(1.00, 1.00), src},
			{q.Celsius(25), keyed(0.95, 0.96), src},
		},
		Soil: []SoilRow{{1.0, 1.18, 1.50, src}, {2.5, 1.00, 1.00, src}, {3.0, 0.96, 0.90, src}},
		Depth: []DepthRow{
			{0.8, 1, 1, src}, {1.0, 0.98, 0.97, src},
		},
		Grouping: []GroupRow{
			{Bunched, 1, 1.00, src}, {Bunched, 2, 0.80, src}, {Bunched, 9, 0.50, src}, {Bunched, 12, 0.45, src},
			{SingleLayer, 2, 0.85, src}, {DirectGroup, 2, 0.75, src}, {DuctGroup, 2, 0.85, src}, {DuctGroup, 3, 0.75, src},
		},
		Insulation: []InsulationRow{{0.1, 0.78, src}, {0.4, 0.51, src}, {0.5, 0.50, src}},
		Buried:     Factor{0.9, src},
		Rewirable:  Factor{0.725, src},
		Terminals:  q.Celsius(70),
		Hot:        []HotRow{{"70C thermoplastic", 1.20, 1.18, src}, {"90C thermosetting", 1.28, 1.27, src}},
	}
}

// armoured is a 2.5 mm² armoured cable of BS 7671 Tables 4E4A, 4E4B and 4D4A.
func armoured() *network.Cable {
	return &network.Cable{
		Key: "swa-3x2.5", Family: "swa90-3", Cores: 3, Size: q.SquareMillimetres(2.5),
		Buriable: true,
		Earth:    network.EarthCore, Insulation: "90C thermosetting", Conductor: q.Celsius(90),
		R20: q.MilliohmPerMetre(7.41), EarthR20: q.MilliohmPerMetre(7.41), Drop: q.MilliohmPerMetre(19),
		Ratings: []network.Rating{
			{Method: "C", Iz: 36}, {Method: "E", Iz: 39}, {Method: "D", Iz: 33},
			{Method: "C", Iz: 28, Seventy: true}, {Method: "E", Iz: 31, Seventy: true}, {Method: "D", Iz: 29, Seventy: true},
		},
	}
}

// reference are the conditions that the tables are for.
var reference = network.Site{Air: q.Celsius(30), Ground: q.Celsius(20), Soil: 2.5}

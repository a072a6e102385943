package testnet

import (
	"fmt"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Insulation keys of the test rule set.
const (
	Thermoplastic = "70C thermoplastic"
	Thermosetting = "90C thermosetting"
	Rubber        = "60C rubber"
)

// copper is IEC 60228:2004 Table 1 in mΩ/m at 20 °C (found).
var copper = map[float64]float64{0.75: 24.5, 1: 18.1, 1.5: 12.1, 2.5: 7.41, 4: 4.61, 6: 3.08, 10: 1.83, 16: 1.15}

// Catalog returns the cables of the tests, by family and size.
func Catalog() []*network.Cable {
	var out []*network.Cable
	out = append(out, armoured(2)...)
	out = append(out, armoured(3)...)
	out = append(out, twinEarth()...)
	out = append(out, flex()...)
	return append(out, garden()...)
}

// armoured is BS 5467: BS 7671 Tables 4E4A/B (found) and 4D4A (from memory),
// armour from BS 5467 (2-core areas and resistances to 6 mm² found).
func armoured(cores int) []*network.Cable {
	rows := []struct{ s, c, d, c70, d70, drop, area2, arm2, area3, arm3 float64 }{
		{1.5, 27, 25, 21, 22, 31, 15, 10.2, 16, 9.5},
		{2.5, 36, 33, 28, 29, 19, 17, 8.8, 19, 8.2},
		{4, 49, 43, 38, 37, 12, 19, 7.9, 20, 7.5},
		{6, 62, 53, 49, 46, 7.9, 22, 7.0, 23, 6.7},
		{10, 85, 71, 67, 60, 4.7, 26, 6.0, 39, 4.0},
		{16, 110, 91, 89, 78, 2.9, 42, 3.7, 44, 3.5},
	}
	found, memory := bs("Table 4E4A", finding.Found), bs("Table 4D4A", finding.Memory)
	var out []*network.Cable
	for _, r := range rows {
		c := base(fmt.Sprintf("swa-%dx%v", cores, r.s), fmt.Sprintf("Armoured 90 °C, %d × %v mm²", cores, r.s), fmt.Sprintf("swa90-%d", cores), r.s, r.drop)
		c.Cores, c.Insulation, c.Conductor, c.Buriable = cores, Thermosetting, q.Celsius(90), true
		c.Gland = "20S"
		c.Earth, c.ArmourArea, c.ArmourR20 = network.EarthArmour, q.SquareMillimetres(r.area2), q.MilliohmPerMetre(r.arm2)
		if cores > 2 {
			c.Earth, c.EarthSize, c.EarthR20 = network.EarthCore, c.Size, c.R20
			c.ArmourArea, c.ArmourR20 = q.SquareMillimetres(r.area3), q.MilliohmPerMetre(r.arm3)
		}
		c.Ratings = []network.Rating{
			{Method: "C", Iz: q.Ampere(r.c), Source: found}, {Method: "D", Iz: q.Ampere(r.d), Source: found},
			{Method: "C", Iz: q.Ampere(r.c70), Source: memory, Seventy: true}, {Method: "D", Iz: q.Ampere(r.d70), Source: memory, Seventy: true},
		}
		out = append(out, c)
	}
	return out
}

// twinEarth is BS 7671 Table 4D5 (1.0 and 1.5 found, others from memory).
func twinEarth() []*network.Cable {
	var out []*network.Cable
	for _, r := range []struct{ s, cpc, c, m100, drop float64 }{
		{1, 1, 16, 13, 44}, {1.5, 1, 20, 16, 29}, {2.5, 1.5, 27, 21, 18}, {4, 1.5, 37, 27, 11}, {6, 2.5, 47, 34, 7.3}, {10, 4, 64, 45, 4.4}, {16, 6, 85, 57, 2.8},
	} {
		c := base(fmt.Sprintf("te-%v", r.s), fmt.Sprintf("Flat twin and earth %v mm²", r.s), "te", r.s, r.drop)
		c.Cores, c.Insulation, c.Conductor = 3, Thermoplastic, q.Celsius(70)
		c.Earth, c.EarthSize, c.EarthR20 = network.EarthCore, q.SquareMillimetres(r.cpc), q.MilliohmPerMetre(copper[r.cpc])
		src := bs("Table 4D5", finding.Memory)
		c.Ratings = []network.Rating{{Method: "C", Iz: q.Ampere(r.c), Source: src}, {Method: "100", Iz: q.Ampere(r.m100), Source: src}}
		out = append(out, c)
	}
	return out
}

// flex is BS 7671 Tables 4F3A and 4F3B (found), 60 °C rubber, 3-core; its
// resistances are taken as those of class 1 copper.
func flex() []*network.Cable {
	var out []*network.Cable
	for _, r := range []struct{ s, c, drop float64 }{{0.75, 6, 62}, {1, 10, 46}, {1.5, 16, 32}, {2.5, 25, 19}} {
		c := base(fmt.Sprintf("flex-3x%v", r.s), fmt.Sprintf("Rubber flex 3 × %v mm²", r.s), "flex-3", r.s, r.drop)
		c.Cores, c.Insulation, c.Conductor = 3, Rubber, q.Celsius(60)
		c.Earth, c.EarthSize, c.EarthR20 = network.EarthCore, c.Size, c.R20
		c.Ratings = []network.Rating{{Method: "C", Iz: q.Ampere(r.c), Source: bs("Table 4F3A", finding.Found)}}
		out = append(out, c)
	}
	return out
}

// garden is two-core 12 V cable: drop 2·R20·1.1965 (derived), ratings as BS
// 7671 Table 4D2A (from memory) and method D as 4D4A (from memory).
func garden() []*network.Cable {
	var out []*network.Cable
	for _, r := range []struct{ s, c, d float64 }{{1.5, 19.5, 22}, {2.5, 27, 29}, {4, 36, 37}, {6, 46, 46}} {
		c := base(fmt.Sprintf("elv-2x%v", r.s), fmt.Sprintf("Garden cable 2 × %v mm²", r.s), "elv-2", r.s, 2*copper[r.s]*1.1965)
		c.Cores, c.Insulation, c.Conductor, c.Mains, c.Buriable = 2, Thermoplastic, q.Celsius(70), false, true
		src := bs("Table 4D2A", finding.Memory)
		c.Ratings = []network.Rating{{Method: "C", Iz: q.Ampere(r.c), Source: src}, {Method: "D", Iz: q.Ampere(r.d), Source: src}}
		out = append(out, c)
	}
	return out
}

func base(key, name, family string, size, drop float64) *network.Cable {
	return &network.Cable{Key: key, Name: name, Family: family, Size: q.SquareMillimetres(size), Mains: true,
		R20: q.MilliohmPerMetre(copper[size]), Drop: q.MilliohmPerMetre(drop)}
}

// devices of the notation. Breaking capacities: 6 kA (EN 60898 usual domestic
// value, found; BS 1362 from memory).
var devices = map[string]network.Device{
	"b6":          {Kind: network.Breaker, Label: "B6", Curve: "B", Rating: 6, Breaking: 6000},
	"b10":         {Kind: network.Breaker, Label: "B10", Curve: "B", Rating: 10, Breaking: 6000},
	"b16":         {Kind: network.Breaker, Label: "B16", Curve: "B", Rating: 16, Breaking: 6000},
	"b25":         {Kind: network.Breaker, Label: "B25", Curve: "B", Rating: 25, Breaking: 6000},
	"b32":         {Kind: network.Breaker, Label: "B32", Curve: "B", Rating: 32, Breaking: 6000},
	"c6":          {Kind: network.Breaker, Label: "C6", Curve: "C", Rating: 6, Breaking: 6000},
	"c10":         {Kind: network.Breaker, Label: "C10", Curve: "C", Rating: 10, Breaking: 6000},
	"b6-rcbo-30":  {Kind: network.RCBO, Label: "B6 RCBO", Curve: "B", Rating: 6, Breaking: 6000, Residual: 0.03, Type: "A", Switching: true},
	"b10-rcbo-30": {Kind: network.RCBO, Label: "B10 RCBO", Curve: "B", Rating: 10, Breaking: 6000, Residual: 0.03, Type: "A", Switching: true},
	"b16-rcbo-30": {Kind: network.RCBO, Label: "B16 RCBO", Curve: "B", Rating: 16, Breaking: 6000, Residual: 0.03, Type: "A", Switching: true},
	"b32-rcbo-30": {Kind: network.RCBO, Label: "B32 RCBO", Curve: "B", Rating: 32, Breaking: 6000, Residual: 0.03, Type: "A", Switching: true},
	"c10-rcbo-30": {Kind: network.RCBO, Label: "C10 RCBO", Curve: "C", Rating: 10, Breaking: 6000, Residual: 0.03, Type: "A", Switching: true},
	"rcd-30":      {Kind: network.ResidualRCD, Label: "RCD 30 mA", Residual: 0.03, Type: "A", Switching: true},
	"rcd-100-s":   {Kind: network.ResidualRCD, Label: "RCD 100 mA S", Residual: 0.1, Type: "A", Delayed: true, Switching: true},
	"fuse-3":      {Kind: network.FuseBS1362, Label: "3 A fuse", Rating: 3, Breaking: 6000},
	"fuse-5":      {Kind: network.FuseBS1362, Label: "5 A fuse", Rating: 5, Breaking: 6000},
	"fuse-13":     {Kind: network.FuseBS1362, Label: "13 A fuse", Rating: 13, Breaking: 6000},
	"rewire-5":    {Kind: network.FuseBS3036, Label: "5 A rewirable fuse", Rating: 5, Breaking: 1000},
	"odd":         {Kind: network.FuseBS88_3, Label: "80 A fuse", Rating: 80, Breaking: 16000},
}

// lamps of the notation; invented.
var lamps = map[string]network.Node{
	"brick":   lamp(network.ClassII, network.Load{Power: 3, PowerFactor: 0.5, Nominal: 230}),
	"pillar":  lamp(network.ClassI, network.Load{Power: 12, PowerFactor: 0.9, Nominal: 230}),
	"post":    lamp(network.ClassI, network.Load{Power: 10, PowerFactor: 1, Nominal: 230}),
	"flood":   lamp(network.ClassII, network.Load{Power: 500, PowerFactor: 1, Nominal: 230}),
	"globe":   lamp(network.ClassII, network.Load{Law: network.Resistive, Power: 60, PowerFactor: 1, Nominal: 230, Minimum: 210}),
	"spike":   lamp(network.ClassIII, network.Load{Power: 5, PowerFactor: 1, Nominal: 12, Minimum: 10.8, Maximum: 13.2}),
	"spike-c": lamp(network.ClassIII, network.Load{Law: network.ConstantCurrent, Power: 5, PowerFactor: 1, Nominal: 12, Minimum: 10.8, Maximum: 13.2}),
	"wide":    lamp(network.ClassIII, network.Load{Power: 5, PowerFactor: 1, Nominal: 12, Minimum: 9, Maximum: 15, Dropout: 8}),
	"bulb":    lamp(network.ClassIII, network.Load{Law: network.Filament, Power: 20, PowerFactor: 1, Nominal: 12, Minimum: 10.8, Maximum: 13.2}),
	"tape":    lamp(network.ClassIII, network.Load{Law: network.ResistorStrip, Power: 5, PowerFactor: 1, Nominal: 12, Forward: 9.3, Minimum: 10.8, Maximum: 13.2}),
	"deck350": inSeries(0.35, 3), "deck700": inSeries(0.7, 3),
	"halogen": lamp(network.ClassIII, network.Load{Law: network.Resistive, Power: 20, PowerFactor: 1, Nominal: 12}),
}

// inSeries is a lamp for constant current.
func inSeries(amps q.Ampere, forward q.Volt) network.Node {
	n := lamp(network.ClassIII, network.Load{Law: network.Driven, Power: q.Watt(float64(amps) * float64(forward)), PowerFactor: 1, Nominal: forward, Drive: amps})
	n.Fitting = &network.Fitting{Drive: amps}
	return n
}

func lamp(class network.Class, l network.Load) network.Node {
	return network.Node{Kind: network.LampNode, Class: class, Loads: []network.Load{l}}
}

// sources of the notation; invented.
var sources = map[string]network.Converter{
	"dc60":  {Nominal: 12, Current: network.DC, Rated: 60, Regulated: true, Efficiency: 0.88, PowerFactor: 0.95, SELV: true},
	"dc100": {Nominal: 12, Current: network.DC, Rated: 100, Regulated: true, Efficiency: 0.88, PowerFactor: 0.95, SELV: true},
	"ac60":  {Nominal: 12, Rated: 60, Rise: 0.05, Efficiency: 0.9, PowerFactor: 0.95, SELV: true},
	"ac105": {Nominal: 12, Rated: 105, Rise: 0.05, Efficiency: 0.9, PowerFactor: 0.95, SELV: true},
	"min60": {Nominal: 12, Rated: 60, Regulated: true, Efficiency: 0.9, PowerFactor: 0.95, MinimumLoad: 20, SELV: true},
	"ac20":  {Nominal: 12, Rated: 20, Rise: 0.3, Efficiency: 0.75, PowerFactor: 0.9, MinimumLoad: 10, SELV: true},
	"el60":  {Nominal: 12, Rated: 60, Rise: 0.03, HighFreq: true, Efficiency: 0.92, PowerFactor: 0.95, MinimumLoad: 20, SELV: true},
	"cc350": driver(0.35, 6, 12), "cc350-wide": driver(0.35, 0, 48), "cc700": driver(0.7, 0, 12),
	"felv": {Nominal: 12, Rated: 60, Regulated: true, Efficiency: 0.9, PowerFactor: 0.95},
}

// driver is a constant-current source.
func driver(amps q.Ampere, least, most q.Volt) network.Converter {
	return network.Converter{Nominal: most, Current: network.DC, Rated: q.VoltAmpere(float64(amps) * float64(most)), Regulated: true,
		Efficiency: 0.85, PowerFactor: 0.9, SELV: true, Drive: amps, Least: least, Most: most}
}

// Load is network.Load, for tests that import nothing else of that package.
type Load = network.Load

package protect

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// tables are rows of BS 7671 Tables 41.1, 41.2, 41.4, 43.1, 54.4, EN 60898-1
// and EN 61008-1, enough for the tests here; layout/file tests the shipped ones.
func tables() *Tables {
	src := finding.Source{Standard: "test", Clause: "row", Evidence: finding.Found}
	band := func(curve string, m float64) Multiple {
		return Multiple{Curve: curve, Times: m, Time: 0.1, Source: src}
	}
	fuse := func(k network.DeviceKind, in q.Ampere, t q.Second, z q.Ohm) FuseRow { return FuseRow{k, in, t, z, src} }
	return &Tables{
		Cmin: 0.95, Cmax: 1.1, Nominal: 230,
		Multiples: []Multiple{band("B", 5), band("C", 10), band("D", 20)},
		Fuses: []FuseRow{
			fuse(network.FuseBS1362, 3, 0.4, 15.6), fuse(network.FuseBS1362, 13, 0.4, 2.30),
			fuse(network.FuseBS1362, 3, 5, 22.0), fuse(network.FuseBS1362, 13, 5, 3.64),
			fuse(network.FuseBS3036, 15, 0.4, 2.43),
		},
		Times: []Time{
			{Earthing: network.TNS, Final: 0.4, Source: src}, {Earthing: network.TNCS, Final: 0.4, Source: src}, {Earthing: network.TT, Final: 0.2, Source: src},
		},
		Residual: []ResidualTime{
			{false, 1, 0.3, src}, {false, 2, 0.15, src}, {false, 5, 0.04, src},
			{true, 1, 0.5, src}, {true, 2, 0.2, src}, {true, 5, 0.15, src},
		},
		Energy: []EnergyRow{
			{Curve: "B", UpTo: 16, Breaking: 6000, Energy: 35000, Source: src}, {Curve: "C", UpTo: 16, Breaking: 6000, Energy: 42000, Source: src},
			{Curve: "B", UpTo: 32, Breaking: 6000, Energy: 45000, Source: src}, {Curve: "B", UpTo: 6, Within: 1500, Energy: 13225, Source: src},
		},
		K: []KRow{
			{CorePart, "70C thermoplastic", 115, src}, {CorePart, "90C thermosetting", 143, src},
			{CorePart, "90C thermoplastic", 100, src},
			{ArmourPart, "90C thermosetting", 46, src},
		},
		Touch: 50, Cold: 0.8, Armour: 1.1, Electrode: 200,
	}
}

func breaker(curve string, in q.Ampere) network.Device {
	return network.Device{Kind: network.Breaker, Curve: curve, Rating: in, Breaking: 6000}
}

func rcbo(curve string, in q.Ampere) network.Device {
	return network.Device{Kind: network.RCBO, Curve: curve, Rating: in, Breaking: 6000, Residual: 0.03}
}

func bs1362(in q.Ampere) network.Device {
	return network.Device{Kind: network.FuseBS1362, Rating: in}
}

func rcd(idn q.Ampere, delayed bool) network.Device {
	return network.Device{Kind: network.ResidualRCD, Rating: 63, Residual: idn, Delayed: delayed}
}

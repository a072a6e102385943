// Package testnet holds what the tests of the calculation share: a small rule
// set and catalogue with their sources, and a text notation for nets. It is
// imported by tests only.
package testnet

import (
	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

const edition = "18th edition, A2-era values"

func bs(clause string, e finding.Evidence) finding.Source {
	return finding.Source{Standard: "BS 7671:2018", Clause: clause, Edition: edition, Evidence: e}
}

// Rules returns a rule set with BS 7671 values, enough for small gardens.
func Rules() *check.Rules {
	return &check.Rules{
		Key: "test", Name: "test rule set", Country: "United Kingdom", Edition: "18th",
		Cable: cableTables(), Protect: protectTables(), Limits: limits(),
		Site: siteLimits(), Supports: supports(),
	}
}

func limits() check.Limits {
	drop := bs("Appendix 4, 6.4, Table 4Ab", finding.Found)
	long := bs("Appendix 4, 6.4 note", finding.Memory)
	return check.Limits{
		LightingDrop:  check.Limit{Value: 0.03, Source: drop},
		LongRunPer:    check.Limit{Value: 0.00005, Source: long},
		LongRunFrom:   check.Limit{Value: 100, Source: long},
		LongRunMost:   check.Limit{Value: 0.005, Source: long},
		ExtraLowDrop:  check.Limit{Value: 0.05, Source: finding.Source{Standard: "IEC 60364-7-715:2011", Clause: "715.525", Evidence: finding.Memory}},
		Residual:      check.Limit{Value: 0.030, Source: bs("411.3.4", finding.Found)},
		SourceLoad:    check.Limit{Value: 0.80, Source: finding.Source{Evidence: finding.Practice}},
		SpareOnDrum:   check.Limit{Value: 0.02, Source: finding.Source{Evidence: finding.Practice}},
		LampholderMax: check.Limit{Value: 16, Source: bs("559.5.1.204", finding.Memory)},
		LeakageShare:  check.Limit{Value: 0.3, Source: bs("531.3.2", finding.Found)},
		LeakageEach:   check.Limit{Value: 0.0005, Source: finding.Source{Standard: "maker's manual", Evidence: finding.Found}},
		LeakageCable:  check.Limit{Value: 0.00002, Source: finding.Source{Evidence: finding.Memory}},

		SharedCircuits:  check.Limit{Value: 1, Source: finding.Source{Evidence: finding.Practice}},
		InrushSmall:     check.Limit{Value: 15, Source: finding.Source{Standard: "trade guide", Evidence: finding.Found}},
		InrushLarge:     check.Limit{Value: 22, Source: finding.Source{Standard: "trade guide", Evidence: finding.Found}},
		InrushTypeC:     check.Limit{Value: 30, Source: finding.Source{Standard: "trade guide", Evidence: finding.Found}},
		WoundOnFuse:     check.Limit{Value: 250, Source: finding.Source{Evidence: finding.Practice}},
		LEDShare:        check.Limit{Value: 0.1, Source: finding.Source{Evidence: finding.Practice}},
		CellDistance:    check.Limit{Value: 2, Source: finding.Source{Evidence: finding.Practice}},
		ExtraLowCurrent: check.Limit{Value: 0.8, Source: finding.Source{Evidence: finding.Practice}},
		ResidualRatio:   check.Limit{Value: 3, Source: bs("536.4.1.4", finding.Memory)},
		JointHeight:     check.Limit{Value: 0.15, Source: finding.Source{Evidence: finding.Practice}},
		LampLeads:       check.Limit{Value: 5, Source: finding.Source{Evidence: finding.Practice}},
		Reach:           check.Limit{Value: 2.5, Source: bs("417.3, Part 2 arm's reach", finding.Memory)},
		FuseRatio:       check.Limit{Value: 2, Source: finding.Source{Standard: "textbook", Clause: "2:1", Evidence: finding.Found}},
		BoxSide2:        check.Limit{Value: 0.085, Source: finding.Source{Evidence: finding.Practice}},
		BoxSide4:        check.Limit{Value: 0.110, Source: finding.Source{Evidence: finding.Practice}},
		BoxSide6:        check.Limit{Value: 0.150, Source: finding.Source{Evidence: finding.Practice}},
		DriveSpread:     check.Limit{Value: 0.05, Source: finding.Source{Evidence: finding.Practice}},
		ElectronicLead:  check.Limit{Value: 2, Source: finding.Source{Standard: "trade habit", Evidence: finding.Memory}},
	}
}

func protectTables() protect.Tables {
	fuse := func(kind network.DeviceKind, in q.Ampere, t q.Second, zs q.Ohm, clause string, e finding.Evidence) protect.FuseRow {
		return protect.FuseRow{Kind: kind, Rating: in, Time: t, Zs: zs, Source: bs(clause, e)}
	}
	multiples := finding.Source{Standard: "EN 60898-1", Clause: "Table 2", Evidence: finding.Found}
	trip := finding.Source{Standard: "EN 61008-1", Clause: "Table 1", Evidence: finding.Memory}
	class3 := finding.Source{Standard: "EN 60898-1", Clause: "Table ZA.1", Evidence: finding.Memory}
	return protect.Tables{
		Cmin: 0.95, Cmax: 1.10, CminSource: bs("411.4.4", finding.Found), Nominal: 230,
		Multiples: []protect.Multiple{
			{Curve: "B", Least: 3, Times: 5, Time: 0.1, Source: multiples},
			{Curve: "C", Least: 5, Times: 10, Time: 0.1, Source: multiples},
			{Curve: "D", Least: 10, Times: 20, Time: 0.1, Source: multiples},
		},
		Fuses: []protect.FuseRow{
			fuse(network.FuseBS1362, 3, 0.4, 15.6, "Table 41.2", finding.Found),
			fuse(network.FuseBS1362, 13, 0.4, 2.30, "Table 41.2", finding.Memory),
			fuse(network.FuseBS1362, 3, 5, 22.0, "Table 41.4", finding.Memory),
			fuse(network.FuseBS1362, 13, 5, 3.64, "Table 41.4", finding.Memory),
			fuse(network.FuseBS3036, 5, 0.4, 9.10, "Table 41.2", finding.Memory),
			fuse(network.FuseBS3036, 5, 5, 16.8, "Table 41.4", finding.Memory),
		},
		Times: []protect.Time{
			{Earthing: network.TNS, Final: 0.4, Source: bs("Table 41.1", finding.Found)},
			{Earthing: network.TNCS, Final: 0.4, Source: bs("Table 41.1", finding.Found)},
			{Earthing: network.TT, Final: 0.2, Source: bs("Table 41.1", finding.Found)},
		},
		Residual: []protect.ResidualTime{
			{Multiple: 1, Longest: 0.3, Source: trip}, {Multiple: 2, Longest: 0.15, Source: trip}, {Multiple: 5, Longest: 0.04, Source: trip},
			{Delayed: true, Multiple: 1, Longest: 0.5, Source: trip}, {Delayed: true, Multiple: 2, Longest: 0.2, Source: trip}, {Delayed: true, Multiple: 5, Longest: 0.15, Source: trip},
		},
		Conventional: []protect.Conventional{
			{Kind: network.Breaker, Holds: 1.13, Opens: 1.45, Time: 3600, Source: finding.Source{Standard: "EN 60898-1", Clause: "Table 7", Evidence: finding.Memory}},
			{Kind: network.FuseBS1362, Holds: 1.6, Opens: 1.9, Time: 1800, Source: finding.Source{Standard: "BS 1362", Evidence: finding.Found}},
		},
		Points: []protect.Point{
			{Kind: network.FuseBS1362, Rating: 13, Current: 50, Least: 0.1, Longest: 20, Source: finding.Source{Standard: "BS 1362", Evidence: finding.Found}},
		},
		Energy: []protect.EnergyRow{
			{Curve: "B", UpTo: 16, Breaking: 6000, Energy: 35000, Source: class3},
			{Curve: "C", UpTo: 16, Breaking: 6000, Energy: 42000, Source: class3},
			{Curve: "B", UpTo: 32, Breaking: 6000, Energy: 45000, Source: class3},
			{Curve: "C", UpTo: 32, Breaking: 6000, Energy: 55000, Source: class3},
		},
		K: []protect.KRow{
			{Part: "core", Key: Thermoplastic, K: 115, Source: bs("Table 43.1", finding.Found)},
			{Part: "core", Key: Thermosetting, K: 143, Source: bs("Table 43.1", finding.Found)},
			{Part: "core", Key: Rubber, K: 141, Source: bs("Table 43.1", finding.Found)},
			{Part: "armour", Key: Thermosetting, K: 46, Source: bs("Table 54.4", finding.Found)},
		},
		Touch: 50, TouchSource: bs("411.5.3", finding.Found),
		Cold: 0.8, ColdSource: bs("Appendix 3", finding.Found),
		Armour: 1.1, ArmourSource: finding.Source{Standard: "PD CLC/TR 50480", Evidence: finding.Found},
		Electrode: 200, ElectSource: bs("Table 41.5 note 2", finding.Found),
	}
}

func cableTables() cable.Tables {
	row := func(c, t70, t90, r60 float64, clause string) cable.TempRow {
		return cable.TempRow{At: q.Celsius(c), Source: bs(clause, finding.Found),
			Factors: []cable.Keyed{{Key: Thermoplastic, Value: t70}, {Key: Thermosetting, Value: t90}, {Key: Rubber, Value: r60}}}
	}
	group := bs("Table 4C1", finding.Found)
	return cable.Tables{
		Air:    []cable.TempRow{row(25, 1.03, 1.02, 1.04, "Table 4B1"), row(30, 1, 1, 1, "Table 4B1"), row(35, 0.94, 0.96, 0.91, "Table 4B1"), row(40, 0.87, 0.91, 0.82, "Table 4B1")},
		Ground: []cable.TempRow{row(15, 1.05, 1.04, 1.05, "Table 4B2"), row(20, 1, 1, 1, "Table 4B2"), row(25, 0.95, 0.96, 0.95, "Table 4B2")},
		Soil:   []cable.SoilRow{{At: 2.5, Ducts: 1, Direct: 1, Source: bs("Table 4B3", finding.Memory)}},
		Grouping: []cable.GroupRow{
			{Item: cable.Bunched, N: 2, Value: 0.80, Source: group},
			{Item: cable.SingleLayer, N: 2, Value: 0.85, Source: group},
			{Item: cable.DirectGroup, N: 2, Value: 0.75, Source: bs("Table 4C2", finding.Memory)},
			{Item: cable.DuctGroup, N: 2, Value: 0.85, Source: bs("Table 4C3", finding.Memory)},
		},
		Insulation: []cable.InsulationRow{{Length: 0.4, Value: 0.51, Source: bs("Table 52.2", finding.Memory)}},
		Buried:     cable.Factor{Value: 0.9, Source: bs("433.1.203", finding.Found)},
		Rewirable:  cable.Factor{Value: 0.725, Source: bs("433.1.202", finding.Found)},
		Terminals:  q.Celsius(70),
		Hot: []cable.HotRow{
			{Key: Thermoplastic, Core: 1.20, Armour: 1.18, Source: finding.Source{Standard: "On-Site Guide", Clause: "Table I3", Evidence: finding.Found}},
			{Key: Thermosetting, Core: 1.28, Armour: 1.27, Source: finding.Source{Standard: "On-Site Guide", Clause: "Table I3", Evidence: finding.Memory}},
			{Key: Rubber, Core: 1.16, Armour: 1.18, Source: finding.Source{Standard: "IEC 60228", Clause: "Annex B", Evidence: finding.Derived}},
		},
	}
}

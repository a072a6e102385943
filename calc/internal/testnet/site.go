package testnet

import (
	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// siteLimits are the limits of the ground as trade notes and BS 7671 give them.
func siteLimits() check.SiteLimits {
	practice := finding.Source{Evidence: finding.Practice}
	lim := func(v float64) check.Limit { return check.Limit{Value: v, Source: practice} }
	return check.SiteLimits{
		DepthLeast: check.Limit{Value: 0.45, Source: bs("522.8.10", finding.Found)}, DepthAdvised: lim(0.5), DepthWorked: lim(0.6),
		DigClear: lim(0.1), LowDepth: lim(0.15), RootClear: lim(1), HandDig: lim(4), TreeSlack: lim(0.9), ServiceClear: lim(0.5),
		PondZone: check.Limit{Value: 2, Source: bs("702", finding.Found)}, PondHeight: lim(2.5), PondVolts: lim(12), PondDirect: lim(30),
		FenceReach: lim(0.15), PostReach: lim(0.2), PostDepth: lim(0.6), LowSupport: lim(0.3), MownReach: lim(0.2), OutdoorIP: lim(44), GroundIP: lim(67), WaterIP: lim(68),
		GroundLevel: lim(0.05), SeatReach: lim(5), WindowReach: lim(20), WhiteSpread: lim(300), MovableSlack: lim(0.5), ExtraLow: lim(50),
		DrainDepth: lim(0.3), DrainWidth: lim(0.2), FestoonHeight: lim(2.4), SensorReach: lim(10),
	}
}

// supports is part of On-Site Guide Table D1.
func supports() []check.SupportRow {
	row := func(mm, along, upright float64, armoured bool, e finding.Evidence) check.SupportRow {
		return check.SupportRow{UpTo: q.Metre(mm / 1e3), Along: q.Metre(along), Upright: q.Metre(upright), Armoured: armoured,
			Source: finding.Source{Standard: "On-Site Guide", Clause: "Table D1", Evidence: e}}
	}
	return []check.SupportRow{
		row(9, 0.25, 0.4, false, finding.Found), row(15, 0.3, 0.4, false, finding.Found), row(20, 0.35, 0.45, false, finding.Found),
		row(15, 0.35, 0.45, true, finding.Memory), row(20, 0.4, 0.55, true, finding.Memory), row(40, 0.45, 0.6, true, finding.Memory),
	}
}

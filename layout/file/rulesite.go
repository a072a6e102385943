package file

import (
	"strconv"

	"duskwire/calc/check"
	q "duskwire/calc/quantity"
)

// site reads the limits of the ground. A rule set may leave out any of them:
// the check that asks for it is then silent.
func (s singles) site() check.SiteLimits {
	metre, volt := by(q.ParseMetre), by(q.ParseVolt)
	return check.SiteLimits{
		DepthLeast:    limitIf(s, "depth_least", metre),
		DepthAdvised:  limitIf(s, "depth_advised", metre),
		DepthWorked:   limitIf(s, "depth_worked", metre),
		DigClear:      limitIf(s, "dig_clear", metre),
		LowDepth:      limitIf(s, "low_depth", metre),
		RootClear:     limitIf(s, "root_clear", metre),
		HandDig:       limitIf(s, "hand_dig", multipleOf),
		TreeSlack:     limitIf(s, "tree_slack", metre),
		ServiceClear:  limitIf(s, "service_clear", metre),
		PondZone:      limitIf(s, "pond_zone", metre),
		PondHeight:    limitIf(s, "pond_height", metre),
		PondVolts:     limitIf(s, "pond_volts", volt),
		PondDirect:    limitIf(s, "pond_volts_dc", volt),
		FenceReach:    limitIf(s, "fence_reach", metre),
		PostReach:     limitIf(s, "post_reach", metre),
		PostDepth:     limitIf(s, "post_depth", metre),
		LowSupport:    limitIf(s, "low_support", metre),
		MownReach:     limitIf(s, "mown_reach", metre),
		OutdoorIP:     limitIf(s, "ip_outdoor", ingressNumber),
		GroundIP:      limitIf(s, "ip_ground", ingressNumber),
		WaterIP:       limitIf(s, "ip_water", ingressNumber),
		GroundLevel:   limitIf(s, "ground_level", metre),
		SeatReach:     limitIf(s, "seat_reach", metre),
		WindowReach:   limitIf(s, "window_reach", metre),
		WhiteSpread:   limitIf(s, "white_spread", func(n node) float64 { return withUnit(n, "K", "a difference such as 300 K") }),
		MovableSlack:  limitIf(s, "movable_slack", metre),
		DrainDepth:    limitIf(s, "drain_depth", metre),
		DrainWidth:    limitIf(s, "drain_width", metre),
		FestoonHeight: limitIf(s, "festoon_height", metre),
		SensorReach:   limitIf(s, "sensor_reach", metre),
		ExtraLow:      limitIf(s, "extra_low", volt),
	}
}

// ingressNumber reads IP44 as 44.
func ingressNumber(n node) float64 {
	const wanted = "an IP code of two digits such as IP44"
	s, ok := n.scalar(wanted)
	if !ok {
		return 0
	}
	if len(s) == 4 && s[:2] == "IP" {
		if v, err := strconv.Atoi(s[2:]); err == nil && v > 0 && v <= 69 {
			return float64(v)
		}
	}
	n.fail(n.found(), wanted)
	return 0
}

func supportRows(f tableFrame, o *object) []check.SupportRow {
	row := check.SupportRow{
		UpTo:     needAbove(o, "up_to", q.ParseMetre),
		Armoured: o.flagOr("armoured"),
		Along:    needAbove(o, "along", q.ParseMetre),
		Upright:  needAbove(o, "upright", q.ParseMetre),
		Source:   f.rowSource(o),
	}
	return []check.SupportRow{row}
}

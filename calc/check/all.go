package check

// All returns every rule in its fixed order, which is the order of the codes
// within each group.
func All() []Rule { return append([]Rule(nil), rules...) }

// rules is never changed after the program has started.
var rules = join(
	drawingRules(),
	[]Rule{collapseRule, unfinishedRule},
	[]Rule{designCurrentRule, deviceCableRule, ratingMissingRule},
	[]Rule{lightingDropRule, extraLowDropRule, lampVoltageRule, upstreamDropRule},
	[]Rule{loopRule, supplyLoopRule, loopUnknownRule, protectivePathRule, electrodeRule, stabilityRule, timeRule},
	[]Rule{residualRule},
	[]Rule{lineEnergyRule, protectiveEnergyRule, armourEnergyRule},
	[]Rule{breakingRule, sourceLoadRule, earthingRule, notificationRule},
)

func join(groups ...[]Rule) []Rule {
	var out []Rule
	for _, g := range groups {
		out = append(out, g...)
	}
	return out
}

package check

// All returns every rule in its fixed order, which is the order of the codes
// within each group.
func All() []Rule { return append([]Rule(nil), rules...) }

// rules is never changed after the program has started.
var rules = join(
	drawingRules(), []Rule{ringRule},
	[]Rule{collapseRule, unfinishedRule},
	[]Rule{designCurrentRule, deviceCableRule, ratingMissingRule, overloadOmittedRule},
	[]Rule{lightingDropRule, extraLowDropRule, lampVoltageRule, upstreamDropRule},
	[]Rule{loopRule, supplyLoopRule, loopUnknownRule, protectivePathRule, electrodeRule, stabilityRule, timeRule, coldReadingRule},
	[]Rule{residualRule, residualTypeRule, sharedResidualRule, promptRule, leakageRule},
	[]Rule{inrushRule, gearLEDRule, gearCurrentRule, receiverRule, cellRule, zoneControlRule, controlReachRule, fieldRule, dimmableRule, dimmerRule},
	[]Rule{isolationRule, neutralRule, lampholderRule, thinRule},
	[]Rule{lineEnergyRule, protectiveEnergyRule, armourEnergyRule},
	[]Rule{overcurrentApartRule, residualApartRule},
	[]Rule{earthPathRule, armourEarthRule, carriedRule, jointsRule, metalworkRule},
	[]Rule{entriesRule, openEntryRule, topEntryRule, lowBoxRule, buriedBoxRule, hiddenBoxRule, leadsRule, roomyBoxRule, mownBoxRule},
	[]Rule{glandKindRule, glandSizeRule},
	siteRules(),
	[]Rule{breakingRule, sourceLoadRule, electronicRule, separatedRule, stringRule, driveRule, wiringRule, longOutputRule, earthingRule, notificationRule, permissionRule, labelRule},
)

func join(groups ...[]Rule) []Rule {
	var out []Rule
	for _, g := range groups {
		out = append(out, g...)
	}
	return out
}

package check

// siteRules are the rules about the ground and the place of things on it.
func siteRules() []Rule {
	return []Rule{
		depthRule, spadeRule, bareRule, tapeRule, edgeRule, postRule, underRule,
		trunkRule, handDigRule, treeSlackRule, treeFixRule,
		serviceRule, segregateRule,
		submergedRule, pondRule, hollowRule,
		fenceRule, mownRule, supportRule, holeRule, movableRule, headroomRule,
		sunlightRule, ingressRule, soilRule, drainRule, hotRule,
		glareRule, whiteRule,
	}
}

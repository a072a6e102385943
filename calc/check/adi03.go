package check

import "duskwire/calc/finding"

// ADI-03: armour that is the protective conductor stands the energy of a fault
// to earth. Source: BS 7671 543.1.3, Table 54.4.
var armourEnergyRule = Rule{Code: "ADI-03", Title: "Armour stands the fault", Run: func(c *Context, emit func(finding.Finding)) {
	energyFindings(c, Armour, emit)
}}

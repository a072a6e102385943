package check

import "duskwire/calc/finding"

// ADI-02: the protective core stands the energy of a fault to earth. Source:
// BS 7671 543.1.3, Table 54.3.
var protectiveEnergyRule = Rule{Code: "ADI-02", Title: "Protective core stands the fault", Run: func(c *Context, emit func(finding.Finding)) {
	energyFindings(c, EarthConductor, emit)
}}

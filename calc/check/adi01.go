package check

import "duskwire/calc/finding"

// ADI-01: the line core stands the energy of a fault, k²S² >= I²t. Source:
// BS 7671 434.5.2, Table 43.1.
var lineEnergyRule = Rule{Code: "ADI-01", Title: "Line core stands the fault", Run: func(c *Context, emit func(finding.Finding)) {
	energyFindings(c, LineCore, emit)
}}

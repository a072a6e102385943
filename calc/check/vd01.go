package check

import "duskwire/calc/finding"

// VD-01: volt drop of mains lighting over the whole path from the board.
// Source: BS 7671 Appendix 4, 6.4, Table 4Ab and its note on runs over 100 m.
var lightingDropRule = Rule{Code: "VD-01", Title: "Volt drop of mains lighting", Run: func(c *Context, emit func(finding.Finding)) {
	dropFindings(c, true, func(i int) finding.Finding { return dropFinding(c, i, "VD-01", finding.Stop) }, emit)
}}

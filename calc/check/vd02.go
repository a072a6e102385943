package check

import "duskwire/calc/finding"

// VD-02: volt drop behind a source, from its output to the lamp. Practice
// differs (5 to 8 %), and the lamp's own limits say more (VD-03), so the
// electrician decides. Source: IEC 60364-7-715 (from memory).
var extraLowDropRule = Rule{Code: "VD-02", Title: "Volt drop at extra-low voltage", Run: func(c *Context, emit func(finding.Finding)) {
	dropFindings(c, false, func(i int) finding.Finding { return dropFinding(c, i, "VD-02", finding.Decide) }, emit)
}}

package packs

import (
	"strings"
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// TestBuiltRunsShowTheDesign: once a design was issued, the as-built list shows its
// legs and lengths and not those drawn since. R9 of the example is 5.54 m on the
// plan with 1.90 m of rises at 600 mm; 200 mm less at both ends are 0.4 m less.
func TestBuiltRunsShowTheDesign(t *testing.T) {
	for _, c := range []struct{ issue, want, not string }{
		{"2026-11-01", "buried 600 mm deep 8.5", "Legs as drawn"},
		{"", "Legs as drawn", "Legs as issued"},
	} {
		var ops []edit.Operation
		if c.issue != "" {
			ops = append(ops, edit.MarkIssued{On: c.issue})
		}
		for leg := range 3 {
			ops = append(ops, edit.TurnLeg{Run: "R9", Leg: leg, Support: network.Buried, Depth: 400 * geom.Millimetre})
		}
		text := strings.Join(strings.Fields(writtenOn(testPack(t, ops...), "As built")), " ")
		if !strings.Contains(text, c.want) || strings.Contains(text, c.not) {
			t.Errorf("issued %q: want %q and not %q in\n%s", c.issue, c.want, c.not, text)
		}
	}
}

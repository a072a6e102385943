package packs

import (
	"strings"
)

// tools lists what to bring. Trade habit (common practice, no source); what the
// drawing asks for is put first.
func (b *book) tools(f *flow) {
	t := b.counts
	f.head("For what is drawn")
	sizes := map[string]bool{}
	for g := range t.glands {
		sizes[g.size] = true
	}
	var list []string
	for _, s := range []string{"20S", "20", "25", "32"} {
		if sizes[s] {
			list = append(list, s)
		}
	}
	if t.tags > 0 {
		s := "Gland spanners"
		if len(list) > 0 {
			s += " for size " + strings.Join(list, ", ")
		}
		f.tick(s + "; hacksaw or armour cutter, knife for the sheath")
	}
	if sizes["20S"] || sizes["20"] || t.round > 0 {
		f.tick("Cutter 20 mm for entries that are not made")
	}
	if sizes["25"] {
		f.tick("Cutter 25 mm for entries that are not made")
	}
	if len(b.trench.stretches) > 0 {
		f.tick("Records of services, cable locator, insulated spade, line and pegs, rule for depths, two tapes of 30 m")
	}
	if b.trench.sums().byHand > 0 {
		f.tick("Hand tools for digging among roots, sacking to cover them")
	}
	if t.duct > 0 {
		f.tick("Saw and deburrer for duct, draw cord")
	}
	if t.holes > 0 {
		f.tick("Hammer drill, long bits, sealing compound")
	}
	if len(t.clips) > 0 {
		f.tick("Drill, bits and level for clips")
	}
	if t.tree > 0 {
		f.tick("Ladder or rope access for trees, stand-offs, no nails")
	}
	f.head("Always")
	for _, s := range []string{
		"Lock-off kit, approved voltage indicator with proving unit",
		"Installation tester: continuity with zeroed leads, insulation resistance at 250 V and 500 V, loop, residual current device",
		"Clamp meter for leakage, multimeter for extra-low voltage under load",
		"Screwdrivers, cutters, crimp or lever connectors, ferrules, torque driver",
		"Labels and tags of this pack, marker pen, camera, this pack on paper",
		"First-aid kit, lamp, gloves, eye protection",
	} {
		f.tick(s)
	}
}

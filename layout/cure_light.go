package layout

import (
	"fmt"
	"slices"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// light works out the light of a trial and what its rules find.
func (t *trial) light(b *bench, f *Frame) {
	if t.lux = b.meter.facts(f, b.rules); t.lux != nil {
		t.findings = append(t.findings, check.Lux(t.lux, b.rules)...)
	}
}

// offAtCurfew has zones go out at curfew: each alone of those whose lamps the finding
// names, these together, and all that burn on. What an hour does not mend, such as
// light before curfew, has no remedy that is tried.
func (b *bench) offAtCurfew() {
	if !slices.ContainsFunc(b.fd.Remedies, func(r finding.Remedy) bool { return r.Tried }) {
		return
	}
	s := b.frame.Scheme
	curfew, _ := b.frame.Curfew()
	named := map[doc.ID]bool{}
	for id := range b.set {
		if l, ok := s.Lamps.Get(doc.ID(id)); ok {
			named[l.Zone] = true
		}
	}
	for _, also := range b.fd.Also {
		if l, ok := s.Lamps.Get(doc.ID(also.ID)); ok {
			named[l.Zone] = true
		}
	}
	lit := map[doc.ID]bool{}
	for _, l := range s.Lamps.All() {
		lit[l.Zone] = true
	}
	var some, all []*doc.Zone
	for _, z := range s.Zones.All() {
		if z.Off.By(curfew) || !lit[z.ID] {
			continue
		}
		all = append(all, z)
		if named[z.ID] {
			some = append(some, z)
		}
	}
	for _, z := range some {
		b.goOut([]*doc.Zone{z}, curfew)
	}
	if len(some) > 1 {
		b.goOut(some, curfew)
	}
	if len(all) > len(some) && len(all) > 1 {
		b.goOut(all, curfew)
	}
}

// goOut tries zones that go out at curfew.
func (b *bench) goOut(zones []*doc.Zone, curfew doc.Off) {
	var ops []edit.Operation
	var names []string
	for _, z := range zones {
		c := *z
		c.Off = curfew
		ops = append(ops, edit.ChangeZone{Zone: &c})
		names = append(names, z.Tag)
	}
	text := "have " + TagRuns(names) + " go out at curfew, " + curfew.String()
	if len(zones) == 1 && zones[0].Name != "" {
		text = "have " + zones[0].Tag + " (" + zones[0].Name + ") go out at curfew, " + curfew.String()
	}
	label := "Zones off at curfew"
	if len(zones) == 1 {
		label = "Zone off at curfew"
	}
	c, _ := b.try(len(zones), text, edit.Batch{Label: label, Ops: ops})
	b.keep(c)
}

// readLate is what burns after curfew, or what light of it falls where the finding
// is; before curfew where that is what it is about.
func (b *bench) readLate(t *trial) (text string, use float64) {
	if t.lux == nil {
		return "", 0
	}
	if b.fd.Code == "LUX-08" {
		burn := t.lux.Burning()
		return fmt.Sprintf("%d of %d lamps burn after curfew, %s", len(burn), len(t.lux.Lamps), check.WattsOf(burn)), float64(len(burn))
	}
	for i := range t.lux.Views {
		v := &t.lux.Views[i]
		if v.ID != b.fd.Subject.ID {
			continue
		}
		if b.fd.Code == "LUX-09" {
			cd := q.Candela(0)
			if len(v.BrightLate) > 0 {
				cd = v.BrightLate[0].Toward
			}
			return fmt.Sprintf("%.0f cd after curfew", float64(cd)), float64(cd)
		}
		return fmt.Sprintf("%.2f lx after curfew, %.2f lx before", float64(v.Late), float64(v.Rest)), float64(v.Late)
	}
	return "", 0
}

package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// FLT-06: an electrode of high resistance may not stay as measured: above the
// guide value the electrician decides, and near it is a note. Source: BS 7671
// Table 41.5 note 2; the 80 % from which it notes is common practice.
var stabilityRule = Rule{Code: "FLT-06", Title: "Electrode may not be stable", Run: stability}

const nearElectrode = 0.8

func stability(c *Context, emit func(finding.Finding)) {
	ra, guide := c.Net.Supply.Electrode, c.Rules.Protect.Electrode
	if c.plan.supply < 0 || c.Net.Supply.Earthing != network.TT || !ra.Known || guide <= 0 {
		return
	}
	lv := finding.Held
	switch {
	case !within(float64(ra.Value), float64(guide)):
		lv = finding.Decide
	case !within(float64(ra.Value), nearElectrode*float64(guide)):
		lv = finding.Note
	}
	s := c.supplySubject()
	if !c.Wants(lv == finding.Held, s.ID) {
		return
	}
	var w lines
	w.add("RA = %s, guide value %s, noted from %s × %s", ra.Value, guide, num(nearElectrode, 2), guide)
	w.add("a rod dries out in summer: RA rises when the ground loses its moisture")
	f := finding.Finding{Code: "FLT-06", Level: lv, Subject: s, Source: c.Rules.Protect.ElectSource,
		Figure: ra.Value.String(), Limit: guide.String(), Working: w.String(),
		Text: "electrode resistance " + ra.Value.String() + "; above " + guide.String() + " it may not be stable"}
	if lv != finding.Held {
		f.Remedies = []finding.Remedy{{Text: "measure again in dry weather, or add a rod"}}
	}
	emit(f)
}

package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
)

// LBL-01: the labels and notices that the circuit asks for, as a list to make.
// Source: BS 7671 section 514 (from memory); the wording is ours.
var labelRule = Rule{Code: "LBL-01", Title: "Labels to make", Run: labelSet}

var labelSource = finding.Source{Standard: "BS 7671:2018", Clause: "514", Edition: "18th edition, A2-era values", Evidence: finding.Memory}

func labelSet(c *Context, emit func(finding.Finding)) {
	if c.plan.supply < 0 || !c.feedsAny() {
		return
	}
	var list []string
	take := func(when bool, text string) {
		if when {
			list = append(list, text)
		}
	}
	board := c.Net.Nodes[c.Net.Root]
	take(c.Net.Supply.Kind == network.OwnWay, "circuit chart at the board: the new way, its device, cable and what it feeds")
	take(c.Net.Supply.Kind == network.Spur, "circuit chart at the board: garden lighting added to this circuit")
	take(true, "at the point of isolation ("+c.isolationPoint()+"): garden lighting, isolate here")
	residual := false
	for i := range c.Net.Nodes {
		for _, d := range c.Net.Nodes[i].Devices {
			residual = residual || d.ResidualPart()
		}
	}
	take(residual, "at each residual device: press the test button at the interval of its notice")
	take(c.Net.Supply.Earthing == network.TT, "at the electrode clamp: earth connection, do not remove")
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if g := n.Gear; g != nil && g.Controls() {
			take(true, "at "+n.Label+": what it switches"+inZones(c.zonesOn(i)))
		}
	}
	c.furtherLabels(take)
	f := finding.Finding{Code: "LBL-01", Level: finding.Note, Subject: c.supplySubject(), Source: labelSource,
		Text: num(float64(len(list)), 0) + " labels to make: " + list[0] + "; the others are in the working"}
	var w lines
	w.add("from %s on:", board.Label)
	for _, l := range list {
		w.add("- %s", l)
	}
	f.Working = w.String()
	emit(f)
}

// outputOf writes what a source gives.
func outputOf(cv *network.Converter) string {
	if cv.Drive > 0 {
		return "constant current " + cv.Drive.String() + ", " + driverRange(cv)
	}
	return cv.Nominal.String()
}

// furtherLabels are those that follow from sources, trenches and a second supply.
func (c *Context) furtherLabels(take func(bool, string)) {
	dug := false
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.Converter != nil {
			take(true, "at "+br.Label+": output "+outputOf(br.Converter)+", "+br.Converter.Rated.String()+", for these lamps only")
		}
		for k := range br.Legs {
			dug = dug || br.Legs[k].Support == network.Buried
		}
	}
	take(dug, "over each trench: marker tape; a route drawing kept with the papers")
	for _, f := range c.Net.Faults {
		take(f.Kind == network.SecondSupply, "where two supplies meet: more than one supply, isolate both")
	}
}

// feedsAny reports whether the circuit has a lamp.
func (c *Context) feedsAny() bool {
	for i := range c.Net.Nodes {
		if c.Net.Nodes[i].Kind == network.LampNode && c.Tree.Parent[i] >= 0 {
			return true
		}
	}
	return false
}

// isolationPoint names the isolating thing nearest the lamps that is ahead of
// all of them.
func (c *Context) isolationPoint() string {
	s, at := c.supplied(), -1
	for _, i := range c.Tree.Order {
		all := true
		for k := range c.Net.Nodes {
			all = all && (c.Net.Nodes[k].Kind != network.LampNode || c.Tree.Parent[k] < 0 || k != i && s.beyond(k, i))
		}
		if !all {
			break
		}
		if c.opens(i) {
			at = i
		}
	}
	switch {
	case at < 0:
		return "to be fitted"
	case at == c.Net.Root:
		return "at the board"
	}
	return c.subject(at).Label
}

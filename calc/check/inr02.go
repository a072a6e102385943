package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// INR-02: the LED load that control gear switches against the maker's LED
// rating, in watts and in number. Inrush welds contacts, so the rating for
// resistive load says nothing; where the maker gives no LED rating a tenth of
// it is taken (common practice, no source).
var gearLEDRule = Rule{Code: "INR-02", Title: "LED load of control gear", Run: gearLED}

func gearLED(c *Context, emit func(finding.Finding)) {
	s := c.supplied()
	for i := range c.Net.Nodes {
		g := c.Net.Nodes[i].Gear
		if g == nil || !g.Controls() || s.on[i].points == 0 {
			continue
		}
		f := gearLEDFinding(c, i, g)
		if c.Wants(f.Level == finding.Held, f.Subject.ID) {
			emit(f)
		}
	}
}

// ledRating is the most LED load of gear, with what it rests on.
func (c *Context) ledRating(i int, g *network.Gear) (most q.Maybe[q.Watt], src finding.Source, how string) {
	share := c.Rules.Limits.LEDShare
	switch {
	case g.LEDWatts.Known:
		return g.LEDWatts, makerSource, "the maker's LED rating: " + g.LEDWatts.Value.String()
	case g.Rating.Known && share.Value > 0:
		w := q.Watt(share.Value * float64(g.Rating.Value) * float64(c.nominal(i)))
		return q.Some(w), share.Source, "LED rating not known; " + q.Percent(share.Value) + " of the resistive rating taken: " + num(share.Value, 2) + " · " + g.Rating.Value.String() + " · " + c.nominal(i).String() + " = " + w.String()
	}
	return q.Maybe[q.Watt]{}, makerSource, "neither an LED rating nor a resistive one is known"
}

func gearLEDFinding(c *Context, i int, g *network.Gear) finding.Finding {
	on, s := &c.supplied().on[i], c.subject(i)
	most, src, how := c.ledRating(i, g)
	f := finding.Finding{Code: "INR-02", Level: finding.Held, Subject: s, Source: src, Figure: on.led.String(), Limit: "?"}
	zones := c.zonesOn(i)
	for _, z := range zones {
		f.Also = append(f.Also, finding.Subject{ID: z.ID, Label: z.Title()})
	}
	var w lines
	w.add("%s switches %d LED lamps and sources, %s%s", s.Label, on.points, on.led, inZones(zones))
	w.add("%s", how)
	over := most.Known && !within(float64(on.led), float64(most.Value))
	if most.Known {
		f.Limit = most.Value.String()
		w.add("%s of %s: %s", on.led, most.Value, meets(!over))
	}
	many := g.LEDLamps.Known && float64(on.points) > float64(g.LEDLamps.Value)
	if g.LEDLamps.Known {
		w.add("number: %d of at most %s: %s", on.points, g.LEDLamps.Value, meets(!many))
	}
	if !g.LEDWatts.Known && most.Known {
		f.Assumed = append(f.Assumed, "LED rating of "+s.Label+" not known: "+q.Percent(c.Rules.Limits.LEDShare.Value)+" of its resistive rating taken")
	}
	f.Text = s.Label + " switches " + on.led.String() + " of LED load"
	switch {
	case over:
		f.Level, f.Text = finding.Decide, s.Label+" switches "+on.led.String()+" of LED load"+inZones(zones)+"; "+f.Limit+" is what it may"
	case many:
		f.Level, f.Figure, f.Limit, f.Source = finding.Decide, num(float64(on.points), 0), g.LEDLamps.Value.String(), makerSource
		f.Text = s.Label + " switches " + f.Figure + " LED lamps and sources" + inZones(zones) + "; its maker allows " + f.Limit
	case !most.Known && !g.LEDLamps.Known:
		f.Level, f.Limit = finding.Note, ""
		f.Text = "the LED rating of " + s.Label + " is not known; it switches " + on.led.String()
		f.Remedies = []finding.Remedy{{Text: "enter the maker's LED rating in the stock item"}}
	}
	if over || many {
		f.Remedies = []finding.Remedy{{Text: "let it switch a contactor or heavier gear made for LED load"}, {Text: "split the zone over two pieces of gear"}, {Text: "enter the maker's LED rating if it is higher"}}
	}
	f.Working = w.String()
	return f
}

// zonesOn returns the zones that gear is named to switch.
func (c *Context) zonesOn(gear int) []*network.LampZone {
	var out []*network.LampZone
	for k := range c.Net.Zones {
		if z := &c.Net.Zones[k]; z.Control == gear {
			out = append(out, z)
		}
	}
	return out
}

func inZones(zones []*network.LampZone) string {
	if len(zones) == 0 {
		return ""
	}
	out := " (zone "
	for k, z := range zones {
		if k > 0 {
			out += ", "
		}
		out += z.Title()
	}
	return out + ")"
}

package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// PND-01: a lamp in water is fed from a separated source of at most 12 V
// alternating or 30 V direct, and made for lasting immersion. Source: BS 7671
// Section 702, zone 0; whether garden ponds come under it is argued, many apply
// it.
var submergedRule = Rule{Code: "PND-01", Title: "Lamp in water", Run: submerged}

func submerged(c *Context, emit func(finding.Finding)) {
	site := &c.Rules.Site
	if site.PondVolts.Value <= 0 {
		return
	}
	g := gather{c: c}
	for i := range c.Net.Nodes {
		n := &c.Net.Nodes[i]
		if n.Kind != network.LampNode || n.Tail || n.Place == nil || !n.Place.InWater || c.Tree.Parent[i] < 0 {
			continue
		}
		v := c.judgeSubmerged(i)
		s := c.subject(i)
		lv := level(v.dry && v.low && v.apart, finding.Stop)
		if c.Wants(lv == finding.Held, s.ID) {
			g.take(n.Place.Area.ID, lv, float64(c.nominal(i)), s, func() finding.Finding { return submergedFinding(c, i, s, v, lv) })
		}
	}
	g.flush(emit)
}

// submergedVerdict says which of the conditions hold.
type submergedVerdict struct {
	limit           Limit
	low, apart, dry bool // voltage, separation, immersion
}

func (c *Context) judgeSubmerged(i int) submergedVerdict {
	site, n := &c.Rules.Site, &c.Net.Nodes[i]
	sys := &c.Net.Systems[n.System]
	v := submergedVerdict{limit: site.PondVolts}
	if sys.Current == network.DC && site.PondDirect.Value > 0 {
		v.limit = site.PondDirect
	}
	v.low = within(float64(sys.Nominal), v.limit.Value)
	v.apart = n.System != 0 && sys.SELV
	_, water := ingress(n.IP)
	v.dry = water >= int(site.WaterIP.Value)%10
	return v
}

func submergedFinding(c *Context, i int, s finding.Subject, v submergedVerdict, lv finding.Level) finding.Finding {
	n := &c.Net.Nodes[i]
	sys := &c.Net.Systems[n.System]
	f := finding.Finding{Code: "PND-01", Level: lv, Subject: s, Also: also(n.Place.Area), Source: v.limit.Source,
		Figure: sys.Nominal.String() + " " + sys.Current.String() + ", " + ipText(n.IP),
		Limit:  q.Volt(v.limit.Value).String() + " " + sys.Current.String() + " separated, IPX" + num(float64(int(c.Rules.Site.WaterIP.Value)%10), 0)}
	var w lines
	w.add("%s stands in %s at a height of %s", s.Label, n.Place.Area.Label, span(n.Height))
	w.add("voltage %s %s, at most %s: %s", sys.Nominal, sys.Current, q.Volt(v.limit.Value), yes(v.low))
	w.add("from a separated source: %s", yes(v.apart))
	w.add("made for lasting immersion, %s: %s", ipText(n.IP), yes(v.dry))
	f.Working = w.String()
	if lv == finding.Held {
		f.Text = s.Label + " is fit for standing in " + n.Place.Area.Label
		return f
	}
	f.Text = s.Label + " stands in " + n.Place.Area.Label
	if !v.low || !v.apart {
		f.Text += " on " + sys.Nominal.String() + " " + sys.Current.String()
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "feed it with 12 V from a separated source that stands clear of the water"})
	}
	if !v.dry {
		f.Text += " with " + ipText(n.IP)
		f.Remedies = append(f.Remedies, finding.Remedy{Text: "use a lamp made for ponds, IPX8"})
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Text: "move it out of the water"})
	return f
}

func yes(ok bool) string {
	if ok {
		return "yes"
	}
	return "no"
}

// ingress returns the digits of an IP code, -1 for one that is not stated.
func ingress(ip string) (solid, water int) {
	if len(ip) != 4 {
		return -1, -1
	}
	digit := func(b byte) int {
		if b < '0' || b > '9' {
			return -1
		}
		return int(b - '0')
	}
	return digit(ip[2]), digit(ip[3])
}

func ipText(ip string) string {
	if ip == "" {
		return "IP not known"
	}
	return ip
}

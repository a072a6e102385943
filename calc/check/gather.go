package check

import "duskwire/calc/finding"

// gather collects what a rule finds place by place and reports it thing by
// thing: of all places with one key and level the worst is the finding, the
// others are listed with it. Runs and lamps thus never fill a list with a
// thousand lines about one bed.
type gather struct {
	c      *Context
	groups []gathered
	held   []finding.Finding // meets its limit, and was asked for
}

type gathered struct {
	key   string
	level finding.Level
	by    float64
	worst func() finding.Finding
	at    finding.Subject // of the worst
	names []finding.Subject
	asked func() finding.Finding // of the entity whose working is asked for
}

// take adds one place. by says how bad it is, the larger the worse; build
// makes the finding and is called only for what is reported. Ask Context.Wants
// before, so that nothing is made for what holds.
func (g *gather) take(key string, level finding.Level, by float64, s finding.Subject, build func() finding.Finding) {
	if level == finding.Held {
		g.held = append(g.held, build())
		return
	}
	at := -1
	for i := range g.groups {
		if g.groups[i].key == key && g.groups[i].level == level {
			at = i
		}
	}
	if at < 0 {
		at = len(g.groups)
		g.groups = append(g.groups, gathered{key: key, level: level})
	}
	p := &g.groups[at]
	if p.worst == nil || by > p.by {
		p.worst, p.by, p.at = build, by, s
	}
	if g.c.Asked(s.ID) && p.asked == nil {
		p.asked = build
	}
	if n := len(p.names); n == 0 || p.names[n-1] != s {
		p.names = append(p.names, s)
	}
}

// flush reports the groups, and of the entity asked for every place that holds.
func (g *gather) flush(emit func(finding.Finding)) {
	take, done := single(emit)
	held := len(g.held) > 0
	for i := range g.groups {
		p := &g.groups[i]
		f := p.worst()
		for _, s := range p.names {
			if s != p.at {
				f.Also = append(f.Also, s)
			}
		}
		take(f)
		held = held && p.asked == nil
		if p.asked != nil && !g.c.Asked(p.at.ID) {
			take(p.asked())
		}
	}
	if held {
		take(g.heldOnce())
	}
	done()
}

// heldOnce joins what holds into one finding, so that a run of many legs is
// told once.
func (g *gather) heldOnce() finding.Finding {
	f := g.held[0]
	for _, h := range g.held[1:] {
		if h.Subject == f.Subject && h.Working != f.Working {
			f.Working += "\n" + h.Working
		}
	}
	return f
}

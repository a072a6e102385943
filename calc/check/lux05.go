package check

import (
	"duskwire/calc/finding"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
)

// habitats is LUX-05: lamps of cold white whose light reaches water or the crown
// of a tree, where insects, bats and birds live. Above the soft limit a Note,
// above the hard one a Decide; a white that is not known is named. One finding a
// level. It returns the lamps that it told. Sources: dark-sky and wildlife guidance,
// with each limit.
func habitats(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) (told map[string]bool) {
	if r.WarmSoft.Value <= 0 || r.WarmHard.Value <= 0 {
		return nil
	}
	var soft, hard, unknown whiteGroup
	for i := range u.Habitats {
		h := &u.Habitats[i]
		limit := float64(r.HabitatLux.Value)
		if h.Crown {
			limit = r.CrownLux.Value
		}
		for k := range h.From {
			l := &h.From[k]
			switch {
			case float64(l.Lux) < limit:
			case l.White <= 0:
				unknown.take(h, l)
			case !within(float64(l.White), r.WarmHard.Value):
				hard.take(h, l)
			case !within(float64(l.White), r.WarmSoft.Value):
				soft.take(h, l)
			}
		}
	}
	hard.emit(u, r, finding.Decide, r.WarmHard, emit)
	soft.emit(u, r, finding.Note, r.WarmSoft, emit)
	unknown.emit(u, r, finding.Note, r.WarmSoft, emit)
	told = map[string]bool{}
	for _, g := range []*whiteGroup{&hard, &soft, &unknown} {
		for _, l := range g.by {
			told[l.ID] = true
		}
	}
	return told
}

// whiteGroup gathers lamps that reach a habitat.
type whiteGroup struct {
	at    []*LuxHabitat
	by    []*LuxWhite
	worst int
}

func (g *whiteGroup) take(h *LuxHabitat, l *LuxWhite) {
	if n := len(g.by); n == 0 || l.White > g.by[g.worst].White || l.White == g.by[g.worst].White && l.Lux > g.by[g.worst].Lux {
		g.worst = n
	}
	g.at, g.by = append(g.at, h), append(g.by, l)
}

func (g *whiteGroup) emit(u *LuxFacts, r *LightLimits, level finding.Level, limit Limit, emit func(finding.Finding)) {
	if len(g.by) == 0 {
		return
	}
	l, h := g.by[g.worst], g.at[g.worst]
	f := finding.Finding{Code: "LUX-05", Level: level, Subject: l.Subject, Also: []finding.Subject{h.Subject}, Source: limit.Source,
		Figure: num(float64(l.White), 0) + " K", Limit: "at most " + num(limit.Value, 0) + " K"}
	f.Text = l.Label + " of " + num(float64(l.White), 0) + " K lights " + h.Label + ", where animals live"
	if l.White <= 0 {
		f.Figure = "colour temperature not known"
		f.Text = l.Label + ", of a white that is not known, lights " + h.Label + ", where animals live"
	}
	var w lines
	seen := map[string]bool{l.ID: true, h.ID: true}
	for i, b := range g.by {
		how := "level on the water"
		if g.at[i].Crown {
			how = "facing it at the crown"
		}
		white := "white not known"
		if b.White > 0 {
			white = num(float64(b.White), 0) + " K, " + num(100*light.BlueShare(b.White), 1) + " % of a black body's light below 500 nm"
		}
		w.add("%s: %s %s of %s; %s", b.Label, lx(b.Lux), how, g.at[i].Label, white)
		for _, s := range []finding.Subject{b.Subject, g.at[i].Subject} {
			if !seen[s.ID] {
				seen[s.ID] = true
				f.Also = append(f.Also, s)
			}
		}
	}
	for i, h := range g.at {
		if h.Taken != "" && (i == 0 || g.at[i-1] != h) {
			f.Assumed = append(f.Assumed, h.Taken)
		}
	}
	w.add("counted from %s on water, %s at a crown; %s", lx(q.Lux(r.HabitatLux.Value)), lx(q.Lux(r.CrownLux.Value)), sources(r.HabitatLux.Source, r.CrownLux.Source))
	w.add("limit: %s", limit.Source)
	w.add("a lamp of diodes may have more or less blue than a black body of its colour temperature")
	u.caveat(&w)
	f.Working = w.String()
	f.Remedies = []finding.Remedy{
		{Text: "use a lamp of " + num(r.WarmSoft.Value, 0) + " K or warmer"},
		{Text: "keep its light off water and leaves, low and for a short time; roosts of bats are protected by law, ask before lighting one"},
	}
	emit(f)
}

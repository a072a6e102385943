package check

import (
	"duskwire/calc/finding"
)

// useLight is LUX-01: ground of a use whose light falls short of what the use asks
// for, on average, at its darkest, in evenness or on faces. One Note a use, about the worst;
// a garden is no place of work and darkness may be meant, so that nothing of it is
// a limit. Sources: with each row of the table.
func useLight(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	for i := range r.Uses {
		row := &r.Uses[i]
		var short []*LuxUse
		worst := -1
		for k := range u.Uses {
			a := &u.Uses[k]
			if a.Use != row.Use || a.Points == 0 || row.part(a) >= 1 {
				continue
			}
			if worst < 0 || row.part(a) < row.part(short[worst]) {
				worst = len(short)
			}
			short = append(short, a)
		}
		if worst < 0 {
			continue
		}
		f := useFinding(u, row, short[worst])
		for k, a := range short {
			if k != worst {
				f.Also = append(f.Also, a.Subject)
				f.Working += "\n" + a.Label + ": " + useFigures(a)
			}
		}
		emit(f)
	}
}

// part is how far light reaches what is asked for, the least of average, darkest
// place, evenness and faces; 1 or more meets it.
func (row *LightUseRow) part(a *LuxUse) float64 {
	p := 2.0
	take := func(figure, limit float64) {
		if limit > 0 {
			v := figure / limit
			if within(limit, figure) {
				v = max(v, 1)
			}
			p = min(p, v)
		}
	}
	take(float64(a.Average), float64(row.Average))
	take(float64(a.Least), float64(row.Least))
	if a.Faces > 0 {
		take(float64(a.Upright), float64(row.Upright))
	}
	if even, ok := a.even(); ok {
		take(even, row.Uniformity)
	}
	return p
}

// even is the least over the average, at its worst where the light of some lamps is
// not known; ok is false in the dark.
func (a *LuxUse) even() (even float64, ok bool) {
	all := max(a.Average, a.Bright)
	if all <= 0 {
		return 0, false
	}
	return float64(a.Least / all), true
}

func useFigures(a *LuxUse) string {
	s := lx(a.Average) + " average, " + lx(a.Least) + " least"
	if even, ok := a.even(); ok {
		s += ", least over average " + num(even, 2)
		if a.Bright > a.Average {
			s += " at worst"
		}
	}
	if a.Faces > 0 {
		s += ", " + lx(a.Upright) + " on faces"
	}
	return s
}

// asked writes what a use asks for.
func (row *LightUseRow) asked() string {
	s := lx(row.Average) + " average"
	if row.Least > 0 {
		s += ", " + lx(row.Least) + " least"
	}
	if row.Uniformity > 0 {
		s += ", least over average " + num(row.Uniformity, 2)
	}
	if row.Upright > 0 {
		s += ", " + lx(row.Upright) + " on faces"
	}
	return s
}

func useFinding(u *LuxFacts, row *LightUseRow, a *LuxUse) finding.Finding {
	f := finding.Finding{Code: "LUX-01", Level: finding.Note, Subject: a.Subject, Source: row.Source,
		Figure: useFigures(a), Limit: row.asked(),
		Text: a.Label + " falls short of the target of its use, " + row.Use + ": " + useFigures(a)}
	var w lines
	if a.Said {
		w.add("use of %s as said: %s", a.Label, row.Use)
	} else {
		w.add("use of %s taken from its kind, %s: %s", a.Label, a.Kind, row.Use)
	}
	w.add("%d points, %s apart, level", a.Points, a.Step)
	w.add("average %s, least %s, most %s", lx(a.Average), lx(a.Least), lx(a.Most))
	if a.New > 0 {
		w.add("new and clean the average is %s", lx(a.New))
	}
	if a.Near != "" {
		w.add("%s", a.Near)
	}
	if a.Bright > a.Average {
		w.add("lamps whose light at their volts is not known taken at their least; at their most the average is %s, which evenness is judged by", lx(a.Bright))
	}
	if a.Faces > 0 {
		w.add("faces %s up at %d points, turned to where most light comes from: %s upright on average", span(a.FaceHeight), a.Faces, lx(a.Upright))
	}
	w.add("target: %s", row.asked())
	w.add("average: %s", row.Source)
	if row.Least > 0 {
		w.add("least: %s", row.LeastSource)
	}
	if row.Uniformity > 0 {
		w.add("least over average: %s", row.UniformitySource)
	}
	if row.Upright > 0 && a.Faces > 0 {
		w.add("faces: %s", row.UprightSource)
	}
	u.caveat(&w)
	f.Working = w.String()
	f.Remedies = []finding.Remedy{
		{Text: "aim, move or add lamps until it reaches the target"},
		{Text: "if it is meant to be dark, say so: use none"},
	}
	return f
}

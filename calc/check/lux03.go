package check

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

const (
	// manyLamps is how many lamps make an installation, whose limit then holds
	// (CIE 150:2017, from memory).
	manyLamps = 4
	// littleUpward is the part of the flux that is passed over in silence when
	// nobody said the zone (engineer's judgement).
	littleUpward = 0.005
)

// upward is LUX-03: the part of all flux that goes above the horizontal against
// the environmental zone: of the installation from four lamps on, otherwise of
// each lamp. Always a Note: the limits are made for the lighting of areas, and
// every lamp that lights a tree from below exceeds them. What leaves or walls
// would catch counts as upward. Source: CIE 150 and its national guidance, with
// each row.
func upward(u *LuxFacts, r *LightLimits, emit func(finding.Finding)) {
	if len(r.Upward) == 0 {
		return
	}
	flux, up, all := upwardFlux(u.Lamps)
	worst := -1
	for i := range u.Lamps {
		if worst < 0 || q.Lumen(u.Lamps[i].Upward)*flux[i] > q.Lumen(u.Lamps[worst].Upward)*flux[worst] {
			worst = i
		}
	}
	if worst < 0 || up <= 0 {
		return
	}
	share := float64(up / all)
	row, ok := r.upwardRow(u.Zone, len(u.Lamps) >= manyLamps)
	if ok && !row.All {
		for i := range u.Lamps {
			if u.Lamps[i].Upward > u.Lamps[worst].Upward {
				worst = i
			}
		}
		share = u.Lamps[worst].Upward
	}
	if ok && within(share, row.Share) || !ok && share < littleUpward {
		return
	}
	f := upwardFinding(u, r, worst, share)
	f.Working = upwardWorking(u, r, flux, up, all)
	emit(f)
}

// upwardFlux returns the flux of each lamp, what of it goes upward and the whole of
// it. A lamp whose light is not known counts as what makes the share the greatest: as
// full when more of it goes upward than of all together, else at its least.
func upwardFlux(lamps []LuxLamp) (flux []q.Lumen, up, all q.Lumen) {
	flux = make([]q.Lumen, len(lamps))
	dim := make([]bool, len(lamps))
	for more := true; more; {
		up, all, more = 0, 0, false
		for i := range lamps {
			flux[i] = lamps[i].Flux
			if dim[i] {
				flux[i] = lamps[i].Dim.Value
			}
			up, all = up+q.Lumen(lamps[i].Upward)*flux[i], all+flux[i]
		}
		for i := range lamps {
			if l := &lamps[i]; !dim[i] && l.Dim.Known && q.Lumen(l.Upward)*all < up {
				dim[i], more = true, true
			}
		}
	}
	return flux, up, all
}

func (l *LuxLamp) up() q.Lumen { return q.Lumen(l.Upward) * l.Flux }

// upwardRow returns the limit of a zone. What has none for an installation is
// judged lamp by lamp.
func (r *LightLimits) upwardRow(zone string, all bool) (row UpwardRow, ok bool) {
	for _, want := range []bool{true, false} {
		for _, row := range r.Upward {
			if row.Zone == zone && row.All == want && (all || !want) {
				return row, true
			}
		}
	}
	return row, false
}

func upwardFinding(u *LuxFacts, r *LightLimits, worst int, share float64) finding.Finding {
	f := finding.Finding{Code: "LUX-03", Level: finding.Note, Subject: u.Lamps[worst].Subject, Figure: num(100*share, 1) + " % upward"}
	row, ok := r.upwardRow(u.Zone, len(u.Lamps) >= manyLamps)
	whole := !ok || row.All
	if whole {
		f.Text = num(100*share, 0) + " % of the light of all lamps goes above the horizontal, most of it from " + f.Subject.Label
	} else {
		f.Text = num(100*share, 0) + " % of the light of " + f.Subject.Label + " goes above the horizontal"
	}
	f.Limit = "environmental zone not known"
	f.Source = r.Upward[0].Source
	if ok {
		f.Text += ", more than zone " + u.Zone + " allows for the lighting of areas"
		f.Limit, f.Source = "at most "+num(100*row.Share, 1)+" % in "+u.Zone, row.Source
	} else {
		f.Text += "; nobody said in which environmental zone the garden lies, so that this is not judged"
		f.Remedies = []finding.Remedy{{Text: "say the zone under Site"}}
	}
	for i := range u.Lamps {
		if l := &u.Lamps[i]; l.Upward > 0 && l.Flux > 0 && i != worst {
			f.Also = append(f.Also, l.Subject)
		}
	}
	f.Remedies = append(f.Remedies, finding.Remedy{Text: "light from above, shield the lamp, aim it so that leaves take the whole beam, or have it off by curfew"})
	return f
}

// upwardWorking writes the sum: by lamp what was counted.
func upwardWorking(u *LuxFacts, r *LightLimits, flux []q.Lumen, up, all q.Lumen) string {
	row, ok := r.upwardRow(u.Zone, len(u.Lamps) >= manyLamps)
	var w lines
	for i := range u.Lamps {
		l := &u.Lamps[i]
		doubt := ""
		if l.Dim.Known && l.Dim.Value != l.Flux {
			doubt = "; its light is not known, " + l.Dim.Value.String() + " to " + l.Flux.String()
		}
		if l.Flux > 0 && (l.Upward > 0 || doubt != "") {
			w.add("%s: %s %% of %s upward as aimed%s", l.Label, num(100*l.Upward, 1), flux[i], doubt)
		}
	}
	w.add("%s of %s upward: %s %%", up, all, num(100*float64(up/all), 1))
	if ok {
		w.add("zone %s: at most %s %%; %s", u.Zone, num(100*row.Share, 1), row.Source)
	}
	w.add("flux of new lamps at their volts, no factor for age and dirt; what leaves and walls catch counts as upward")
	w.add("the limits are for the lighting of areas; a lamp that lights a tree from below always exceeds them")
	w.add("computed, not measured")
	return w.String()
}

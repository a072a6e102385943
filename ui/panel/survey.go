package panel

import (
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// schemeForm is shown when nothing is selected: what to do next, and the
// properties of the scheme itself.
func schemeForm(on *subject) *form {
	f := newForm(on)
	nextSteps(f)
	s := on.scheme
	f.heading("Zones: lamps switched together")
	f.add(newZonesRow(on))
	f.heading("Scheme")
	f.text("Title", func() string { return s().Title },
		func(v string) edit.Operation { return edit.SetTitle{Title: v, Author: s().Author} })
	f.text("Drawn by", func() string { return s().Author },
		func(v string) edit.Operation { return edit.SetTitle{Title: s().Title, Author: v} })
	f.choice("Rule set", func() (out []option) {
		for _, r := range on.desk.Rules() {
			out = append(out, option{r.Key, r.Name})
		}
		return out
	}, func() string { return s().Rules },
		func(v string) edit.Operation { return edit.SetRules{Rules: v, Country: s().Country} })
	f.field(countryCaption, "such as England", "", func() string { return s().Country },
		func(v string) error { return on.desk.Commit(edit.SetRules{Rules: s().Rules, Country: v}) })
	planRows(f)
	pictureRows(f)
	surveyRows(f)
	runningRows(f)
	return f
}

// nextSteps tells a newcomer what comes next; each sentence goes away when its
// step is done.
func nextSteps(f *form) {
	s := f.on.scheme
	f.heading("What to do next")
	step := func(text string, when func() bool) { f.hint(text).when = when }
	noSupply := func() bool { return s().Supplies.Len() == 0 }
	noLamp := func() bool { return s().Lamps.Len() == 0 }
	noRun := func() bool { return s().Runs.Len() == 0 }
	step("Press P and click where the garden takes its power.", noSupply)
	step("Press L and click where the lamps go.", noLamp)
	step("Press R, click the supply point, the corners of the route, and the lamps one after the other. "+
		"Esc stops, Backspace takes the last corner back, a typed length is kept.", noRun)
	step("Enter what the survey found: click the supply point, or open a finding and press Enter at the supply point in it. "+
		"What is not known stays a finding.", func() bool { return !noLamp() && !noRun() && unsurveyed(s()) })
	step("Click a finding to fly to it. Click anything on the plan to change it here, and open Working to see how its figures were reached.",
		func() bool { return !noSupply() && !noLamp() && !noRun() })
	step("Compare a known dimension with the plan, then tick it below.", func() bool { return !s().Plan.Checked && !s().Plan.Underlay.Check.Given() })
}

// unsurveyed reports whether nobody has said what protects a supply point.
func unsurveyed(s *doc.Scheme) bool {
	for _, e := range s.Supplies.All() {
		if e.Upstream == "" {
			return true
		}
	}
	return false
}

func planRows(f *form) {
	s := f.on.scheme
	set := func(change func(*doc.Plan)) edit.Operation {
		p := s().Plan
		change(&p)
		return edit.SetPlan{Plan: p}
	}
	f.heading("Plan")
	f.number("Scale on paper", "", func() string { return "1:" + strconv.Itoa(s().Plan.Scale) }, func(text string) error {
		n, err := ParseScale(text)
		if err != nil {
			return err
		}
		return f.on.desk.Commit(set(func(p *doc.Plan) { p.Scale = n }))
	})
	f.length("Snap grid", func() geom.Length { return s().Plan.Grid },
		func(v geom.Length) edit.Operation { return set(func(p *doc.Plan) { p.Grid = v }) })
	f.north(func() q.Maybe[float64] { return s().Plan.North },
		func(v q.Maybe[float64]) edit.Operation { return set(func(p *doc.Plan) { p.North = v }) })
	f.check(checkedCaption, func() bool { return s().Plan.Checked },
		func(on bool) edit.Operation { return set(func(p *doc.Plan) { p.Checked = on }) })
}

// ParseScale reads a drawing scale such as "1:50", or only "50", and returns
// its denominator.
func ParseScale(text string) (int, error) {
	n, err := strconv.Atoi(strings.TrimPrefix(strings.ReplaceAll(text, " ", ""), "1:"))
	if err != nil || n < 1 || n > 5000 {
		return 0, &q.Error{Found: text, Kind: "scale from 1:1 to 1:5000, such as 1:50"}
	}
	return n, nil
}

func surveyRows(f *form) {
	s := f.on.scheme
	set := func(change func(*doc.Survey)) edit.Operation {
		v := s().Survey
		change(&v)
		return edit.SetSurvey{Survey: v}
	}
	f.heading("Site")
	maybe(f, "Air", "°C", q.ParseCelsius, func() q.Maybe[q.Kelvin] { return s().Survey.Air },
		func(v q.Maybe[q.Kelvin]) edit.Operation { return set(func(e *doc.Survey) { e.Air = v }) })
	maybe(f, "Ground", "°C", q.ParseCelsius, func() q.Maybe[q.Kelvin] { return s().Survey.Ground },
		func(v q.Maybe[q.Kelvin]) edit.Operation { return set(func(e *doc.Survey) { e.Ground = v }) })
	maybe(f, "Soil", "K·m/W", q.ParseSoil, func() q.Maybe[q.KelvinMetrePerWatt] { return s().Survey.Soil },
		func(v q.Maybe[q.KelvinMetrePerWatt]) edit.Operation {
			return set(func(e *doc.Survey) { e.Soil = v })
		})
	maybe(f, "Conductor", "°C", q.ParseCelsius, func() q.Maybe[q.Kelvin] { return s().Survey.Conductor },
		func(v q.Maybe[q.Kelvin]) edit.Operation { return set(func(e *doc.Survey) { e.Conductor = v }) })
	maybe(f, "At the test", "°C", q.ParseCelsius, func() q.Maybe[q.Kelvin] { return s().Survey.Test },
		func(v q.Maybe[q.Kelvin]) edit.Operation { return set(func(e *doc.Survey) { e.Test = v }) })
	f.percent("Cable waste", "of the cable, in %", func() q.Maybe[doc.Ratio] { return s().Survey.Waste },
		func(v q.Maybe[doc.Ratio]) edit.Operation { return set(func(e *doc.Survey) { e.Waste = v }) })
	f.factor("Age and dirt", usual(doc.UsualMaintenance)+" where empty", func(e *doc.Survey) *q.Maybe[doc.Ratio] { return &e.Maintenance })
	f.factor("In the ground", "at most "+usual(doc.GroundMaintenance)+" where empty", func(e *doc.Survey) *q.Maybe[doc.Ratio] { return &e.MaintenanceGround })
	f.choice("Light zone", func() []option {
		return []option{{"", "Not known"}, {"E0", "E0: dark-sky reserve"}, {"E1", "E1: dark country"}, {"E2", "E2: village"}, {"E3", "E3: suburb"}, {"E4", "E4: town centre"}}
	}, func() string { return s().Survey.LightZone },
		func(v string) edit.Operation { return set(func(e *doc.Survey) { e.LightZone = v }) })
	f.off("Curfew", "the rule set's where empty", false, func() doc.Off { return s().Survey.Curfew },
		func(v doc.Off) edit.Operation { return set(func(e *doc.Survey) { e.Curfew = v }) })
	f.hint("Empty site values are taken from the reference conditions of the rule set and reported as assumed. Age and dirt is the part of their new light that lamps keep, in the ground of those let into it: where empty " + usual(doc.GroundMaintenance) + ", or what the others keep if that is less.")
}

func usual(factor float64) string { return strconv.FormatFloat(factor, 'f', -1, 64) }

// factor adds a field for a factor for age and dirt; hint says what an empty one is.
func (f *form) factor(name, hint string, at func(*doc.Survey) *q.Maybe[doc.Ratio]) {
	f.field(name, hint, "", func() string {
		v := f.on.scheme().Survey
		if m := at(&v); m.Known {
			return strconv.FormatFloat(float64(m.Value), 'f', -1, 64)
		}
		return ""
	}, func(text string) error {
		var m q.Maybe[doc.Ratio]
		if text != "" {
			v, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(text), ",", "."), 64)
			if err != nil || !(v >= 0.1 && v <= 1) {
				return &q.Error{Found: text, Kind: "factor from 0.1 to 1"}
			}
			m = q.Some(doc.Ratio(v))
		}
		v := f.on.scheme().Survey
		*at(&v) = m
		return f.on.desk.Commit(edit.SetSurvey{Survey: v})
	})
}

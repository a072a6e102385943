package check

import (
	"math"
	"math/cmplx"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// SRC-01: the load of a source against its rating, over it a stop, over 80 %
// a decision; and a load below what the source needs, a decision. Source: the
// maker's rating; 80 % is trade habit.
var sourceLoadRule = Rule{Code: "SRC-01", Title: "Load of a source", Run: sourceLoad}

func sourceLoad(c *Context, emit func(finding.Finding)) {
	if !c.Trusted() {
		return
	}
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if br.Converter == nil || c.Far(b) < 0 {
			continue
		}
		load := c.output(b)
		lv := c.sourceLevel(b, load)
		if c.Wants(lv == finding.Held, br.ID) {
			emit(sourceFinding(c, b, load, lv))
		}
	}
}

// output is the apparent power that a source delivers. A regulated source is
// taken at its nominal voltage, one for constant current at the volts of its
// string.
func (c *Context) output(b int) q.VoltAmpere {
	if c.Driven(c.Far(b)) {
		return q.VoltAmpere(cmplx.Abs(c.Solution.Output[b]) * float64(c.Volts(c.Far(b))))
	}
	return q.VoltAmpere(cmplx.Abs(c.Solution.Output[b]) * math.Max(float64(c.Volts(c.Far(b))), float64(c.Net.Branches[b].Converter.Nominal)))
}

// sourcePart is the share of its rating up to which a source is loaded. One for
// constant current works anywhere within its volts (SRC-04), so there is none.
func (c *Context) sourcePart(b int) float64 {
	if c.Driven(c.Far(b)) {
		return 0
	}
	return c.Rules.Limits.SourceLoad.Value
}

func (c *Context) sourceLevel(b int, load q.VoltAmpere) finding.Level {
	cv := c.Net.Branches[b].Converter
	rated, part := float64(cv.Rated), c.sourcePart(b)
	switch {
	case cv.Drive > 0 && !within(rated, float64(cv.Drive)*float64(cv.Most)*(1-1e-6)):
		return finding.Held // its range of volts says all: SRC-04
	case !within(float64(load), rated):
		return finding.Stop
	case part > 0 && !within(float64(load), rated*part):
		return finding.Decide
	case cv.MinimumLoad > 0 && !within(float64(cv.MinimumLoad), float64(load)):
		return finding.Decide
	}
	return finding.Held
}

func sourceFinding(c *Context, b int, load q.VoltAmpere, lv finding.Level) finding.Finding {
	br := &c.Net.Branches[b]
	cv, part := br.Converter, c.Rules.Limits.SourceLoad
	if part.Value = c.sourcePart(b); part.Value == 0 {
		part = Limit{1, makerSource}
	}
	f := finding.Finding{Code: "SRC-01", Level: lv, Subject: c.runSubject(b), Source: part.Source, Figure: load.String()}
	var w lines
	w.add("S = U2 · I2 = %s × %s = %s", q.Volt(float64(load)/math.Max(cmplx.Abs(c.Solution.Output[b]), 1e-12)), q.Ampere(cmplx.Abs(c.Solution.Output[b])), load)
	watts := real(c.Solution.Voltage[c.Far(b)] * cmplx.Conj(c.Solution.Output[b]))
	w.add("of it active power: %s; the rating of a transformer is in VA, that of a driver for direct current in W", q.Watt(watts))
	w.add("rating %s, of it %s: %s", cv.Rated, q.Percent(part.Value), q.VoltAmpere(float64(cv.Rated)*part.Value))
	if cv.MinimumLoad > 0 {
		w.add("least load that the source needs: %s", cv.MinimumLoad)
	}
	f.Limit = q.VoltAmpere(float64(cv.Rated) * part.Value).String()
	share := ""
	if cv.Rated > 0 {
		share = " (" + q.Percent(float64(load)/float64(cv.Rated)) + ")"
	}
	f.Text = br.Label + " delivers " + load.String() + " of " + cv.Rated.String() + share
	switch {
	case lv == finding.Stop:
		f.Limit, f.Source = cv.Rated.String(), makerSource
		f.Remedies = []finding.Remedy{{Text: "use a larger source or split its lamps over two", Tried: true}}
	case lv == finding.Decide && float64(load) > float64(cv.Rated)*part.Value:
		f.Remedies = []finding.Remedy{{Text: "use the next larger source, or accept less reserve"}}
	case lv == finding.Decide:
		f.Limit, f.Source = "at least "+cv.MinimumLoad.String(), makerSource
		f.Figure = q.Watt(watts).String()
		f.Text = br.Label + " delivers only " + f.Figure + "; it needs " + cv.MinimumLoad.String()
		f.Remedies = []finding.Remedy{{Text: "use a smaller source or one without a least load", Tried: true}}
	}
	w.add("%s of %s%s", load, cv.Rated, share)
	f.Working = w.String()
	return f
}

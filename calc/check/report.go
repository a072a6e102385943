package check

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// within reports figure <= limit. A billionth of slack keeps a figure that is
// exactly on its limit from failing by the last bit.
func within(figure, limit float64) bool { return figure <= limit*(1+1e-9) }

// failing gathers the subjects of one finding and keeps the worst of them.
type failing struct {
	all   []int
	worst int
	by    float64
}

// add takes subject i, which exceeds its limit by the factor by.
func (f *failing) add(i int, by float64) {
	if len(f.all) == 0 || by > f.by {
		f.worst, f.by = i, by
	}
	f.all = append(f.all, i)
}

// emit reports the worst subject and lists the others with it.
func (f *failing) emit(build func(i int) finding.Finding, name func(i int) finding.Subject, emit func(finding.Finding)) {
	if len(f.all) == 0 {
		return
	}
	out := build(f.worst)
	for _, i := range f.all {
		if i != f.worst {
			out.Also = append(out.Also, name(i))
		}
	}
	emit(out)
}

// lines is a working, one step a line.
type lines []string

func (l *lines) add(format string, args ...any) { *l = append(*l, fmt.Sprintf(format, args...)) }

func (l lines) String() string { return strings.Join(l, "\n") }

// num writes a number with at most n decimals and no trailing zeros.
func num(v float64, n int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	s := strconv.FormatFloat(v, 'f', n, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// faultAmps writes a fault current, from 100 A on to the ampere.
func faultAmps(i q.Ampere) string {
	if i >= 100 {
		i = q.Ampere(math.Round(float64(i)))
	}
	return i.String()
}

// meets is the word between a figure and its limit.
func meets(held bool) string {
	if held {
		return "meets the limit"
	}
	return "exceeds the limit"
}

// reaches is the word between a figure and the least that it should be.
func reaches(held bool) string {
	if held {
		return "meets the limit"
	}
	return "falls short of the limit"
}

// level is Held for what meets its limit and otherwise l.
func level(held bool, l finding.Level) finding.Level {
	if held {
		return finding.Held
	}
	return l
}

// unproved answers, when asked for the working, that a check could not be made
// here; why is the business of another code, which speaks up by itself.
func unproved(code finding.Code, s finding.Subject, why string) finding.Finding {
	return finding.Finding{Code: code, Level: finding.Note, Subject: s, Text: "not proved: " + why, Working: why,
		Source: finding.Source{Evidence: finding.Derived}}
}

// group numbers what stands behind the same overcurrent device or source.
func (c *Context) group(node int) int {
	z := c.Zone(node)
	if z.Output {
		return -2 - c.plan.zone[node]
	}
	return z.Guard
}

// runFindings reports, of the runs behind each device, the one that exceeds
// its limit by the largest factor, and with Explain the run asked for.
func runFindings(c *Context, emit func(finding.Finding), judge func(b int) (by float64, held bool), build func(b int) finding.Finding) {
	var keys []int
	var groups []failing
	for b := range c.Net.Branches {
		if !c.Ours(b) {
			continue
		}
		by, held := judge(b)
		if held {
			if c.Explain != "" && c.Asked(c.runSubject(b).ID) {
				emit(build(b))
			}
			continue
		}
		at := slot(&keys, &groups, c.group(c.Far(b)))
		groups[at].add(b, by)
	}
	emitGroups(c, groups, build, c.runSubject, emit)
}

// nodeFindings does the same for nodes; group says which belong together, and
// judge's ok is false for nodes that the rule does not look at.
func nodeFindings(c *Context, emit func(finding.Finding), group func(i int) int, judge func(i int) (by float64, held, ok bool), build func(i int) finding.Finding) {
	var keys []int
	var groups []failing
	for i := range c.Net.Nodes {
		by, held, ok := judge(i)
		switch {
		case !ok:
		case held:
			if c.Explain != "" && c.Asked(c.subject(i).ID) {
				emit(build(i))
			}
		default:
			groups[slot(&keys, &groups, group(i))].add(i, by)
		}
	}
	emitGroups(c, groups, build, c.subject, emit)
}

// single passes findings on so that of one code at most one that fails is
// about a subject: a decision is recorded by code and subject, and one about a
// device must not silence another device that stands at the same place. The
// one of the higher level, else the first, gives figure and limit; flush hands
// them on.
func single(emit func(finding.Finding)) (take func(finding.Finding), flush func()) {
	var kept []finding.Finding
	take = func(f finding.Finding) {
		for k := range kept {
			g := &kept[k]
			if f.Level == finding.Held || g.Level == finding.Held || g.Subject.ID != f.Subject.ID {
				continue
			}
			if f.Level > g.Level {
				*g, f = f, *g
			}
			g.Text += "; and " + f.Text
			g.Working += "\n" + f.Working
			g.Also = append(g.Also, f.Also...)
			g.Assumed = append(g.Assumed, f.Assumed...)
			for _, rem := range f.Remedies {
				if !slices.Contains(g.Remedies, rem) {
					g.Remedies = append(g.Remedies, rem)
				}
			}
			return
		}
		kept = append(kept, f)
	}
	return take, func() {
		for _, f := range kept {
			emit(f)
		}
	}
}

// slot returns the place of a key, making one when it is new. There are few
// keys, and a list keeps their order.
func slot(keys *[]int, groups *[]failing, key int) int {
	for at, k := range *keys {
		if k == key {
			return at
		}
	}
	*keys = append(*keys, key)
	*groups = append(*groups, failing{})
	return len(*keys) - 1
}

// emitGroups reports each group, and with Explain its asked member too.
func emitGroups(c *Context, groups []failing, build func(i int) finding.Finding, name func(i int) finding.Subject, emit func(finding.Finding)) {
	for _, g := range groups {
		g.emit(build, name, emit)
		if c.Explain == "" {
			continue
		}
		for _, i := range g.all {
			if i != g.worst && c.Asked(name(i).ID) {
				emit(build(i))
			}
		}
	}
}

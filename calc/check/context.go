// Package check holds the rules: one file a rule, each with its code, its
// source and the working it shows. A rule looks at a solved circuit and emits
// findings; it changes nothing.
package check

import (
	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	"duskwire/calc/solve"
)

// Rules is one rule set: limits and tables of one country and edition.
type Rules struct {
	Key, Name, Country, Edition, Amendment, Date string
	// Statement is the caution that is shown wherever figures are.
	Statement string
	Cable     cable.Tables
	Protect   protect.Tables
	Limits    Limits
}

// Limit is one number with its source.
type Limit struct {
	Value  float64
	Source finding.Source
}

// Limits are the single-number limits of a rule set, in SI units; ratios as
// fractions.
type Limits struct {
	LightingDrop  Limit // 0.03 of nominal over the whole path at mains
	LongRunPer    Limit // 0.00005 per metre beyond LongRunFrom
	LongRunFrom   Limit // 100 m
	LongRunMost   Limit // 0.005
	ExtraLowDrop  Limit // 0.05 of nominal from source to lamp
	Residual      Limit // 0.030 A additional protection
	SourceLoad    Limit // 0.80 of a source's rating
	SpareOnDrum   Limit // 0.02 of a drum
	LampholderMax Limit // 16 A device on a lighting circuit
}

// Context is what every rule sees: one circuit, solved.
type Context struct {
	Net      *network.Net
	Tree     *network.Tree
	Rules    *Rules
	Solution *solve.Solution
	Loops    []protect.Loop   // per node
	Capacity []cable.Capacity // per branch; the leg that governs
	Catalog  []*network.Cable // every cable that may be proposed
	Country  string           // "England", ...: decides which notification prompt applies
	// Explain is the id of the entity whose working is asked for; "" in a
	// normal run. For it a rule also emits what meets its limit (Held).
	Explain string

	plan *plan // derived once by prepare
}

// Wants reports whether a rule has to emit a finding about the entity: always
// when the limit is not met, and when the entity's working was asked for.
func (c *Context) Wants(held bool, id string) bool {
	return !held || (c.Explain != "" && c.Explain == id)
}

// Asked reports whether the working of the entity was asked for.
func (c *Context) Asked(id string) bool { return c.Explain != "" && c.Explain == id }

// Trusted reports whether the solve converged. When it did not, its figures
// are no answer and only SOL-01 and SOL-02 speak about volts and currents.
func (c *Context) Trusted() bool {
	return c.Solution != nil && c.Solution.Status.State == solve.Converged
}

// Rule is one check.
type Rule struct {
	Code  finding.Code
	Title string // "Design current within the device"
	Run   func(c *Context, emit func(finding.Finding))
}

// Run applies every rule in the order of All and returns the findings, worst
// first. With no nodes in the net only the flaws of the drawing are reported.
func Run(c *Context) []finding.Finding {
	var out []finding.Finding
	emit := func(f finding.Finding) { out = append(out, f) }
	c.prepare()
	for _, r := range rules {
		r.Run(c, emit)
	}
	finding.Sort(out)
	return out
}

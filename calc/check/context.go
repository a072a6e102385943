// Package check holds the rules: one file a rule, each with its code, its
// source and the working it shows. A rule looks at a solved circuit and emits
// findings; it changes nothing.
package check

import (
	"duskwire/calc/cable"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
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
	Glands    []GlandRow // smallest size first; none when the rule set has no table
	Site      SiteLimits
	Supports  []SupportRow // smallest diameter first; none when the rule set has no table
	Light     LightLimits
}

// GlandRow is the range of outside diameters that one size of gland takes.
type GlandRow struct {
	Size        string // "20S"
	Least, Most q.Metre
	Thread      string // "M20"; "" unknown
	Source      finding.Source
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
	// The limits below may be 0: the rule that asks for one is then silent.
	LeakageShare    Limit // 0.30 of IΔn, standing leakage behind a residual device
	LeakageEach     Limit // 0.5 mA taken for a lamp or source that does not say
	LeakageCable    Limit // 0.02 mA per metre of mains cable
	SharedCircuits  Limit // 1 other circuit behind the same residual device
	InrushSmall     Limit // 15 LED fittings of 10 W on a 10 A type B breaker
	InrushLarge     Limit // 22 on a 16 A type B breaker
	InrushTypeC     Limit // 30 on a 10 A type C breaker
	WoundOnFuse     Limit // 250 VA of wound transformers on a 3 A fuse
	LEDShare        Limit // 0.10 of a resistive rating, for LED load
	CellDistance    Limit // 2 m from a photocell to its own lamps
	ExtraLowCurrent Limit // 0.80 of the rating of extra-low-voltage cable
	ResidualRatio   Limit // 3: IΔn of the residual device ahead over that behind; 0 not asked
	JointHeight     Limit // 0.15 m above ground, least of a box without fill; 0 not asked
	LampLeads       Limit // 5 lamp leads in a box; 0 not asked
	Reach           Limit // 2.5 m arm's reach; 0 not asked
	FuseRatio       Limit // 2: In of the fuse ahead over that behind; 0 not asked
	BoxSide2        Limit // 0.085 m: side of a square box for up to two cables; 0 not asked
	BoxSide4        Limit // 0.110 m, up to four
	BoxSide6        Limit // 0.150 m, up to six
	DriveSpread     Limit // 0.05: by how much a driver's current may be off its lamps'
	ElectronicLead  Limit // 2 m of cable behind an electronic source; 0 not asked
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

	plan   *plan     // derived once by prepare
	supply *supplied // derived once by the rules about supply and control
}

// Prepare derives what rules and readings ask of the net over and over. Once it
// is done a context may be read from several goroutines while one of them runs
// the rules.
func (c *Context) Prepare() { c.prepare() }

// Settle derives the rest of it, so that a context may be read from several
// goroutines for good.
func (c *Context) Settle() { c.supplied() }

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

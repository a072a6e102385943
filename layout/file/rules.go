package file

import (
	"io/fs"

	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// Rules reads every rule set in the folder rules of the assets, in the order of
// the file names. The tables that they name are in the folder tables.
func Rules(fsys fs.FS) ([]*check.Rules, error) {
	set, err := loadTables(fsys)
	if err != nil {
		return nil, err
	}
	var out []*check.Rules
	err = eachYAML(fsys, "rules", func(top node) {
		o := top.object()
		r := readRules(o, set)
		for _, other := range out {
			if other.Key == r.Key {
				o.get("key").fail("the key "+r.Key+" a second time", "a key of its own")
			}
		}
		out = append(out, r)
	})
	if err != nil {
		return nil, err
	}
	return out, nil
}

// ReadRules reads one rule set of the user's own. It may name the shipped
// tables of fsys and, under define, hold tables of its own in the same form.
func ReadRules(name string, data []byte, fsys fs.FS) (*check.Rules, error) {
	set, err := loadTables(fsys)
	if err != nil {
		return nil, err
	}
	top, err := parseYAML(name, data)
	if err != nil {
		return nil, err
	}
	r := readRules(top.object(), set)
	if err := top.log.first(); err != nil {
		return nil, err
	}
	return r, nil
}

// readRules reads a rule set; problems go to the log of o.
func readRules(o *object, set *tableSet) *check.Rules {
	key := o.needText("key")
	o.name("rule set " + key)
	r := &check.Rules{
		Key:       key,
		Name:      o.needText("name"),
		Country:   o.needText("country"),
		Edition:   o.needText("edition"),
		Amendment: o.text("amendment"),
		Date:      o.text("date"),
		Statement: o.needText("statement"),
	}
	edition := o.need("values", "the edition that the sources stand for").text()
	own := &tableSet{list: append([]table(nil), set.list...)}
	if n := o.get("define"); n.present() {
		readTables(n, edition, own)
		n.log.settleAll(own)
	}
	named := o.need("tables", "a map of table keys").object()
	r.Cable, r.Protect = cableTables(named, own), protectTables(named, own)
	r.Glands = pickIf[check.GlandRow](own, named.get("glands"), "gland")
	r.Supports = pickIf[check.SupportRow](own, named.get("supports"), "support")
	lightTables(&r.Light, named, own)
	named.done()
	sc := singles{o.need("cable", "a map of single numbers").object(), edition}
	sc.cable(&r.Cable)
	sc.done()
	sp := singles{o.need("protect", "a map of single numbers").object(), edition}
	sp.protect(&r.Protect)
	sp.done()
	sl := singles{o.need("limits", "a map of limits").object(), edition}
	r.Limits = sl.limits()
	sl.done()
	ss := singles{o.get("site").object(), edition}
	r.Site = ss.site()
	ss.done()
	lit := singles{o.get("light").object(), edition}
	tables := r.Light
	r.Light = lit.light()
	r.Light.Uses, r.Light.Spill, r.Light.Upward, r.Light.Bright = tables.Uses, tables.Spill, tables.Upward, tables.Bright
	lit.done()
	o.done()
	return r
}

// settleAll settles the constructions that this file defined itself.
func (p *problems) settleAll(set *tableSet) {
	for _, t := range set.list {
		rows, ok := t.rows.([]*construction)
		for _, c := range rows {
			if ok && c.from.log == p {
				c.settle(set)
			}
		}
	}
}

// cableTables reads which tables rate a cable.
func cableTables(o *object, set *tableSet) cable.Tables {
	return cable.Tables{
		Air:        pick[cable.TempRow](set, tableKey(o, "air"), "ambient"),
		Ground:     pick[cable.TempRow](set, tableKey(o, "ground"), "ambient"),
		Soil:       pick[cable.SoilRow](set, tableKey(o, "soil"), "soil"),
		Depth:      pick[cable.DepthRow](set, tableKey(o, "depth"), "depth"),
		Grouping:   pickAll[cable.GroupRow](set, tableKey(o, "grouping"), "grouping"),
		Insulation: pick[cable.InsulationRow](set, tableKey(o, "insulation"), "insulation"),
		Hot:        pick[cable.HotRow](set, tableKey(o, "operating"), "operating"),
	}
}

// protectTables reads which tables prove disconnection.
func protectTables(o *object, set *tableSet) protect.Tables {
	return protect.Tables{
		Multiples: pick[protect.Multiple](set, tableKey(o, "breakers"), "breaker"),
		Fuses:     pickAll[protect.FuseRow](set, tableKey(o, "fuses"), "fuse"),
		Times:     pick[protect.Time](set, tableKey(o, "times"), "time"),
		Residual:  pick[protect.ResidualTime](set, tableKey(o, "residual"), "residual"),
		Energy:    pickAll[protect.EnergyRow](set, tableKey(o, "energy"), "energy"),
		K:         pickAll[protect.KRow](set, tableKey(o, "adiabatic"), "adiabatic"),
		// Both may be left out: then SEL-01 says less.
		Conventional: pickIf[protect.Conventional](set, o.get("conventional"), "conventional"),
		Points:       pickAll[protect.Point](set, o.get("points"), "point"),
	}
}

// pickIf is pick for a table that a rule set may do without.
func pickIf[T any](set *tableSet, n node, kind string) []T {
	if !n.present() {
		return nil
	}
	return pick[T](set, n, kind)
}

// tableKey returns the field that names tables.
func tableKey(o *object, key string) node { return o.need(key, "the key of a table") }

// singles reads single numbers, each a map of value and source.
type singles struct {
	*object
	edition string
}

// one reads one number by its reader and its source.
func one[T ~float64](s singles, key string, read func(node) T) (T, finding.Source) {
	o := s.need(key, "a map of value and source").object()
	n := o.need("value", "a value with its unit")
	v := above(n, read(n))
	src := readSource(o.need("source", "a source"), s.edition)
	o.done()
	return v, src
}

// cable reads the single numbers of the cable calculation.
func (s singles) cable(t *cable.Tables) {
	t.Buried.Value, t.Buried.Source = one(s, "buried", factorOf)
	t.Rewirable.Value, t.Rewirable.Source = one(s, "rewirable", factorOf)
	t.Terminals, t.TerminalsSource = one(s, "terminals", by(q.ParseCelsius))
}

// protect reads the single numbers of the fault calculation.
func (s singles) protect(t *protect.Tables) {
	t.Nominal, _ = one(s, "nominal", by(q.ParseVolt))
	t.Cmin, t.CminSource = one(s, "cmin", factorOf)
	t.Cmax, _ = one(s, "cmax", factorOf)
	t.Touch, t.TouchSource = one(s, "touch", by(q.ParseVolt))
	t.Cold, t.ColdSource = one(s, "cold", node.ratio)
	t.Armour, t.ArmourSource = one(s, "armour", factorOf)
	t.Electrode, t.ElectSource = one(s, "electrode", by(q.ParseOhm))
}

// limits reads the single-number limits.
func (s singles) limits() check.Limits {
	return check.Limits{
		LightingDrop:  limit(s, "lighting_drop", node.ratio),
		LongRunPer:    limit(s, "long_run_per_metre", node.ratio),
		LongRunFrom:   limit(s, "long_run_from", by(q.ParseMetre)),
		LongRunMost:   limit(s, "long_run_most", node.ratio),
		ExtraLowDrop:  limit(s, "extra_low_drop", node.ratio),
		Residual:      limit(s, "residual", by(q.ParseAmpere)),
		SourceLoad:    limit(s, "source_load", node.ratio),
		SpareOnDrum:   limit(s, "spare_on_drum", node.ratio),
		LampholderMax: limit(s, "lampholder_most", by(q.ParseAmpere)),

		LeakageShare:    limitIf(s, "leakage_share", node.ratio),
		LeakageEach:     limitIf(s, "leakage_each", by(exact(q.ParseAmpere))),
		LeakageCable:    limitIf(s, "leakage_per_metre", by(exact(q.ParseAmpere))),
		SharedCircuits:  limitIf(s, "shared_circuits", countOf),
		InrushSmall:     limitIf(s, "inrush_b10", countOf),
		InrushLarge:     limitIf(s, "inrush_b16", countOf),
		InrushTypeC:     limitIf(s, "inrush_c10", countOf),
		WoundOnFuse:     limitIf(s, "wound_on_3a_fuse", by(q.ParseVoltAmpere)),
		LEDShare:        limitIf(s, "led_share", node.ratio),
		CellDistance:    limitIf(s, "cell_distance", by(q.ParseMetre)),
		ExtraLowCurrent: limitIf(s, "extra_low_current", node.ratio),

		ResidualRatio:  limitIf(s, "residual_ratio", multipleOf),
		FuseRatio:      limitIf(s, "fuse_ratio", multipleOf),
		JointHeight:    limitIf(s, "joint_height", by(q.ParseMetre)),
		LampLeads:      limitIf(s, "lamp_leads", multipleOf),
		BoxSide2:       limitIf(s, "box_side_2", by(q.ParseMetre)),
		BoxSide4:       limitIf(s, "box_side_4", by(q.ParseMetre)),
		BoxSide6:       limitIf(s, "box_side_6", by(q.ParseMetre)),
		DriveSpread:    limitIf(s, "drive_spread", node.ratio),
		ElectronicLead: limitIf(s, "electronic_lead", by(q.ParseMetre)),
		Reach:          limitIf(s, "reach", by(q.ParseMetre)),
	}
}

// limit reads one limit in SI units.
func limit[T ~float64](s singles, key string, read func(node) T) check.Limit {
	v, src := one(s, key, read)
	return check.Limit{Value: float64(v), Source: src}
}

// limitIf reads a limit that a rule set may leave out: the check that asks for
// it is then silent.
func limitIf[T ~float64](s singles, key string, read func(node) T) check.Limit {
	if !s.has(key) {
		return check.Limit{}
	}
	return limit(s, key, read)
}

// countOf reads a whole number of things.
func countOf(n node) float64 { return float64(n.whole(1, 10000)) }

// multipleOf reads a plain multiple.
func multipleOf(n node) float64 { return n.number(1, 100) }

// by makes a node reader of a quantity parser.
func by[T ~float64](parse func(string) (T, error)) func(node) T {
	return func(n node) T { return quantity(n, parse) }
}

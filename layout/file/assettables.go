package file

import (
	"duskwire/calc/cable"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
)

// tableKind is one kind of table with the reader of its rows.
type tableKind struct {
	name string
	read func(tableFrame, []node) any
}

// kinds are all kinds of table that an asset file may hold.
var kinds = []tableKind{
	{"resistance", rowsBy(resistanceRows)},
	{"armour", rowsBy(armourRows)},
	{"gland", rowsBy(glandRows)},
	{"rating", rowsBy(ratingRows)},
	{"drop", rowsBy(dropRows)},
	{"ambient", rowsBy(ambientRows)},
	{"soil", rowsBy(soilRows)},
	{"depth", rowsBy(depthRows)},
	{"grouping", rowsBy(groupRows)},
	{"insulation", rowsBy(insulationRows)},
	{"operating", rowsBy(operatingRows)},
	{"breaker", rowsBy(breakerRows)},
	{"fuse", rowsBy(fuseRows)},
	{"time", rowsBy(timeRows)},
	{"residual", rowsBy(residualRows)},
	{"conventional", rowsBy(conventionalRows)},
	{"point", rowsBy(pointRows)},
	{"energy", rowsBy(energyRows)},
	{"adiabatic", rowsBy(adiabaticRows)},
	{"construction", rowsBy(constructionRows)},
	{"support", rowsBy(supportRows)},
	{"light use", rowsBy(lightUseRows)},
	{"spill", rowsBy(spillRows)},
	{"source intensity", rowsBy(brightRows)},
	{"upward", rowsBy(upwardRows)},
}

// kindNames returns the names of the kinds.
func kindNames() []string {
	out := make([]string, len(kinds))
	for i, k := range kinds {
		out[i] = k.name
	}
	return out
}

// rowsBy makes a table reader of a row reader. A printed row may make several
// rows of ours.
func rowsBy[T any](read func(tableFrame, *object) []T) func(tableFrame, []node) any {
	return func(f tableFrame, items []node) any {
		var out []T
		for _, item := range items {
			o := item.object()
			if o.y == nil {
				continue
			}
			out = append(out, read(f, o)...)
			o.done()
		}
		return out
	}
}

// resistanceRow is the resistance of one conductor size at 20 °C.
type resistanceRow struct {
	size   q.SquareMetre
	r20    q.OhmPerMetre
	source finding.Source
}

func resistanceRows(f tableFrame, o *object) []resistanceRow {
	return []resistanceRow{{
		size:   needAbove(o, "size", q.ParseSquareMetre),
		r20:    needAbove(o, "r20", q.ParseOhmPerMetre),
		source: f.rowSource(o),
	}}
}

// armourRow is the armour of one cable.
type armourRow struct {
	cores    int
	size     q.SquareMetre
	area     q.SquareMetre
	r20      q.OhmPerMetre
	diameter q.Metre // 0 unknown
	gland    string  // "" unknown
	source   finding.Source
}

func armourRows(f tableFrame, o *object) []armourRow {
	return []armourRow{{
		cores:    o.need("cores", "the number of cores").whole(1, 61),
		size:     needAbove(o, "size", q.ParseSquareMetre),
		area:     needAbove(o, "area", q.ParseSquareMetre),
		r20:      needAbove(o, "r20", q.ParseOhmPerMetre),
		diameter: above(o.get("diameter"), value(o, "diameter", q.ParseMetre)),
		gland:    o.text("gland"),
		source:   f.rowSource(o),
	}}
}

// glandRows reads the outside diameters that one size of gland takes.
func glandRows(f tableFrame, o *object) []check.GlandRow {
	row := check.GlandRow{
		Size:   o.needText("size"),
		Least:  needAbove(o, "least", q.ParseMetre),
		Most:   needAbove(o, "most", q.ParseMetre),
		Thread: o.text("thread"),
		Source: f.rowSource(o),
	}
	if n := o.get("most"); n.present() && row.Most < row.Least {
		n.fail(n.found(), "a diameter not below least")
	}
	return []check.GlandRow{row}
}

// ratingRow is the rating of one size under every method of its table.
type ratingRow struct {
	size    q.SquareMetre
	ratings []network.Rating
}

func ratingRows(f tableFrame, o *object) []ratingRow {
	row := ratingRow{size: needAbove(o, "size", q.ParseSquareMetre)}
	src := f.rowSource(o)
	for i, cell := range f.cells(o.need("iz", "a list of currents")) {
		row.ratings = append(row.ratings, network.Rating{
			Method: methodWords[f.columns[i].word(methodWords)],
			Iz:     above(cell, quantity(cell, q.ParseAmpere)),
			Source: src,
		})
	}
	return []ratingRow{row}
}

// dropRow is the single-phase volt drop of one size.
type dropRow struct {
	size   q.SquareMetre
	drop   q.OhmPerMetre
	source finding.Source
}

func dropRows(f tableFrame, o *object) []dropRow {
	n := o.need("drop", "a volt drop such as 31 mV/A/m")
	return []dropRow{{
		size:   needAbove(o, "size", q.ParseSquareMetre),
		drop:   above(n, quantity(n, parseDrop)),
		source: f.rowSource(o),
	}}
}

func ambientRows(f tableFrame, o *object) []cable.TempRow {
	row := cable.TempRow{At: needAbove(o, "at", q.ParseCelsius), Source: f.rowSource(o)}
	for i, cell := range f.cells(o.need("factors", "a list of factors")) {
		if cell.y.text == "none" {
			continue
		}
		key := insulationKeys[f.columns[i].word(insulationKeys)]
		row.Factors = append(row.Factors, cable.Keyed{Key: key, Value: factorOf(cell)})
	}
	return []cable.TempRow{row}
}

func soilRows(f tableFrame, o *object) []cable.SoilRow {
	return []cable.SoilRow{{
		At:     needAbove(o, "at", q.ParseSoil),
		Ducts:  factor(o, "ducts"),
		Direct: factor(o, "direct"),
		Source: f.rowSource(o),
	}}
}

func depthRows(f tableFrame, o *object) []cable.DepthRow {
	return []cable.DepthRow{{
		At:     needAbove(o, "at", q.ParseMetre),
		Ducts:  factor(o, "ducts"),
		Direct: factor(o, "direct"),
		Source: f.rowSource(o),
	}}
}

// groupWords are the arrangements of grouped cables.
var groupWords = []string{cable.Bunched, cable.SingleLayer, cable.DirectGroup, cable.DuctGroup}

func groupRows(f tableFrame, o *object) []cable.GroupRow {
	item := groupWords[o.need("item", oneOf(groupWords)).word(groupWords)]
	src := f.rowSource(o)
	var out []cable.GroupRow
	for i, cell := range f.cells(o.need("factors", "a list of factors")) {
		out = append(out, cable.GroupRow{Item: item, N: f.columns[i].whole(1, 1000), Value: factorOf(cell), Source: src})
	}
	return out
}

func insulationRows(f tableFrame, o *object) []cable.InsulationRow {
	return []cable.InsulationRow{{
		Length: needAbove(o, "length", q.ParseMetre),
		Value:  factor(o, "factor"),
		Source: f.rowSource(o),
	}}
}

func operatingRows(f tableFrame, o *object) []cable.HotRow {
	const wanted = "a multiplier such as 1.28"
	return []cable.HotRow{{
		Key:    insulationKeys[o.need("key", oneOf(insulationKeys)).word(insulationKeys)],
		Core:   o.need("core", wanted).number(1, 3),
		Armour: o.need("armour", wanted).number(1, 3),
		Source: f.rowSource(o),
	}}
}

// curveWords are the instantaneous curves of breakers.
var curveWords = []string{"B", "C", "D"}

func curve(o *object) string {
	return curveWords[o.need("curve", oneOf(curveWords)).word(curveWords)]
}

func breakerRows(f tableFrame, o *object) []protect.Multiple {
	return []protect.Multiple{{
		Curve:  curve(o),
		Times:  o.need("times", "a multiple of the rated current").number(1, 100),
		Least:  leastMultiple(o),
		Time:   needAbove(o, "time", q.ParseSecond),
		Source: f.rowSource(o),
	}}
}

// deviceWords name the kinds of device, in the order of network.DeviceKind.
var deviceWords = []string{"breaker", "BS 1362", "BS 88-3", "BS 3036", "RCD", "RCBO"}

func fuseRows(f tableFrame, o *object) []protect.FuseRow {
	words := deviceWords[network.FuseBS1362 : network.FuseBS3036+1]
	kind := o.need("device", oneOf(words)).word(words)
	return []protect.FuseRow{{
		Kind:   network.FuseBS1362 + network.DeviceKind(kind),
		Rating: needAbove(o, "rating", q.ParseAmpere),
		Time:   needAbove(o, "time", q.ParseSecond),
		Zs:     needAbove(o, "zs", q.ParseOhm),
		Source: f.rowSource(o),
	}}
}

// leastMultiple reads the lower end of an instantaneous band; it may be left
// out and does not lie above the upper end.
func leastMultiple(o *object) float64 {
	n := o.get("least")
	if !n.present() {
		return 0
	}
	v := n.number(1, 100)
	if v > o.get("times").number(1, 100) {
		n.fail(n.found(), "a multiple not above times")
	}
	return v
}

// overcurrentWords are the kinds of device with an overcurrent part that have
// time-current rows, in the order of network.DeviceKind.
var overcurrentWords = deviceWords[network.Breaker : network.FuseBS3036+1]

func conventionalRows(f tableFrame, o *object) []protect.Conventional {
	row := protect.Conventional{
		Kind:   network.DeviceKind(o.need("device", oneOf(overcurrentWords)).word(overcurrentWords)),
		Holds:  o.need("holds", "a multiple of the rated current").number(1, 10),
		Opens:  o.need("opens", "a multiple of the rated current").number(1, 10),
		Time:   needAbove(o, "time", q.ParseSecond),
		Source: f.rowSource(o),
	}
	if n := o.get("opens"); n.present() && row.Opens < row.Holds {
		n.fail(n.found(), "a multiple not below holds")
	}
	return []protect.Conventional{row}
}

func pointRows(f tableFrame, o *object) []protect.Point {
	row := protect.Point{
		Kind:    network.DeviceKind(o.need("device", oneOf(overcurrentWords)).word(overcurrentWords)),
		Rating:  needAbove(o, "rating", q.ParseAmpere),
		Current: needAbove(o, "current", q.ParseAmpere),
		Least:   above(o.get("least"), value(o, "least", q.ParseSecond)),
		Longest: needAbove(o, "longest", q.ParseSecond),
		Source:  f.rowSource(o),
	}
	if n := o.get("least"); n.present() && row.Least > row.Longest {
		n.fail(n.found(), "a time not above longest")
	}
	return []protect.Point{row}
}

func timeRows(f tableFrame, o *object) []protect.Time {
	known := earthingWords[network.TNS:]
	e := o.need("earthing", oneOf(known)).word(known)
	row := protect.Time{
		Earthing: network.TNS + network.Earthing(e),
		Final:    needAbove(o, "final", q.ParseSecond),
		Source:   f.rowSource(o),
	}
	if o.get("above").present() {
		row.Above = needAbove(o, "above", q.ParseAmpere)
		row.Larger = needAbove(o, "larger", q.ParseSecond)
		row.LargerSource = row.Source
		if c := o.get("larger_clause"); c.present() {
			row.LargerSource.Clause = c.text()
		}
	}
	return []protect.Time{row}
}

func residualRows(f tableFrame, o *object) []protect.ResidualTime {
	return []protect.ResidualTime{{
		Delayed:  o.need("delayed", "true or false").flag(),
		Multiple: o.need("multiple", "a multiple of the rated residual current").number(1, 1000),
		Longest:  needAbove(o, "longest", q.ParseSecond),
		Source:   f.rowSource(o),
	}}
}

// energyRows reads what breakers let through: up to their breaking capacity, or
// up to a smaller current that the row names instead.
func energyRows(f tableFrame, o *object) []protect.EnergyRow {
	var breaking, within q.Ampere
	if o.has("within") {
		within = needAbove(o, "within", q.ParseAmpere)
	} else {
		breaking = needAbove(o, "breaking", q.ParseAmpere)
	}
	n := o.need("energy", "an energy such as 35000 A²s")
	return []protect.EnergyRow{{
		Curve:    curve(o),
		UpTo:     needAbove(o, "up_to", q.ParseAmpere),
		Breaking: breaking,
		Within:   within,
		Energy:   above(n, q.AmpereSquaredSecond(withUnit(n, "A²s", "an energy such as 35000 A²s"))),
		Source:   f.rowSource(o),
	}}
}

// partWords are the parts of a cable that stand fault current.
var partWords = []string{protect.CorePart, protect.ArmourPart}

func adiabaticRows(f tableFrame, o *object) []protect.KRow {
	return []protect.KRow{{
		Part:   partWords[o.need("part", oneOf(partWords)).word(partWords)],
		Key:    insulationKeys[o.need("key", oneOf(insulationKeys)).word(insulationKeys)],
		K:      o.need("k", "a constant such as 115").number(1, 1000),
		Source: f.rowSource(o),
	}}
}

package cable

import (
	"fmt"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Arrangements of grouped cables, as GroupRow.Item names them.
const (
	Bunched     = "bunched"
	SingleLayer = "single layer"
	DirectGroup = "buried direct"
	DuctGroup   = "buried ducts"
)

// arrangement returns which grouping table a support falls under: BS 7671
// Table 4C1 item 2 for a single layer on a surface, 4C2 direct in the ground,
// 4C3 in ducts. Indoors and in a tree cables are tied together, so item 1.
func arrangement(s network.Support) string {
	switch s {
	case network.Buried:
		return DirectGroup
	case network.InDuct:
		return DuctGroup
	case network.Clipped, network.OnStructure:
		return SingleLayer
	}
	return Bunched
}

// ambient returns the ambient factor Ca for one insulation key at temperature
// t. Between two rows the hotter one is taken; below the coldest row no more
// credit is given than that row gives. ok is false above the hottest row or
// where the row has no value for the key.
func ambient(rows []TempRow, key string, t q.Kelvin, what string) (a Applied, ok bool) {
	a = Applied{Symbol: "Ca", Value: 1}
	if t <= 0 {
		a.Note = what + " temperature not given, table reference taken"
		return a, true
	}
	// A nanokelvin of slack: 30 °C converted to kelvins and back must hit the
	// row for 30 °C and not the next one.
	const slack = 1e-9
	at := -1
	for i, row := range rows {
		if row.At >= t-slack && (at < 0 || row.At < rows[at].At) {
			at = i
		}
	}
	if at < 0 {
		return a, false
	}
	row := rows[at]
	for _, f := range row.Factors {
		if f.Key != key {
			continue
		}
		a.Value, a.Source = f.Value, row.Source
		a.Note = fmt.Sprintf("%s %v", what, t)
		if row.At > t+slack {
			a.Note += fmt.Sprintf(", row for %v taken", row.At)
		}
		return a, true
	}
	return a, false
}

// grouping returns Cg for n circuits touching in an arrangement. Between two
// listed numbers the larger is taken; beyond the table the last row holds only
// if a larger group cannot be worse, which no table says, so ok is false.
func grouping(rows []GroupRow, item string, n int) (a Applied, ok bool) {
	a = Applied{Symbol: "Cg", Value: 1, Note: "alone"}
	if n <= 1 {
		return a, true
	}
	at := -1
	for i, row := range rows {
		if row.Item == item && row.N >= n && (at < 0 || row.N < rows[at].N) {
			at = i
		}
	}
	if at < 0 {
		return a, false
	}
	row := rows[at]
	a.Value, a.Source = row.Value, row.Source
	a.Note = fmt.Sprintf("%d circuits, %s, touching", n, item)
	if row.N != n {
		a.Note += fmt.Sprintf(", row for %d taken", row.N)
	}
	return a, true
}

// oneDuct returns the worse of Cg for a duct each, as given, and for all n
// circuits in one duct, bunched: the drawing does not say which, and Table 4C3
// counts ducts and not cables.
func oneDuct(rows []GroupRow, n int, each Applied, known bool) (a Applied, ok bool) {
	one, has := grouping(rows, Bunched, n)
	if !has || (known && each.Value <= one.Value) {
		return each, known
	}
	one.Note += ": taken as in one duct"
	return one, true
}

// soil returns Cs for the thermal resistivity of the ground. Between two rows
// the drier soil is taken; below the first row no more credit is given than
// that row gives; beyond the last row ok is false.
func soil(rows []SoilRow, r q.KelvinMetrePerWatt, duct bool) (a Applied, ok bool) {
	a = Applied{Symbol: "Cs", Value: 1}
	if r <= 0 {
		a.Note = "soil not given, table reference taken"
		return a, true
	}
	const slack = 1e-9
	at := -1
	for i, row := range rows {
		if row.At >= r-slack && (at < 0 || row.At < rows[at].At) {
			at = i
		}
	}
	if at < 0 {
		return a, false
	}
	row := rows[at]
	a.Source = row.Source
	a.Value, a.Note = row.Direct, fmt.Sprintf("soil %v, direct", r)
	if duct {
		a.Value, a.Note = row.Ducts, fmt.Sprintf("soil %v, duct", r)
	}
	if row.At > r+slack {
		a.Note += fmt.Sprintf(", row for %v taken", row.At)
	}
	return a, true
}

// depth returns Cd. No bonus is claimed down to the depth of t.DepthFrom;
// deeper, the next deeper row is taken. Beyond the last row ok is false.
func depth(rows []DepthRow, d q.Metre, duct bool) (a Applied, ok bool) {
	a = Applied{Symbol: "Cd", Value: 1, Note: "no credit taken for depth"}
	at := -1
	for i, row := range rows {
		if row.At >= d-1e-9 && (at < 0 || row.At < rows[at].At) {
			at = i
		}
	}
	if len(rows) == 0 {
		return a, true
	}
	if at < 0 {
		return a, false
	}
	row := rows[at]
	v := row.Direct
	if duct {
		v = row.Ducts
	}
	a.Source = row.Source
	if v < 1 {
		a.Value = v
		a.Note = fmt.Sprintf("%v deep, row for %v taken", d, row.At)
	}
	return a, true
}

// insulation returns Ci for a length within thermal insulation; the next
// longer row is taken, and beyond the longest row that row holds (0.5 m or
// more totally surrounded, BS 7671 523.9).
func insulation(rows []InsulationRow, l q.Metre) (a Applied, ok bool) {
	a = Applied{Symbol: "Ci", Value: 1, Note: "no thermal insulation"}
	if l <= 0 {
		return a, true
	}
	if len(rows) == 0 {
		return a, false
	}
	at, last := -1, 0
	for i, row := range rows {
		if row.Length >= l-1e-9 && (at < 0 || row.Length < rows[at].Length) {
			at = i
		}
		if row.Length > rows[last].Length {
			last = i
		}
	}
	if at < 0 {
		at = last
	}
	row := rows[at]
	a.Value, a.Source = row.Value, row.Source
	a.Note = fmt.Sprintf("%v in thermal insulation, row for %v taken", l, row.Length)
	return a, true
}

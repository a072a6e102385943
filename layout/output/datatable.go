package output

import (
	"reflect"
	"strings"

	"duskwire/calc/check"
	"duskwire/layout"
)

// DataTable is a list as other programs read it: a row a thing, a column a key.
type DataTable struct {
	File  string // name of its CSV without the ending; "" for none
	Sheet string // name of its sheet in a workbook
	Keys  []string
	// Rows hold string, float64, bool, or nil for what does not apply or is not
	// known; never zero for unknown.
	Rows [][]any
}

// DataTables returns the lists of a frame as the reports have them: cut list, sums
// by cable, drum plans, readings of points and runs, what was decided against and
// what was measured where anything was. The keys are those of the JSON reports.
func DataTables(f *layout.Frame, rules *check.Rules) []DataTable {
	lengths, readings := LengthsOf(f, rules), ReadingsOf(f, rules)
	out := []DataTable{
		tableOf("lengths", "Cut list", lengths.Pieces),
		tableOf("", "Cables", lengths.Totals),
		drumTable(lengths.Plans),
		tableOf("readings", "Readings", readings.Points),
		tableOf("", "Runs", readings.Runs),
	}
	if over := headingOf(f, rules).Overruled; len(over) > 0 {
		out = append(out, tableOf("overruled", "Overruled", over))
	}
	if len(f.Scheme.Visits) > 0 {
		out = append(out, measuredTable(MeasuredOf(f, rules)))
	}
	return out
}

// tableOf turns the rows of a report into a table, a column a JSON key.
func tableOf[R any](file, sheet string, rows []R) DataTable {
	t := DataTable{File: file, Sheet: sheet, Keys: rowKeys(reflect.TypeFor[R]())}
	for _, r := range rows {
		t.Rows = append(t.Rows, rowCells(nil, reflect.ValueOf(r)))
	}
	return t
}

func rowKeys(t reflect.Type) (keys []string) {
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			keys = append(keys, rowKeys(f.Type)...)
			continue
		}
		key, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		keys = append(keys, key)
	}
	return keys
}

func rowCells(out []any, v reflect.Value) []any {
	for i := range v.NumField() {
		f := v.Field(i)
		if v.Type().Field(i).Anonymous {
			out = rowCells(out, f)
			continue
		}
		out = append(out, cellOf(f))
	}
	return out
}

// cellOf returns the value of a cell; a kind of field that no report has is our
// bug.
func cellOf(f reflect.Value) any {
	switch f.Kind() {
	case reflect.Pointer:
		if f.IsNil() {
			return nil
		}
		return cellOf(f.Elem())
	case reflect.String:
		return f.String()
	case reflect.Float64:
		return f.Float()
	case reflect.Int:
		return float64(f.Int())
	case reflect.Bool:
		return f.Bool()
	}
	panic("output: a table has no cells of " + f.Type().String())
}

// drumTable lists the drum plans, a row a cut. drum counts the drums of one cable
// from 1; a cable without a plan has one row that says so by its blanks.
func drumTable(plans []PlanRow) DataTable {
	t := DataTable{File: "drums", Sheet: "Drums",
		Keys: []string{"plan_cable", "drum", "drum_kind", "drum_length_m", "spare_m", "cut_run", "cut_m"}}
	for _, p := range plans {
		if len(p.Drums) == 0 {
			t.Rows = append(t.Rows, []any{p.PlanCable, nil, nil, nil, nil, nil, nil})
		}
		for i, d := range p.Drums {
			for _, c := range d.Cuts {
				t.Rows = append(t.Rows, []any{p.PlanCable, float64(i + 1), d.Kind, d.Length, d.Spare, c.Run, c.Cut})
			}
		}
	}
	return t
}

// Rounded returns a figure with so many decimals, as the reports have them.
func Rounded(v float64, digits int) float64 { return round(v, digits) }

package packs

import (
	"bytes"
	"context"
	"fmt"
	"io"

	"duskwire/layout/output"
)

// DataFile is one file for other programs.
type DataFile struct {
	Name string
	Data []byte
}

// DataWide is the width of the PNG in pixels where none is chosen.
const DataWide = 2400

// DataFiles returns the plan as drawings (DXF, SVG, PNG of that width, 0 for
// DataWide) and the lists as CSV, and all lists in one workbook. All are made
// before any is handed out, and it stops between two when the context ends.
func DataFiles(ctx context.Context, in Input, width int) ([]DataFile, error) {
	return Data(ctx, in, width, nil)
}

// Data is DataFiles that tells how far it is; report may be nil.
func Data(ctx context.Context, in Input, width int, report Report) ([]DataFile, error) {
	if width == 0 {
		width = DataWide
	}
	f, rules := in.Frame, in.Rules
	tables := append([]output.DataTable{newBook(in).materialTable()}, output.DataTables(f, rules)...)
	type maker struct {
		name string
		make func(io.Writer) error
	}
	makers := []maker{
		{"plan.dxf", func(w io.Writer) error { return output.DXF(w, f) }},
		{"plan.svg", func(w io.Writer) error { return output.PictureOf(w, "svg", f, rules.Name, in.Date) }},
		{"plan.png", func(w io.Writer) error { return output.PlanPNG(w, f, rules.Name, in.Date, width) }},
	}
	for _, t := range tables {
		if t.File != "" {
			makers = append(makers, maker{t.File + ".csv", func(w io.Writer) error { return output.CSV(w, t) }})
		}
	}
	makers = append(makers, maker{"data.xlsx", func(w io.Writer) error { return output.XLSX(w, f, rules, tables) }})
	var out []DataFile
	for i, m := range makers {
		if report != nil {
			report(float64(i)/float64(len(makers)), m.name)
		}
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		var b bytes.Buffer
		if err := m.make(&b); err != nil {
			return nil, fmt.Errorf("data: %s: %w", m.name, err)
		}
		out = append(out, DataFile{m.name, b.Bytes()})
	}
	return out, nil
}

// materialTable is the list to order by.
func (b *book) materialTable() output.DataTable {
	t := output.DataTable{File: "materials", Sheet: "Materials", Keys: []string{"group", "item", "amount", "unit", "counted"}}
	for _, m := range b.materials() {
		// As many decimals as the printed list has: a sum of lengths carries noise
		// in its last binary digits.
		t.Rows = append(t.Rows, []any{m.group, m.name, output.Rounded(m.amount, m.places), m.unit, m.note})
	}
	return t
}

package packs

import "testing"

// With one circuit in the scheme the connectors of a box have no column for it.
func TestConnectorColumns(t *testing.T) {
	for name, row := range map[string]struct {
		list []connector
		want []string // the last row
	}{
		"one circuit": {[]connector{{name: "L", ways: 3}, {name: "N", ways: 3}}, []string{"N", "3"}},
		"two":         {[]connector{{name: "L", ways: 3, mark: "C1"}, {name: "L", ways: 2, mark: "C2"}}, []string{"L", "2", "C2"}},
		"one unnamed": {[]connector{{name: "L", ways: 3, mark: "C1"}, {name: "L", ways: 2}}, []string{"L", "2", "–"}},
	} {
		got := connectorRows(row.list)
		last := got.rows[len(got.rows)-1].cells
		if len(got.columns) != len(row.want) || len(last) != len(row.want) {
			t.Errorf("%s: %d columns, last row %q, want %q", name, len(got.columns), last, row.want)
			continue
		}
		for i := range last {
			if last[i] != row.want[i] {
				t.Errorf("%s: last row %q, want %q", name, last, row.want)
			}
		}
	}
}

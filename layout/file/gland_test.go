package file

import (
	"testing"
)

// The two tables of glands are separate sources: the size that data sheets name
// for a make-up, and the range of outside diameters of the size (BS 6121 type
// CW, from memory). Each named size must take the diameter, and no size two
// steps smaller may be named by its range.
func TestGlandTablesAgree(t *testing.T) {
	rows := shippedRules(t).Glands
	if len(rows) == 0 {
		t.Fatal("no gland table in the rule set")
	}
	for i, r := range rows {
		if i > 0 && (r.Least < rows[i-1].Least || r.Most <= rows[i-1].Most) {
			t.Errorf("%s is not larger than %s", r.Size, rows[i-1].Size)
		}
	}
	named := 0
	for _, c := range shippedStock(t).Cables {
		if c.Gland == "" {
			continue
		}
		named++
		at, smallest := -1, -1
		for i, r := range rows {
			if r.Size == c.Gland {
				at = i
			}
			if smallest < 0 && c.Diameter >= r.Least && c.Diameter <= r.Most {
				smallest = i
			}
		}
		switch {
		case at < 0 || c.Diameter < rows[at].Least || c.Diameter > rows[at].Most:
			t.Errorf("%s: outside %v, gland %s does not take it", c.Key, c.Diameter, c.Gland)
		case smallest < 0 || at-smallest > 1:
			t.Errorf("%s: outside %v, gland %s, by its range a smaller one", c.Key, c.Diameter, c.Gland)
		}
		if c.GlandFrom.Standard == "" {
			t.Errorf("%s: gland without source", c.Key)
		}
	}
	// BS 5467 in 2, 3 and 4 cores of six sizes.
	if named != 18 {
		t.Errorf("%d cables with a gland size, want 18", named)
	}
}

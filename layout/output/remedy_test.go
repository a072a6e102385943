package output

import (
	"os"
	"testing"

	"duskwire/assets"
	"duskwire/layout"
	"duskwire/layout/file"
)

// A volt drop at extra-low voltage is a decision, and its ways out are tried as
// those of a Stop are. The scheme loses 0.8 V of 12 V (by hand: 29 mΩ/m over
// 1.751, 1.323, 0.888 and 0.447 A).
func TestDropRemediesTried(t *testing.T) {
	stock, err := file.Stock(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	rules, err := file.Rules(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile("testdata/drop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme("drop.yaml", data, stock)
	if err != nil {
		t.Fatal(err)
	}
	d := layout.NewDesk(stock, rules, s, "")
	r := FindingsOf(d.Frame(), rules[0])
	for _, row := range r.Findings {
		if row.Code != "VD-02" {
			continue
		}
		tried := 0
		for _, rem := range row.Remedies {
			if rem.Holds != nil && rem.Figure != "" && rem.Metres != nil {
				tried++
			}
		}
		if row.Level != "Decide" || tried < 3 {
			t.Errorf("%s: %d ways out tried of %v", row.Level, tried, row.Remedies)
		}
		return
	}
	t.Error("no VD-02 found")
}

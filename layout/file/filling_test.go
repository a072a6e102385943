package file

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What fills a box is read in millilitres, is not known where nobody says, and a
// figure without its unit is refused.
func TestFilling(t *testing.T) {
	for _, c := range []struct {
		text string
		want float64 // m³; below 0: refused
	}{{"filling: 250 ml, ", 250e-6}, {"", 0}, {"filling: 250, ", -1}, {"filling: 0 ml, ", -1}, {"filling: 200000 ml, ", -1}, {"filling: nan ml, ", -1}} {
		path := filepath.Join(t.TempDir(), "stock.yaml")
		if err := os.WriteFile(path, []byte("boxes:\n  - {key: filled, name: Filled box, ip: IP68, entries: 4, "+c.text+"source: \"invented\"}\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		stock, _, err := Shipped(path, "")
		if c.want < 0 {
			if err == nil || !strings.Contains(err.Error(), "ml") {
				t.Errorf("%q: %v", c.text, err)
			}
			continue
		}
		b, ok := stock.Box("filled")
		if err != nil || !ok || math.Abs(b.Filling-c.want) > 1e-12 {
			t.Errorf("%q: %g m³, %v", c.text, b.Filling, err)
		}
	}
}

package layout_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/doc"
)

func factsOf(t *testing.T, data string, item *doc.LampStock) (l *layout.Light, all map[string]string) {
	t.Helper()
	p, err := light.Read([]byte(data), light.How{})
	must(t, err)
	l = &layout.Light{Table: p, Dist: p.Dist}
	all = map[string]string{}
	for _, f := range l.Facts(item) {
		all[f.Name] = f.Text
	}
	return l, all
}

// TestOneFlux: the sheet compares one figure with the stock book and shows it, the sum
// by zones. A table of 100, 50, 0 cd at 0°, 45° and 90° has by closed form
// 2π(75(1 − cos 45°) + 25 cos 45°) lm by zones; drawn, as I = 100(1 − 2γ/π), it has
// 2π·100(1 − 2/π) lm.
func TestOneFlux(t *testing.T) {
	zones, drawn := 2*math.Pi*(75-50*math.Sqrt2/2), 200*math.Pi*(1-2/math.Pi)
	l, all := factsOf(t, "IESNA:LM-63-2002\n[TEST] x\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50 0", &doc.LampStock{Flux: 400})
	if math.Abs(l.TableFlux()-zones) > 1e-9 {
		t.Errorf("%g lm, want %g", l.TableFlux(), zones)
	}
	for name, want := range map[string]string{
		"Flux":       fmt.Sprintf("%.4g lm from the table, summed by zones", zones),
		"Stock book": fmt.Sprintf("the file has %+.0f %%", 100*(zones/400-1)),
	} {
		if !strings.Contains(all[name], want) {
			t.Errorf("%s: %q lacks %q", name, all[name], want)
		}
	}
	if want := fmt.Sprintf("drawn with %.4g lm", drawn); strings.Count(all["Flux"], want) != 1 {
		t.Errorf("flux %q lacks %q", all["Flux"], want)
	}
}

// TestNoCentre: light that begins 30° off the axis has no beam for want of a centre
// (CIE e-ILV 17-27-077: the centre counts), not because it does not fall off.
func TestNoCentre(t *testing.T) {
	const head = "IESNA:LM-63-2002\n[TEST] x\nTILT=NONE\n"
	_, all := factsOf(t, head+"1 -1 1 3 1 1 2 0 0 0 1 1 10 30 50 70 0 80 100 0", &doc.LampStock{})
	for _, name := range []string{"Beam, 50 %", "Field, 10 %"} {
		if !strings.HasPrefix(all[name], "none: no light straight down") {
			t.Errorf("%s: %q", name, all[name])
		}
	}
	_, all = factsOf(t, head+"1 -1 1 3 1 1 2 0 0 0 1 1 10 0 90 180 0 100 100 100", &doc.LampStock{})
	if all["Beam, 50 %"] != "none: the light does not fall so far" {
		t.Errorf("isotropic: %q", all["Beam, 50 %"])
	}
}

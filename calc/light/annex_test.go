package light

import (
	"strings"
	"testing"
)

// annexTable is the example of the annex of LM-63 (found: as printed in the edition
// of 2002 and in the tests of a public reader) without its keywords: a lamp of 50000
// lm, one quadrant of three planes. The edition of 1995 has another first candela.
const annexTable = `IESNA:LM-63-2002
TILT=NONE
1 50000 1 5 3 1 1 .5 .6 0
1.0 1.0 495
0 22.5 45 67.5 90
0 45 90
FIRST 50000 25000 10000 5000
100000 35000 16000 8000 3000
100000 20000 10000 5000 1000
`

// TestAnnex: the table of the annex integrates to 98596 lm, nearly twice the flux that
// it states for its lamp; a reader that passes that over in silence misleads.
func TestAnnex(t *testing.T) {
	p, err := ReadLM63([]byte(strings.Replace(annexTable, "FIRST", "100000", 1)))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "flux of the annex of 2002, exact integral", float64(p.Dist.Flux()), 98596, 1)
	if share := float64(p.Dist.Flux() / p.Declared.Value); !p.Declared.Known || share < 1.9 {
		t.Errorf("stated flux %v: the table has %.2f times as much, expected nearly twice", p.Declared, share)
	}
	// By zones, as the guess has it: 105421 lm, which the wide steps make more.
	if told := strings.Join(p.Guesses, "\n"); !strings.Contains(told, "211 % of the 50000 lm declared; 20 to 105 % is usual") {
		t.Errorf("guesses %q: expected 2.11 times the stated flux", p.Guesses)
	}
	old, err := ReadLM63([]byte(strings.Replace(annexTable, "FIRST", "10000", 1)))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "with the first candela of 1995 (derived)", float64(old.Dist.Flux()), 94990, 1)
}

package calc_test

import (
	"math"
	"testing"

	"duskwire/calc"
	"duskwire/calc/network"
)

// TestLoopLine: a reading at a lamp and at the spur unit is compared with 80 % of
// the tabulated loop, whether the loop at the supply was measured or not. Limits:
// B32 230·0.95/160 = 1.37 Ω, 3 A fuse 15.6 Ω (BS 7671 Tables 41.3 and 41.2).
func TestLoopLine(t *testing.T) {
	for _, c := range []struct {
		net, point  string
		line, limit float64
	}{
		{"spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick", "L1", 12.48, 15.6},
		{"spur TN-S zs=0.6 ; board b32-rcbo-30 ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick", "SP1", 1.0925, 1.3656},
		{"spur TN-S ze=0.3 ; board b32-rcbo-30 ; indoor te-2.5 9 C ; fuse fuse-3 ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick", "SP1", 1.0925, 1.3656},
		{"way TN-S ze=0.3 ; board b32-rcbo-30 ; indoor te-2.5 9 C ; R1 SP1 L1 swa-3x1.5 20 D ; L1 = brick", "L1", 1.0925, 1.3656},
		{"way TT ra=100 pfc=900 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; R1 SP1 L1 swa-3x1.5 5 C ; L1 = brick", "L1", 1666.667, 1666.667}, // 50 V / 30 mA, no line
	} {
		in := input(c.net)
		p := point(t, calc.Evaluate(in), c.point)
		line, limit := p.LoopLine(0.8, in.Net.Supply.Earthing)
		if math.Abs(float64(line.Value)-c.line) > 0.005 || math.Abs(float64(limit.Value)-c.limit) > 0.005 {
			t.Errorf("%s of %q: line %v, limit %v, want %g and %g Ω", c.point, c.net, line.Value, limit.Value, c.line, c.limit)
		}
	}
	if line, _ := (&calc.Point{}).LoopLine(0.8, network.TNS); line.Known {
		t.Error("a line without a limit")
	}
}

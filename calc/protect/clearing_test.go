package protect

import (
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

func TestFaultTime(t *testing.T) {
	for _, tt := range []struct {
		name string
		d    network.Device
		i    q.Ampere
		want q.Second // 0: not known
	}{
		{"B6 on its band", breaker("B", 6), 30, 0.1},
		{"B6 under its band", breaker("B", 6), 29.99, 0},
		{"C6 at the current of B6", breaker("C", 6), 30, 0},
		{"3 A link above its 0.4 s point", bs1362(3), 14.1, 0.4},
		{"3 A link under its 0.4 s point", bs1362(3), 13.9, 5},
		{"3 A link under its 5 s point", bs1362(3), 9.9, 0},
		{"5 A link takes the 13 A row", bs1362(5), 20, 0},
		{"residual device alone", rcd(0.03, false), 1000, 0},
	} {
		got, _, ok := FaultTime(tt.d, tt.i, 230, tables())
		if got != tt.want || ok != (tt.want > 0) {
			t.Errorf("%s: %v %v, want %v", tt.name, got, ok, tt.want)
		}
	}
}

// Source: EN 61008-1 Table 1 (from memory).
func TestResidualTimeAt(t *testing.T) {
	for _, tt := range []struct {
		delayed bool
		i       q.Ampere
		want    q.Second
	}{
		{false, 0.0299, 0}, {false, 0.03, 0.3}, {false, 0.0599, 0.3}, {false, 0.06, 0.15},
		{false, 0.1499, 0.15}, {false, 0.15, 0.04}, {false, 100, 0.04},
		{true, 0.03, 0.5}, {true, 0.06, 0.2}, {true, 0.15, 0.15},
	} {
		got, _, ok := ResidualTimeAt(rcd(0.03, tt.delayed), tt.i, tables())
		if got != tt.want || ok != (tt.want > 0) {
			t.Errorf("delayed %v at %v: %v, want %v", tt.delayed, tt.i, got, tt.want)
		}
	}
}

// Which device is relied on. The numbers: 218.5 V over the loop.
func TestDisconnects(t *testing.T) {
	loop := func(z q.Ohm, up ...network.Device) Loop {
		return Loop{Applies: true, Known: true, Hot: z, Upstream: up}
	}
	tests := []struct {
		name     string
		loop     Loop
		earthing network.Earthing
		meets    bool
		opens    bool
		index    int
		residual bool
		time     q.Second
	}{
		{"exactly on the limit of B16", loop(q.Ohm(218.5/80), breaker("B", 16)), network.TNS, true, true, 0, false, 0.1},
		{"just over the limit of B16", loop(2.7313, breaker("B", 16)), network.TNS, false, false, 0, false, 0},
		{"just over, but a 30 mA part is there", loop(2.7313, rcbo("B", 16)), network.TNCS, true, true, 0, true, 0.04},
		{"the fuse of a spur is nearest", loop(1, rcbo("B", 32), bs1362(3)), network.TNCS, true, true, 1, false, 0.4},
		{"a fuse that needs 5 s does not meet 0.4 s", loop(20, bs1362(3)), network.TNS, false, true, 0, false, 5},
		{"the breaker meets where the fuse does not", loop(2.5, breaker("B", 16), bs1362(13)), network.TNS, true, true, 0, false, 0.1},
		{"TT on 180 Ω: the residual device alone", loop(180.5, rcd(0.1, true), breaker("B", 6)), network.TT, true, true, 0, true, 0.15},
		{"TT: 0.2 s and a fuse has no point that short", loop(1, bs1362(3)), network.TT, false, true, 0, false, 0.4},
		{"TT on 180 Ω without residual device", loop(180.5, breaker("B", 6)), network.TT, false, false, 0, false, 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := network.Supply{Nominal: 230, Earthing: tt.earthing}
			d := Disconnects(tt.loop, s, tables())
			if !d.Known || d.Meets != tt.meets || d.Opens != tt.opens || d.By.Time != tt.time || d.By.Residual != tt.residual || d.By.Index != tt.index {
				t.Errorf("got %+v", d)
			}
			if d.ByOvercurrent != (tt.meets && !tt.residual) {
				t.Errorf("ByOvercurrent = %v", d.ByOvercurrent)
			}
		})
	}
}

// TestLongerTime: the 5 s of a larger circuit hold for a way of its own, not
// behind a spur, and not at the rating itself. The fuse takes 5 s at 3.64 Ω
// (BS 1362, 411.4.204).
func TestLongerTime(t *testing.T) {
	tab := tables()
	tab.Times[0].Above, tab.Times[0].Larger = 10, 5
	for _, c := range []struct {
		kind  network.SupplyKind
		fuse  q.Ampere
		meets bool
		limit q.Second
	}{{network.OwnWay, 13, true, 5}, {network.Spur, 13, false, 0.4}, {network.OwnWay, 10, true, 0.4}} {
		loop := Loop{Applies: true, Known: true, Hot: 3, Upstream: []network.Device{bs1362(c.fuse)}}
		if c.fuse == 10 {
			loop.Hot = 1
		}
		d := Disconnects(loop, network.Supply{Nominal: 230, Earthing: network.TNS, Kind: c.kind}, tab)
		if !d.Known || d.Limit != c.limit || d.Meets != c.meets {
			t.Errorf("kind %v, %s: limit %s, meets %v", c.kind, c.fuse, d.Limit, d.Meets)
		}
	}
}

func TestDisconnectsNotKnown(t *testing.T) {
	tn := network.Supply{Nominal: 230, Earthing: network.TNS}
	for name, d := range map[string]Disconnection{
		"does not apply": Disconnects(Loop{}, tn, tables()),
		"loop":           Disconnects(Loop{Applies: true, Missing: "Ze"}, tn, tables()),
		"earthing":       Disconnects(Loop{Applies: true, Known: true, Hot: 1}, network.Supply{Nominal: 230}, tables()),
		"zero loop":      Disconnects(Loop{Applies: true, Known: true}, tn, tables()),
	} {
		if d.Known || d.Meets || d.Missing == "" {
			t.Errorf("%s: %+v, want not known and what is missing", name, d)
		}
	}
}

// The order is board first, overcurrent before residual part.
func TestFaultTimes(t *testing.T) {
	up := []network.Device{rcbo("B", 16), bs1362(3)}
	got := FaultTimes(up, 90, 230, tables())
	if len(got) != 3 || got[0].Residual || !got[1].Residual || got[2].Index != 1 {
		t.Errorf("got %+v", got)
	}
	if got := FaultTimes(up, 12, 230, tables()); len(got) != 2 || !got[0].Residual || got[1].Time != 5 {
		t.Errorf("at 12 A: %+v", got)
	}
}

// Below a step a tabulated point is lost, just above it is not: B6, 5 · 6 A
// (EN 60898-1 Table 2); BS 1362 13 A, 230 · 0.95 / 2.30 Ω at 0.4 s (BS 7671
// Table 41.2).
func TestSteps(t *testing.T) {
	tab := tables()
	for _, d := range []network.Device{{Kind: network.Breaker, Curve: "B", Rating: 6}, {Kind: network.FuseBS1362, Rating: 13}} {
		steps := Steps(d, 230, tab)
		if len(steps) == 0 {
			t.Errorf("%+v has no step", d)
		}
		for _, i := range steps {
			above, _, ok := FaultTime(d, i, 230, tab)
			below, _, still := FaultTime(d, i*(1-1e-9), 230, tab)
			if !ok || still && below <= above {
				t.Errorf("%+v at %v: %v (%v), below %v (%v)", d, i, above, ok, below, still)
			}
		}
	}
	if got := Steps(rcd(0.03, false), 230, tab); got != nil {
		t.Errorf("a residual device has steps %v", got)
	}
}

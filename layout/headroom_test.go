package layout_test

import (
	"strings"
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

func roomAt(t *testing.T, f *layout.Frame, tag string) layout.Room {
	t.Helper()
	h, ok := layout.RoomsOf(f).At(doc.WithTag(f.Scheme, tag).Key())
	if !ok {
		t.Fatalf("no headroom of %s", tag)
	}
	return h
}

// TestGateRoom is scenario 4 of the trade notes on its B6: largest loop 7.28 Ω,
// Zs 3.43 Ω at the lamp, 2 × 12.1 × 1.28 mΩ/m: 124.4 m more of the same cable.
func TestGateRoom(t *testing.T) {
	f := scenario(t, "4-gate.yaml").Frame()
	h := roomAt(t, f, "R1")
	within(t, "metres of R1", float64(h.Metres.Value), (7.2833-float64(point(t, f, "L2").Loop.Hot))/0.030976, 0.05)
	within(t, "metres of R1, by the notes' figures", float64(h.Metres.Value), 124.4, 0.3)
	if h.MetresBinds != "FLT-01" {
		t.Errorf("%s binds", h.MetresBinds)
	}
}

// TestRoomSaysWhatItAssumes: leakage that nobody measured is not silently none,
// and nothing is said once it is known.
func TestRoomSaysWhatItAssumes(t *testing.T) {
	d := scenario(t, "1-terrace-wall.yaml")
	for _, tag := range []string{"R1", "L4"} {
		if h := roomAt(t, d.Frame(), tag); !strings.Contains(h.Assumed, "leakage") {
			t.Errorf("%s: assumed %q, want the unknown leakage named", tag, h.Assumed)
		}
	}
	sp := *d.Frame().Scheme.Supplies.All()[0]
	sp.Leakage = q.Some(q.Ampere(0.001))
	commit(t, d, edit.SetSupply{Supply: &sp})
	if h := roomAt(t, d.Frame(), "R1"); h.Assumed != "" {
		t.Errorf("with the leakage known R1 still assumes %q", h.Assumed)
	}
}

// TestRooms: the example has room everywhere; a zone has what the tightest of
// its lamps has; what has turned already leaves nothing.
func TestRooms(t *testing.T) {
	d := desk(t, "../assets/examples/townhouse.yaml")
	f := d.Frame()
	rooms := d.Rooms()
	if rooms != d.Rooms() {
		t.Error("worked out twice for one frame")
	}
	for _, r := range f.Scheme.Runs.All() {
		if h, ok := rooms.At(r.ID); !ok || !h.Metres.Known || h.Metres.Value <= 0 || h.MetresBinds == "" || !h.Amperes.Known || h.LampsText() == "" {
			t.Errorf("%s: %+v", r.Tag, h)
		}
	}
	for _, z := range f.Scheme.Zones.All() {
		h, ok := rooms.At(z.ID)
		if !ok {
			t.Fatalf("no headroom of zone %s", z.Tag)
		}
		least := false
		for _, l := range f.Scheme.Lamps.All() {
			if l.Zone != z.ID {
				continue
			}
			at, _ := rooms.At(l.ID)
			if at.Amperes.Value < h.Amperes.Value {
				t.Errorf("%s has more room than its %s", z.Tag, l.Tag)
			}
			least = least || at.Amperes.Value == h.Amperes.Value
		}
		if !least {
			t.Errorf("%s has the room of none of its lamps", z.Tag)
		}
	}
	if n := len(rooms.RCDs()); n != 1 {
		t.Errorf("%d residual devices", n)
	}
	bad := scenario(t, "2-dim-end.yaml").Frame()
	if h := roomAt(t, bad, "R11"); h.Metres.Value != 0 || !h.Metres.Known || h.Lamps.Value != 0 {
		t.Errorf("the dim end has room: %+v", h)
	}
}

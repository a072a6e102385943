package layout

import (
	"math"
	"strconv"

	"duskwire/calc"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// Room is the headroom at one entity, with the lamp that it is counted in.
type Room struct {
	calc.Headroom
	Lamp calc.Lamp // zero when there is none
	// Assumed says what was not known and was taken instead; "" for nothing.
	Assumed string
}

// leakAssumed is said of room on the mains while nobody has measured what
// leaked before the garden: LEK-01 then counts the garden alone.
const leakAssumed = "the leakage that was there before is not known and was taken as none"

// Rooms is the headroom of a whole scheme: of runs, points, sources and zones,
// by id.
type Rooms struct {
	room map[doc.ID]Room
	rcds []calc.LeakRoom
}

// RCDs returns the headroom of the residual devices, circuit by circuit.
func (r *Rooms) RCDs() []calc.LeakRoom { return r.rcds }

// At returns the headroom of an entity: of a run its metres, and what may be
// drawn at its far end; of a point what may be drawn there; of a source what it
// may deliver; of a zone what the tightest of its lamps leaves. ok is false for
// what is in no circuit.
func (r *Rooms) At(id doc.ID) (Room, bool) {
	h, ok := r.room[id]
	return h, ok
}

// RoomsOf works out the headroom of a frame, in a time in proportion to its
// size.
func RoomsOf(f *Frame) *Rooms {
	n := 0
	for i := range f.Results {
		n += len(f.Results[i].Points) + len(f.Results[i].Runs)
	}
	out := &Rooms{room: make(map[doc.ID]Room, n)}
	for i := range f.Circuits.Circuits {
		in, res := f.Circuits.Circuits[i].Input, f.Results[i]
		asked := make(chan *calc.Rooms, 1)
		go func() { asked <- calc.Room(in, res) }()
		var got *calc.Rooms
		lamp := func(sys int) (l calc.Lamp) {
			if sys >= 0 && sys < len(got.Median) {
				l = got.Median[sys]
			}
			return l
		}
		assumed := func(sys int) string {
			if sys == 0 && len(got.RCDs) > 0 && !in.Net.Supply.LeakageAmpere.Known {
				return leakAssumed
			}
			return ""
		}
		system := make(map[doc.ID]int, len(in.Net.Nodes))
		far := make(map[doc.ID]int, len(in.Net.Branches))
		for k := range in.Net.Nodes {
			n := &in.Net.Nodes[k]
			system[doc.ID(n.ID)] = n.System // of a source the output, its later node
		}
		for k := range in.Net.Branches {
			br := &in.Net.Branches[k]
			far[doc.ID(br.ID)] = in.Net.Nodes[br.To].System
		}
		got = <-asked
		for k := range got.Points {
			id := doc.ID(res.Points[k].ID)
			if _, twice := out.room[id]; id != "" && !twice {
				out.room[id] = Room{got.Points[k], lamp(system[id]), also(assumed(system[id]), got.Points[k].Missing)}
			}
		}
		out.rcds = append(out.rcds, got.RCDs...)
		for k := range got.Runs {
			id := doc.ID(res.Runs[k].ID)
			out.room[id] = Room{got.Runs[k], lamp(far[id]), also(assumed(far[id]), got.Runs[k].Missing)}
		}
		for _, s := range got.Sources {
			id := doc.ID(s.ID)
			out.room[id] = Room{s.Headroom, lamp(far[id]), s.Missing}
		}
	}
	out.zones(f.Scheme)
	return out
}

// also joins two things that were assumed.
func also(a, b string) string {
	if a != "" && b != "" {
		return a + "; " + b
	}
	return a + b
}

// zones gives each zone what the tightest of its lamps leaves.
func (r *Rooms) zones(s *doc.Scheme) {
	for _, z := range s.Zones.All() {
		var least Room
		for _, l := range s.Lamps.All() {
			h, ok := r.room[l.ID]
			if l.Zone != z.ID || !ok || !h.Amperes.Known {
				continue
			}
			if !least.Amperes.Known || h.Amperes.Value < least.Amperes.Value {
				least = h
			}
		}
		if least.Amperes.Known {
			r.room[z.ID] = least
		}
	}
}

// LampsText says how many lamps like the median one may be added: "3 lamps of
// 5 W"; "" when that is not known.
func (h Room) LampsText() string {
	if !h.Lamps.Known || h.Lamp.Power <= 0 {
		return ""
	}
	noun := " lamps of "
	if h.Lamps.Value == 1 {
		noun = " lamp of "
	}
	return h.Lamps.Value.String() + noun + h.Lamp.Power.String()
}

// MetresText writes metres left, rounded down to a tenth: what is left must not
// be promised too long.
func MetresText(m q.Metre) string {
	return q.Metre(math.Floor(float64(m)*10+1e-6) / 10).String()
}

// AmperesText writes amperes left, rounded down to a hundredth.
func AmperesText(a q.Ampere) string {
	return q.Ampere(math.Floor(float64(a)*100+1e-6) / 100).String()
}

// MilliampsText writes leakage left, rounded down to a tenth of a milliampere.
func MilliampsText(a q.Ampere) string {
	return strconv.FormatFloat(math.Floor(float64(a)*1e4+1e-6)/10, 'f', 1, 64) + " mA"
}

package layout

import (
	"math"
	"strconv"

	"duskwire/calc"
	"duskwire/calc/network"
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
	scheme   *doc.Scheme
	circuits []circuitRooms
	// Where the headroom of each run, lamp, box, piece of gear, source and supply
	// point of the scheme stands.
	runs, lamps, boxes, gear, sources, supplies []roomPlace
	zone                                        map[doc.ID]Room
	rcds                                        []calc.LeakRoom
}

// circuitRooms is the headroom of one circuit.
type circuitRooms struct {
	*calc.Rooms
	assumed string // of room on the mains
}

// roomPlace is a place in the lists of one circuit.
type roomPlace struct {
	circuit int32 // from 1; 0 for none
	system  int32
	at      int32
	source  bool // in Sources, not in Points or Runs
}

// RCDs returns the headroom of the residual devices, circuit by circuit.
func (r *Rooms) RCDs() []calc.LeakRoom { return r.rcds }

// At returns the headroom of an entity: of a run its metres, and what may be
// drawn at its far end; of a point what may be drawn there; of a source what it
// may deliver; of a zone what the tightest of its lamps leaves. ok is false for
// what is in no circuit.
func (r *Rooms) At(id doc.ID) (Room, bool) {
	s := r.scheme
	if i, ok := s.Runs.Index(id); ok {
		p := r.runs[i]
		if p.circuit == 0 {
			return Room{}, false
		}
		return r.room(p, r.circuits[p.circuit-1].Runs), true
	}
	if p := place(r, id); p.circuit != 0 {
		c := &r.circuits[p.circuit-1]
		if p.source {
			h := c.Sources[p.at]
			return Room{h.Headroom, c.lamp(p), h.Missing}, true
		}
		return r.room(p, c.Points), true
	}
	h, ok := r.zone[id]
	return h, ok
}

func (r *Rooms) room(p roomPlace, list []calc.Headroom) Room {
	c, h := &r.circuits[p.circuit-1], list[p.at]
	assumed := ""
	if p.system == 0 {
		assumed = c.assumed
	}
	return Room{h, c.lamp(p), also(assumed, h.Missing)}
}

func (c *circuitRooms) lamp(p roomPlace) (l calc.Lamp) {
	if int(p.system) < len(c.Median) {
		l = c.Median[p.system]
	}
	return l
}

// place returns the place of a point, none for anything else.
func place(r *Rooms, id doc.ID) roomPlace {
	s := r.scheme
	if i, ok := s.Lamps.Index(id); ok {
		return r.lamps[i]
	}
	if i, ok := s.Boxes.Index(id); ok {
		return r.boxes[i]
	}
	if i, ok := s.Gear.Index(id); ok {
		return r.gear[i]
	}
	if i, ok := s.Sources.Index(id); ok {
		return r.sources[i]
	}
	if i, ok := s.Supplies.Index(id); ok {
		return r.supplies[i]
	}
	return roomPlace{}
}

// RoomsOf works out the headroom of a frame, in a time in proportion to its
// size.
func RoomsOf(f *Frame) *Rooms {
	s := f.Scheme
	out := &Rooms{
		scheme: s, circuits: make([]circuitRooms, len(f.Results)),
		runs: make([]roomPlace, s.Runs.Len()), lamps: make([]roomPlace, s.Lamps.Len()), boxes: make([]roomPlace, s.Boxes.Len()),
		gear: make([]roomPlace, s.Gear.Len()), sources: make([]roomPlace, s.Sources.Len()), supplies: make([]roomPlace, s.Supplies.Len()),
	}
	beside(s.Runs.Len(), func() {
		for i := range f.Results {
			out.placeAll(int32(i), f.Circuits.Circuits[i].Input.Net, f.Results[i])
		}
	}, func() {
		each(f.Circuits.Circuits, func(i int) {
			in := f.Circuits.Circuits[i].Input
			c := &out.circuits[i]
			if i < len(f.worked) {
				c.Rooms = f.worked[i].Room()
			} else {
				c.Rooms = calc.Room(in, f.Results[i])
			}
			if len(c.RCDs) > 0 && !in.Net.Supply.LeakageAmpere.Known {
				c.assumed = leakAssumed
			}
		})
	})
	for i := range out.circuits {
		out.rcds = append(out.rcds, out.circuits[i].RCDs...)
	}
	out.zones(s)
	return out
}

// placeAll notes where things of one circuit stand in the lists that calc.Room
// makes of it. A circuit without a solution has none.
func (r *Rooms) placeAll(circuit int32, n *network.Net, res *calc.Result) {
	if len(res.Solution.Current) == 0 {
		return
	}
	at := int32(0)
	for k := range n.Nodes {
		if k == n.Root {
			continue
		}
		r.placePoint(&n.Nodes[k], roomPlace{circuit: circuit + 1, system: int32(n.Nodes[k].System), at: at})
		at++
	}
	run, source := int32(0), int32(0)
	for b := range n.Branches {
		br := &n.Branches[b]
		p := roomPlace{circuit: circuit + 1, system: int32(n.Nodes[br.To].System)}
		switch {
		case br.ID == "" || br.Strip != nil:
		case br.Converter == nil:
			p.at = run
			run++
			if i, ok := r.scheme.Runs.Index(doc.ID(br.ID)); ok {
				r.runs[i] = p
			}
		case res.Tree.Parent[br.To] == b || res.Tree.Parent[br.From] == b: // fed
			p.at, p.source = source, true
			source++
			if i, ok := r.scheme.Sources.Index(doc.ID(br.ID)); ok {
				r.sources[i] = p
			}
		}
	}
}

// placePoint notes the place of the point of a node. A point in two circuits is
// found in the first, one of two nodes at the first of them.
func (r *Rooms) placePoint(n *network.Node, p roomPlace) {
	id, s := doc.ID(n.ID), r.scheme
	list, i, ok := r.supplies, 0, false
	switch n.Kind {
	case network.LampNode:
		i, ok = s.Lamps.Index(id)
		list = r.lamps
	case network.BoxNode:
		i, ok = s.Boxes.Index(id)
		list = r.boxes
	case network.GearNode:
		i, ok = s.Gear.Index(id)
		list = r.gear
	case network.PrimaryNode, network.SecondaryNode:
		i, ok = s.Sources.Index(id)
		list = r.sources
	case network.SupplyNode:
		i, ok = s.Supplies.Index(id)
	}
	if ok && list[i].circuit == 0 {
		list[i] = p
	}
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
	r.zone = make(map[doc.ID]Room, s.Zones.Len())
	for _, l := range s.Lamps.All() {
		if l.Zone == "" {
			continue
		}
		h, ok := r.At(l.ID)
		if least, had := r.zone[l.Zone]; ok && h.Amperes.Known && (!had || h.Amperes.Value < least.Amperes.Value) {
			r.zone[l.Zone] = h
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

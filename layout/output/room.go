package output

import (
	"math"

	"duskwire/layout"
	"duskwire/layout/doc"
)

// RunRoom is the headroom of a run: what is left before a finding turns, and
// the rule that would bind. null where nothing limits it or it cannot be judged.
type RunRoom struct {
	Metres       *float64 `json:"headroom_m"`
	MetresBinds  string   `json:"headroom_binds,omitempty"`
	Amperes      *float64 `json:"headroom_a"`
	AmperesBinds string   `json:"headroom_a_binds,omitempty"`
	Lamps        *float64 `json:"headroom_lamps"`
	LampsBinds   string   `json:"headroom_lamps_binds,omitempty"`
	LampWatt     *float64 `json:"headroom_lamp_watt"`
	Assumed      string   `json:"headroom_assumed,omitempty"`
}

// RoomRow is the headroom of a source or of a zone.
type RoomRow struct {
	ID         string   `json:"id"`
	Tag        string   `json:"tag"`
	Amperes    *float64 `json:"headroom_a"`
	Lamps      *float64 `json:"headroom_lamps"`
	LampWatt   *float64 `json:"headroom_lamp_watt"`
	Binds      string   `json:"headroom_binds,omitempty"`
	LampsBinds string   `json:"headroom_lamps_binds,omitempty"`
}

// LeakRow is the headroom of a residual device: more leakage, in A, and how
// many lamps like the one there that leaks most.
type LeakRow struct {
	ID      string   `json:"id"`
	Tag     string   `json:"tag"`
	Device  string   `json:"device"`
	Amperes *float64 `json:"headroom_a"`
	Lamps   *float64 `json:"headroom_lamps"`
	Each    float64  `json:"headroom_lamp_leakage_a"`
	Binds   string   `json:"headroom_binds"`
}

func leakRows(rooms *layout.Rooms) []LeakRow {
	rows := []LeakRow{}
	for _, l := range rooms.RCDs() {
		rows = append(rows, LeakRow{ID: l.ID, Tag: l.Label, Device: l.Device, Binds: string(l.Binds), Each: round(float64(l.Each), 6),
			Amperes: floor(float64(l.Left.Value), l.Left.Known, 5), Lamps: known(float64(l.Lamps.Value), l.Lamps.Known, 0)})
	}
	return rows
}

func runRoom(rooms *layout.Rooms, id doc.ID, room *figureRoom) RunRoom {
	h, ok := rooms.At(id)
	if !ok {
		return RunRoom{}
	}
	r := RunRoom{
		Metres: room.floor(float64(h.Metres.Value), h.Metres.Known, 2), MetresBinds: string(h.MetresBinds),
		Amperes: room.floor(float64(h.Amperes.Value), h.Amperes.Known, 3), AmperesBinds: string(h.AmperesBinds),
	}
	r.Lamps, r.LampWatt = lampsOf(h, room)
	r.LampsBinds, r.Assumed = string(h.LampsBinds), h.Assumed
	return r
}

func roomRow(rooms *layout.Rooms, id doc.ID, tag string, room *figureRoom) RoomRow {
	row := RoomRow{ID: string(id), Tag: tag}
	if h, ok := rooms.At(id); ok {
		row.Amperes, row.Binds = floor(float64(h.Amperes.Value), h.Amperes.Known, 3), string(h.AmperesBinds)
		row.Lamps, row.LampWatt = lampsOf(h, room)
		row.LampsBinds = string(h.LampsBinds)
	}
	return row
}

func lampsOf(h layout.Room, room *figureRoom) (n, watt *float64) {
	return room.known(float64(h.Lamps.Value), h.Lamps.Known, 0), room.known(float64(h.Lamp.Power), h.Lamps.Known, 1)
}

// figureRoom hands out places for figures, many at a time: a large scheme has some
// hundred thousand of them.
type figureRoom struct{ free []float64 }

// known is known with a place of this room.
func (r *figureRoom) known(v float64, ok bool, digits int) *float64 {
	if !ok {
		return nil
	}
	if len(r.free) == 0 {
		r.free = make([]float64, 256)
	}
	at := &r.free[0]
	*at, r.free = round(v, digits), r.free[1:]
	return at
}

// floor rounds down: what is left must not be promised too long.
func (r *figureRoom) floor(v float64, ok bool, digits int) *float64 {
	k := math.Pow10(digits)
	return r.known(math.Floor(v*k+1e-6)/k, ok, digits)
}

// floor is the same of a single figure.
func floor(v float64, ok bool, digits int) *float64 {
	k := math.Pow10(digits)
	return known(math.Floor(v*k+1e-6)/k, ok, digits)
}

// roomRows lists what is left at every source and every zone.
func roomRows(f *layout.Frame, rooms *layout.Rooms) (sources, zones []RoomRow) {
	sources, zones = []RoomRow{}, []RoomRow{}
	var room figureRoom
	for _, s := range f.Scheme.Sources.All() {
		sources = append(sources, roomRow(rooms, s.ID, s.Tag, &room))
	}
	for _, z := range f.Scheme.Zones.All() {
		zones = append(zones, roomRow(rooms, z.ID, z.Tag, &room))
	}
	return sources, zones
}

// roomTable is the table of what is left.
func (r ReadingsReport) roomTable() *table {
	t := newTable("Room left", "m", "binds", "A", "binds", "lamps", "of W", "binds")
	t.grow(len(r.Runs))
	for i := range r.Runs {
		h := &r.Runs[i].RunRoom
		t.cell(r.Runs[i].Tag)
		t.number(h.Metres, 1)
		t.cell(dash(h.MetresBinds))
		t.number(h.Amperes, 2)
		t.cell(dash(h.AmperesBinds))
		t.number(h.Lamps, 0)
		t.number(h.LampWatt, 0)
		t.cell(dash(h.LampsBinds))
	}
	for _, rows := range [][]RoomRow{r.Sources, r.Zones} {
		for _, h := range rows {
			t.row(h.Tag, "-", "-", cell(h.Amperes, 2), dash(h.Binds), cell(h.Lamps, 0), cell(h.LampWatt, 0), dash(h.LampsBinds))
		}
	}
	for _, l := range r.RCDs {
		t.row(l.Tag+", "+l.Device, "-", "-", cell(l.Amperes, 4), dash(l.Binds), cell(l.Lamps, 0), "-", dash(l.Binds))
	}
	return t
}

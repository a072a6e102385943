package doc

import (
	"duskwire/calc/light"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// Stock is the stock book: fittings, cables, boxes, sources, gear and devices.
// Look-ups are by key; order is the order of the files, shipped items last.
type Stock struct {
	Lamps   []LampStock
	Boxes   []BoxStock
	Sources []SourceStock
	Gear    []GearStock
	Devices []DeviceStock
	Cables  []*network.Cable
}

// LampStock is one fitting.
type LampStock struct {
	Key, Name   string
	Kind        string // "wall", "spike", "bollard", "recessed", "pond", "step", "festoon"
	Current     network.Current
	AnyCurrent  bool // takes AC and DC
	Load        network.Load
	Class       network.Class
	IP          string
	Flux        q.Lumen
	Temperature q.Kelvin  // correlated colour temperature; 0 unknown
	Beam        float64   // degrees, in the upright plane through the aim; 0 unknown
	Across      float64   // degrees, of a beam that is another across that plane; 0 the same
	Peak        q.Candela // in the middle of the beam; 0 unknown
	LampFlux    q.Lumen   // of its bare lamps, where others can be put in than a file was made with; 0 not said
	// Makes is the flux that peak and beam make where they do not agree with Flux, 0
	// otherwise; worked out, as Filed is.
	Makes q.Lumen
	// Filed is what a photometric file in use says of its light, nil without one.
	Filed      *FiledLight
	Height     geom.Length
	Slack      q.Metre  // coil left at a movable lamp
	Leakage    q.Ampere // standing leakage to earth; 0 unknown
	Inrush     q.Ampere // peak when switched on; 0 unknown
	InrushTime q.Second // above half of the peak; 0 unknown
	Dimmable   network.Answer
	Lampholder network.Answer // bayonet or screw
	Metal      network.Answer // body
	Length     q.Metre        // of a strip that draws Load.Power; 0 for what is no strip
	Tracks     q.OhmPerMetre  // of a strip, both of its tracks; 0 unknown
	Source     string         // where the data come from
}

// FiledLight is what a photometric file says of a fitting.
type FiledLight struct {
	Edge    *light.Edge
	Peak    q.Candela
	Opening light.Opening // what shines, as the file was mirrored and turned
}

// BoxStock is one junction box.
type BoxStock struct {
	Key, Name string
	IP        string
	Entries   int
	Side      q.Metre // of a square box, the shorter one of another; 0 unknown
	Metal     bool
	Buried    bool // made for burial
	Height    geom.Length
	Filling   float64 // m³ of gel or resin that fill it, by its maker; 0 unknown
	Source    string
}

// SourceStock is one transformer or driver.
type SourceStock struct {
	Key, Name string
	Converter network.Converter
	Input     q.Volt
	Leakage   q.Ampere       // standing leakage to earth of the input; 0 unknown
	Dimmable  network.Answer // by a dimmer ahead of it
	Class     network.Class
	IP        string
	Height    geom.Length
	Source    string
}

// GearStock is one piece of control or isolating gear.
type GearStock struct {
	Key, Name string
	Kind      string // "isolator", "fused unit", "receiver", "photocell", "time switch", "sensor", "dimmer", "residual device"
	Devices   []string
	Control   network.Gear // its ratings; Kind is the same
	IP        string
	Height    geom.Length
	Source    string
}

// DeviceStock is one protective device.
type DeviceStock struct {
	Key, Name string
	Device    network.Device
	Source    string
}

// Over returns the stock book with top's items before s's own; an item of s
// with a key that top has too is hidden.
func (s Stock) Over(top Stock) Stock {
	return Stock{
		Lamps:   over(top.Lamps, s.Lamps, func(i LampStock) string { return i.Key }),
		Boxes:   over(top.Boxes, s.Boxes, func(i BoxStock) string { return i.Key }),
		Sources: over(top.Sources, s.Sources, func(i SourceStock) string { return i.Key }),
		Gear:    over(top.Gear, s.Gear, func(i GearStock) string { return i.Key }),
		Devices: over(top.Devices, s.Devices, func(i DeviceStock) string { return i.Key }),
		Cables:  over(top.Cables, s.Cables, func(i *network.Cable) string { return i.Key }),
	}
}

func over[T any](top, base []T, key func(T) string) []T {
	if len(top) == 0 {
		return base
	}
	out := append([]T(nil), top...)
	for _, b := range base {
		if _, ok := find(top, key, key(b)); !ok {
			out = append(out, b)
		}
	}
	return out
}

func find[T any](items []T, key func(T) string, want string) (item T, ok bool) {
	for _, i := range items {
		if key(i) == want {
			return i, true
		}
	}
	return item, false
}

// Keys returns the keys of all items that an entity of the kind may name as
// its stock, in order.
func (s Stock) Keys(k Kind) []string {
	switch k {
	case BoxKind:
		return keysOf(s.Boxes, func(i BoxStock) string { return i.Key })
	case LampKind:
		return keysOf(s.Lamps, func(i LampStock) string { return i.Key })
	case GearKind:
		return keysOf(s.Gear, func(i GearStock) string { return i.Key })
	case SourceKind:
		return keysOf(s.Sources, func(i SourceStock) string { return i.Key })
	case RunKind:
		return keysOf(s.Cables, func(i *network.Cable) string { return i.Key })
	}
	return nil
}

func keysOf[T any](items []T, key func(T) string) []string {
	out := make([]string, len(items))
	for i, item := range items {
		out[i] = key(item)
	}
	return out
}

// Lamp returns the fitting with the key.
func (s Stock) Lamp(key string) (LampStock, bool) {
	return find(s.Lamps, func(i LampStock) string { return i.Key }, key)
}

// Box returns the junction box with the key.
func (s Stock) Box(key string) (BoxStock, bool) {
	return find(s.Boxes, func(i BoxStock) string { return i.Key }, key)
}

// Converter returns the source with the key.
func (s Stock) Converter(key string) (SourceStock, bool) {
	return find(s.Sources, func(i SourceStock) string { return i.Key }, key)
}

// GearItem returns the gear with the key.
func (s Stock) GearItem(key string) (GearStock, bool) {
	return find(s.Gear, func(i GearStock) string { return i.Key }, key)
}

// Device returns the protective device with the key.
func (s Stock) Device(key string) (DeviceStock, bool) {
	return find(s.Devices, func(i DeviceStock) string { return i.Key }, key)
}

// Cable returns the cable with the key.
func (s Stock) Cable(key string) (*network.Cable, bool) {
	return find(s.Cables, func(i *network.Cable) string { return i.Key }, key)
}

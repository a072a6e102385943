package packs

import (
	"math"
	"slices"
	"strings"

	"duskwire/calc"
	"duskwire/calc/light"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// runningYear is the year whose nights are counted; another one differs by
// minutes. It is fixed so that the same scheme gives the same page.
const runningYear = 2026

const yearHours = 8760.0

// zoneDraw is what the lamps of one zone take from the supply.
type zoneDraw struct {
	name  string
	lamps int
	// unknown is how many of them take what is not known: no supply feeds them, or
	// their circuit has no steady state.
	unknown int
	watts   q.Watt
	off     doc.Off // when the zone goes out; not set where nobody said
	hours   float64 // of it in a year, where off is set and the hours are known
}

// standby is something that takes power while the lamps are off.
type standby struct {
	tag   string
	watts q.Maybe[q.Watt]
	// dark says that it does so only while the lamps are off: a source that no
	// gear switches. Gear takes its standby around the clock.
	dark bool
}

// running is what running the lights comes to over a year.
type running struct {
	zones   []zoneDraw
	total   zoneDraw
	untrue  []string // circuits without a steady state
	unfed   []string // lamps that no supply feeds
	standby []standby
	off     [3]doc.Off
	nights  bool // the hours are known
	hours   [3]float64
	year    light.SunYear
	clock   light.Clock
	tariff  q.Maybe[doc.Tariff]
	missing []string // what is asked for
	assumed []string
}

// runningOf works out the running cost of the scheme.
func (b *book) runningOf() *running {
	v := b.scheme.Running
	r := &running{off: v.Times(), tariff: v.Tariff}
	b.draws(r)
	b.standbys(r)
	if !v.Latitude.Known {
		r.missing = append(r.missing, "the latitude")
	}
	if !v.Longitude.Known {
		r.missing = append(r.missing, "the longitude")
	}
	if r.nights = len(r.missing) == 0; r.nights {
		r.clock = b.clockOf(r)
		r.year = light.SunYearOf(runningYear, float64(v.Latitude.Value), float64(v.Longitude.Value))
		for i, o := range r.off {
			r.hours[i] = r.burning(o)
		}
		for i := range r.zones {
			if z := &r.zones[i]; z.off.Set {
				z.hours = r.burning(z.off)
			}
		}
	}
	if !v.Tariff.Known {
		r.missing = append(r.missing, "the tariff (the price of one kWh)")
	}
	return r
}

// burning is how many hours a year lights burn that go out then.
func (r *running) burning(o doc.Off) float64 {
	return r.year.Burning(r.clock, light.Off{Dawn: o.Dawn, Hour: float64(o.Minute) / 60})
}

// burns is how many hours a year a zone burns where the others go out at time i: a
// zone with a time of its own keeps to that.
func (r *running) burns(z *zoneDraw, i int) float64 {
	if z.off.Set {
		return z.hours
	}
	return r.hours[i]
}

// british are the countries whose clock is known: universal time, and summer
// time by the European rule (the Summer Time Order 2002; from memory).
var british = []string{"England", "Wales", "Scotland", "Northern Ireland"}

// clockOf returns the clock of the house and says what was taken for what nobody
// said.
func (b *book) clockOf(r *running) light.Clock {
	v := b.scheme.Running
	c := light.Clock{Ahead: float64(v.Ahead.Value), Summer: v.Summer == "european"}
	home := slices.Contains(british, b.scheme.Country)
	if !v.Ahead.Known && !home {
		c.Ahead = math.Round(float64(v.Longitude.Value) / 15)
		r.assumed = append(r.assumed, "clock "+doc.Hours(c.Ahead).String()+" ahead of universal time in winter, by the longitude")
	}
	if v.Summer == "" && home {
		c.Summer = true
	} else if v.Summer == "" {
		r.assumed = append(r.assumed, "clock without summer time")
	}
	return c
}

// draws shares the watts of every circuit among the zones.
func (b *book) draws(r *running) {
	zone := map[doc.ID]*zoneDraw{}
	var order []*zoneDraw
	for _, z := range b.scheme.Zones.All() {
		d := &zoneDraw{name: b.called(z.ID), off: z.Off}
		zone[z.ID] = d
		order = append(order, d)
	}
	none := &zoneDraw{name: "In no zone"}
	of := func(lamp *doc.Lamp) *zoneDraw {
		if d := zone[lamp.Zone]; d != nil {
			return d
		}
		return none
	}
	for _, l := range b.scheme.Lamps.All() {
		of(l).lamps++
		if _, fed := b.node[l.ID]; !fed {
			of(l).unknown++
			r.unfed = append(r.unfed, l.Tag)
		}
	}
	idle := q.Watt(0)
	for i := range b.Frame.Circuits.Circuits {
		in := b.Frame.Circuits.Circuits[i].Input
		p := calc.Power(in)
		if !p.Trusted {
			r.untrue = append(r.untrue, in.Net.Label)
			for id := range b.lampsOn(i) {
				if lamp, ok := b.scheme.Lamps.Get(id); ok {
					of(lamp).unknown++
				}
			}
			continue
		}
		idle += p.Idle
		for n := range in.Net.Nodes {
			if lamp, ok := b.scheme.Lamps.Get(doc.ID(in.Net.Nodes[n].ID)); ok {
				of(lamp).watts += p.Node[n]
			}
		}
	}
	if none.lamps > 0 {
		order = append(order, none)
	}
	for _, d := range order {
		r.zones = append(r.zones, *d)
		r.total.lamps += d.lamps
		r.total.unknown += d.unknown
		r.total.watts += d.watts
	}
	if idle > 0.05 {
		r.zones = append(r.zones, zoneDraw{name: "Sources and cable without a lamp", watts: idle})
		r.total.watts += idle
	}
}

// lampsOn returns the things with a node on circuit i.
func (b *book) lampsOn(i int) map[doc.ID]bool {
	out := map[doc.ID]bool{}
	for n := range b.Frame.Circuits.Circuits[i].Input.Net.Nodes {
		out[doc.ID(b.Frame.Circuits.Circuits[i].Input.Net.Nodes[n].ID)] = true
	}
	return out
}

// dark reports whether nothing can be said of the watts of all: a circuit has no
// steady state, or there are lamps and none of them is fed.
func (r *running) dark() bool {
	return len(r.untrue) > 0 || r.total.lamps > 0 && r.total.unknown == r.total.lamps
}

// standbys lists what takes power while the lamps are off.
func (b *book) standbys(r *running) {
	seen := map[string]bool{}
	for i := range b.Frame.Circuits.Circuits {
		net := b.Frame.Circuits.Circuits[i].Input.Net
		tree := network.BuildTree(net)
		switched := make([]bool, len(net.Nodes)) // behind control gear
		for _, n := range tree.Order {
			if tree.Parent[n] >= 0 {
				up := tree.Up(net, n)
				g := net.Nodes[up].Gear
				switched[n] = switched[up] || g != nil && g.Controls()
			}
			node := &net.Nodes[n]
			if seen[node.ID] {
				continue
			}
			switch {
			case node.Kind == network.GearNode && node.Gear != nil && (node.Gear.Controls() || node.Gear.Standby.Known):
				r.standby = append(r.standby, standby{tag: node.Label, watts: node.Gear.Standby})
			case node.Kind == network.PrimaryNode && !switched[n]:
				s := standby{tag: node.Label, dark: true}
				if src, ok := b.scheme.Sources.Get(doc.ID(node.ID)); ok {
					if item, ok := b.stock.Converter(src.Stock); ok && item.Converter.NoLoad > 0 {
						s.watts = q.Some(item.Converter.NoLoad)
					}
				}
				r.standby = append(r.standby, s)
			default:
				continue
			}
			seen[node.ID] = true
		}
	}
}

// kilowattHours of a year of something that takes so many watts for so long.
func kilowattHours(w q.Watt, hours float64) float64 { return float64(w) * hours / 1000 }

// standbyHours is how long something on standby takes its watts, with the lamps
// going out at time i.
func (r *running) standbyHours(s standby, i int) float64 {
	if s.dark {
		return yearHours - r.hours[i]
	}
	return yearHours
}

// standbyTotal sums up the standby whose watts are known, in watts and in kWh for
// each time, and lists those whose watts are not.
func (r *running) standbyTotal() (watts q.Watt, kWh [3]float64, unsaid []string) {
	for _, s := range r.standby {
		if !s.watts.Known {
			unsaid = append(unsaid, s.tag)
			continue
		}
		watts += s.watts.Value
		for i := range kWh {
			kWh[i] += kilowattHours(s.watts.Value, r.standbyHours(s, i))
		}
	}
	return watts, kWh, unsaid
}

// cost returns what so many kWh cost; not known without a tariff.
func (r *running) cost(kWh float64) (m q.Maybe[doc.Money]) {
	if r.tariff.Known {
		m = q.Some(doc.Money(math.Round(kWh * float64(r.tariff.Value))))
	}
	return m
}

// yearly returns the kWh of everything for each time.
func (r *running) yearly() (kWh [3]float64) {
	_, idle, _ := r.standbyTotal()
	for i := range kWh {
		kWh[i] = idle[i]
		for k := range r.zones {
			kWh[i] += kilowattHours(r.zones[k].watts, r.burns(&r.zones[k], i))
		}
	}
	return kWh
}

// clockText writes hours of universal time on a day of the running year as the
// clock of the house shows them.
func (r *running) clockText(d light.Date, ut float64) string {
	m := int(math.Round(r.clock.Shows(d, ut) * 60))
	m = ((m % 1440) + 1440) % 1440
	return doc.Off{Set: true, Minute: m}.String()
}

// listed joins words with commas and an "and".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}

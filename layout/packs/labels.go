package packs

import (
	"strings"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// label is one label to be cut out.
type label struct {
	head string
	text []string
}

// labels lists the labels of the installation. The words are ours; BS 7671 514
// asks for notices of this kind (from memory).
func (b *book) labels() (out []label) {
	add := func(head string, text ...string) { out = append(out, label{head, text}) }
	for i := range b.Frame.Circuits.Circuits {
		c := &b.Frame.Circuits.Circuits[i]
		s, ok := b.scheme.Supplies.Get(c.Supply)
		if !ok {
			continue
		}
		name := b.deviceName(s)
		add("Isolation point "+s.Tag, "Garden lighting is switched off here.", "Fed from: "+name, "More than one supply may be present.")
		add("Circuit "+c.Input.Net.Label, b.circuitLines(i)...)
		if b.residual(c.Input.Net) {
			add("Residual current device", "Protects the garden lighting. Press its test button twice a year: it has to switch off. If it does not, have it seen to.", "Last test:")
		}
	}
	if len(b.trench.stretches) > 0 {
		for range 2 {
			add("Caution: buried cable", "Cables of the garden lighting lie in the ground here. Ask for the as-built drawing before digging.")
		}
	}
	for _, g := range b.scheme.Gear.All() {
		add(g.Tag, b.whatIs(g))
	}
	for _, s := range b.scheme.Sources.All() {
		add("Source "+s.Tag, b.whatIs(s), "Feeds: "+b.fedBy(s.ID))
	}
	for _, x := range b.scheme.Boxes.All() {
		add("Box "+x.Tag, b.whatIs(x), "Garden lighting. Isolate before opening.")
	}
	for _, z := range b.scheme.Zones.All() {
		n := 0
		for _, l := range b.scheme.Lamps.All() {
			if l.Zone == z.ID {
				n++
			}
		}
		name := z.Name
		if name == "" {
			name = z.Tag
		}
		add("Zone "+z.Tag, name, plural(n, "lamp", "lamps"))
	}
	return out
}

// deviceName names what feeds a supply point.
func (b *book) deviceName(s *doc.Supply) string {
	if d, ok := b.stock.Device(s.Upstream); ok {
		return d.Name
	}
	return "not said"
}

func (b *book) residual(net *network.Net) bool {
	for i := range net.Nodes {
		for _, d := range net.Nodes[i].Devices {
			if d.ResidualPart() {
				return true
			}
		}
	}
	return false
}

// circuitLines is the circuit chart in short.
func (b *book) circuitLines(i int) []string {
	res := b.Frame.Results[i]
	lines := []string{plural(res.Totals.Lamps, "lamp", "lamps") + ", " + digits(float64(res.Totals.Load), 0) + " W"}
	seen := map[string]bool{}
	var names []string
	net := b.Frame.Circuits.Circuits[i].Input.Net
	for k := range net.Nodes {
		for _, d := range net.Nodes[k].Devices {
			if !seen[d.Label] {
				seen[d.Label] = true
				names = append(names, d.Label)
			}
		}
	}
	if len(names) > 0 {
		lines = append(lines, "Protected by: "+strings.Join(names, "; "))
	}
	return lines
}

// fedBy names the lamps behind a source.
func (b *book) fedBy(id doc.ID) string {
	p, ok := b.node[id]
	if !ok {
		return "nothing yet"
	}
	c := &b.Frame.Circuits.Circuits[p.circuit]
	out, ok := c.Output[id]
	if !ok {
		return "nothing yet"
	}
	net := c.Input.Net
	var tags []string
	for i := range net.Nodes {
		if n := &net.Nodes[i]; n.Kind == network.LampNode && !n.Tail && n.System == net.Nodes[out].System {
			tags = append(tags, n.Label)
		}
	}
	if len(tags) == 0 {
		return "nothing yet"
	}
	return runsOf(tags)
}

// tagged are the runs with a cable of their own: a tag goes on either end.
func (b *book) tagged() (out []*doc.Run) {
	for _, r := range b.scheme.Runs.All() {
		if r.With == "" {
			out = append(out, r)
		}
	}
	return out
}

// labelPages prints the labels, three beside each other, then the cable tags.
func (b *book) labelPages(f *flow) {
	f.para("Cut along the lines. Outdoors a printed label lasts only behind clear film: engrave those that have to last.")
	const across, gap = 3, 3.0
	wide := (f.width - gap*(across-1)) / across
	list := b.labels()
	for i := 0; i < len(list); i += across {
		group := list[i:min(i+across, len(list))]
		high := 0.0
		for k := range group {
			high = max(high, f.labelHigh(&group[k], wide))
		}
		f.room(high)
		for k := range group {
			f.label(&group[k], f.x+float64(k)*(wide+gap), f.y, wide, high)
		}
		f.y += high + gap
	}
	b.cableTags(f)
}

const labelPad = 2.5

func (f *flow) labelHigh(l *label, wide float64) float64 {
	high := 2*labelPad + float64(len(wrap(l.head, wide-2*labelPad, capHead, true)))*4.2 + 0.6
	for _, t := range l.text {
		high += float64(len(wrap(t, wide-2*labelPad, capBody, false)))*pitch + 0.4
	}
	return max(high, 16)
}

func (f *flow) label(l *label, x, y, wide, high float64) {
	f.box(medium, x, y, x+wide, y+high)
	y += labelPad
	for _, t := range wrap(l.head, wide-2*labelPad, capHead, true) {
		f.write(t, x+labelPad, y+capHead, capHead, true, scene.Left)
		y += 4.2
	}
	y += 0.6
	for _, p := range l.text {
		for _, t := range wrap(p, wide-2*labelPad, capBody, false) {
			f.write(t, x+labelPad, y+capBody, capBody, false, scene.Left)
			y += pitch
		}
		y += 0.4
	}
}

// cableTags prints two tags a run.
func (b *book) cableTags(f *flow) {
	runs := b.tagged()
	if len(runs) == 0 {
		return
	}
	f.head("Tags for cable ends, two a run")
	f.within = f.section
	defer func() { f.within = "" }()
	const across = 6
	wide, high := f.width/across, 9.5
	n := 0
	for _, r := range runs {
		i, _ := b.scheme.Runs.Index(r.ID)
		l := b.length(i)
		for k := range 2 {
			if n%across == 0 {
				if n > 0 {
					f.y += high
				}
				f.room(high)
			}
			x := f.x + float64(n%across)*wide
			far := l.To
			if k == 1 {
				far = l.From
			}
			f.box(thin, x, f.y, x+wide, f.y+high)
			f.write(first(wrap(l.Tag, wide-2, capHead, true)), x+wide/2, f.y+4.1, capHead, true, scene.Middle)
			f.write(first(wrap("to "+far, wide-2, capSmall, false)), x+wide/2, f.y+7.6, capSmall, false, scene.Middle)
			n++
		}
	}
	f.y += high + 3
}

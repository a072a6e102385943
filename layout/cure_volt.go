package layout

import (
	"math"
	"sort"
	"strings"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// doubleVoltage tries 24 V where there is 12 V. When the stock book holds a
// source and lamps that do the same at 24 V the cure can be applied; otherwise
// it is figured with lamps of the same power and law, their limits in
// proportion, and says that other fittings are needed.
func (b *bench) doubleVoltage() {
	sys := b.system()
	if sys == 0 || b.net.Systems[sys].Nominal != 12 {
		return
	}
	if op := b.twins(sys); op != nil {
		c, _ := b.try(orderVolts, op.Label, *op)
		c.Text = uncapital(c.Text)
		b.keep(c)
		return
	}
	t, ok := b.attemptNet(doubled(b.net, sys))
	if !ok {
		return
	}
	c := b.judge(t, "use 24 V instead of 12 V on the same cable; needs "+b.lackAt24(sys))
	c.order = orderVolts
	b.keep(c)
}

// doubled is the net with one system at twice the voltage and everything on it
// made for that.
func doubled(n *network.Net, sys int) *network.Net {
	out := *n
	out.Systems = append([]network.System(nil), n.Systems...)
	s := &out.Systems[sys]
	s.Nominal *= 2
	s.Label = strings.Replace(s.Label, "12 V", "24 V", 1)
	out.Nodes = append([]network.Node(nil), n.Nodes...)
	for i := range out.Nodes {
		node := &out.Nodes[i]
		if node.System != sys {
			continue
		}
		node.Loads = append([]network.Load(nil), node.Loads...)
		for k := range node.Loads {
			l := &node.Loads[k]
			l.Nominal, l.Minimum, l.Maximum = 2*l.Nominal, 2*l.Minimum, 2*l.Maximum
			l.Dropout, l.Forward = 2*l.Dropout, 2*l.Forward
		}
	}
	out.Branches = append([]network.Branch(nil), n.Branches...)
	for i := range out.Branches {
		if br := &out.Branches[i]; br.Converter != nil && n.Nodes[br.To].System == sys {
			cv := *br.Converter
			cv.Nominal *= 2
			br.Converter = &cv
		}
	}
	return &out
}

// twins is the change to the 24 V items of the stock book, nil when one is
// missing.
func (b *bench) twins(sys int) *edit.Batch {
	op := &edit.Batch{Label: "Use 24 V instead of 12 V on the same cable"}
	seen := map[string]bool{}
	for i := range b.net.Nodes {
		n := &b.net.Nodes[i]
		if n.System != sys || n.ID == "" || seen[n.ID] {
			continue
		}
		seen[n.ID] = true
		switch n.Kind {
		case network.SecondaryNode:
			src, ok := b.frame.Scheme.Sources.Get(doc.ID(n.ID))
			if !ok {
				return nil
			}
			c := *src
			if c.Stock, ok = b.sourceAt24(src.Stock); !ok {
				return nil
			}
			op.Ops = append(op.Ops, edit.SetSource{Source: &c})
		case network.LampNode:
			lamp, ok := b.frame.Scheme.Lamps.Get(doc.ID(n.ID))
			if !ok {
				return nil
			}
			c := *lamp
			if c.Stock, ok = b.lampAt24(lamp.Stock); !ok {
				return nil
			}
			if c.Stock != lamp.Stock {
				op.Ops = append(op.Ops, edit.SetLamp{Lamp: &c})
			}
		}
	}
	return op
}

// lackAt24 says what 24 V needs on a system and which of it the stock book does not
// hold.
func (b *bench) lackAt24(sys int) string {
	source, lamp := true, true // held
	for i := range b.net.Nodes {
		n := &b.net.Nodes[i]
		if n.System != sys {
			continue
		}
		switch n.Kind {
		case network.SecondaryNode:
			if src, ok := b.frame.Scheme.Sources.Get(doc.ID(n.ID)); ok && source {
				_, source = b.sourceAt24(src.Stock)
			}
		case network.LampNode:
			if l, ok := b.frame.Scheme.Lamps.Get(doc.ID(n.ID)); ok && lamp {
				_, lamp = b.lampAt24(l.Stock)
			}
		}
	}
	switch {
	case source && !lamp:
		return "a source for 24 V, and lamps for 24 V like these, which the stock book does not hold"
	case lamp && !source:
		return "lamps for 24 V, and a source for 24 V like this one, which the stock book does not hold"
	}
	return "a source and lamps for 24 V, which the stock book does not hold"
}

func (b *bench) sourceAt24(key string) (string, bool) {
	now, ok := b.frame.Stock.Converter(key)
	if !ok {
		return "", false
	}
	best := ""
	rated := math.Inf(1)
	for _, s := range b.frame.Stock.Sources {
		cv := s.Converter
		if cv.Nominal == 24 && cv.Current == now.Converter.Current && cv.Kind() == now.Converter.Kind() &&
			s.Input == now.Input && cv.SELV == now.Converter.SELV && cv.Rated >= now.Converter.Rated && float64(cv.Rated) < rated {
			best, rated = s.Key, float64(cv.Rated)
		}
	}
	return best, best != ""
}

// lampAt24 returns the lamp that does the same at 24 V. One that is not made for
// 12 V stays: if for 24 V it is right then, if for the mains it is a finding of its
// own, before and after.
func (b *bench) lampAt24(key string) (string, bool) {
	now, ok := b.frame.Stock.Lamp(key)
	if !ok {
		return "", false
	}
	if now.Load.Nominal != 12 {
		return key, true
	}
	for _, l := range b.frame.Stock.Lamps {
		if l.Load.Nominal == 24 && l.Kind == now.Kind && l.Load.Law == now.Load.Law && l.Class == now.Class &&
			math.Abs(float64(l.Load.Power/now.Load.Power)-1) < 0.01 && (l.AnyCurrent || l.Current == now.Current) {
			return l.Key, true
		}
	}
	return "", false
}

// otherSources tries the sources of the stock book for the same voltage: the
// next larger first, and for lamps that stand too high a regulated or a
// smaller one.
func (b *bench) otherSources() {
	id := doc.ID(b.fd.Subject.ID)
	if b.over {
		f, ok := b.feed()
		if !ok || f.source == nil {
			return
		}
		id = f.source.ID
	}
	src, ok := b.frame.Scheme.Sources.Get(id)
	if !ok {
		return
	}
	now, ok := b.frame.Stock.Converter(src.Stock)
	if !ok {
		return
	}
	list := append([]doc.SourceStock(nil), b.frame.Stock.Sources...)
	sort.SliceStable(list, func(i, j int) bool { return nearer(list[i], now) < nearer(list[j], now) })
	kept := 0
	for _, s := range list {
		cv := s.Converter
		if s.Key == now.Key || cv.Nominal != now.Converter.Nominal || s.Input != now.Input || kept == 2 ||
			cv.Current != now.Converter.Current && !b.anyCurrent(id) {
			continue
		}
		c := *src
		c.Stock = s.Key
		got, _ := b.try(orderDevice, "use for "+src.Tag+": "+s.Name, edit.SetSource{Source: &c})
		if got.Holds && got.worse == 0 {
			kept++
			b.keep(got)
		}
	}
}

// nearer orders sources: those of the same make-up first, then by how far their
// rating is from the present one.
func nearer(s, now doc.SourceStock) float64 {
	apart := 0.0
	if s.Converter.Kind() != now.Converter.Kind() {
		apart += 10
	}
	if s.Converter.Current != now.Converter.Current {
		apart += 20
	}
	return apart + math.Abs(math.Log(float64(s.Converter.Rated)/math.Max(float64(now.Converter.Rated), 1)))
}

// anyCurrent reports whether every lamp behind a source takes AC and DC.
func (b *bench) anyCurrent(id doc.ID) bool {
	out, ok := b.circuit.Output[id]
	if !ok {
		return false
	}
	for i := range b.net.Nodes {
		n := &b.net.Nodes[i]
		if n.System != b.net.Nodes[out].System || n.Kind != network.LampNode {
			continue
		}
		lamp, ok := b.frame.Scheme.Lamps.Get(doc.ID(n.ID))
		if !ok {
			return false
		}
		if item, ok := b.frame.Stock.Lamp(lamp.Stock); !ok || !item.AnyCurrent {
			return false
		}
	}
	return true
}

func uncapital(s string) string {
	if s == "" || s[0] < 'A' || s[0] > 'Z' {
		return s
	}
	return string(s[0]-'A'+'a') + s[1:]
}

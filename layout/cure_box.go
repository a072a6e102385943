package layout

import (
	"sort"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// eachBox makes operations of changed copies of the boxes that the finding
// names; change reports whether it changed anything.
func (b *bench) eachBox(change func(*doc.Box) bool) []edit.Operation {
	var out []edit.Operation
	for _, id := range b.named(doc.BoxKind) {
		e, _ := b.frame.Scheme.Boxes.Get(id)
		c := *e
		if change(&c) {
			out = append(out, edit.SetBox{Box: &c})
		}
	}
	return out
}

// boxes names the boxes of the finding.
func (b *bench) boxes() string {
	ids := b.named(doc.BoxKind)
	if len(ids) == 0 {
		return b.fd.Subject.Label
	}
	out := doc.TagOf(b.frame.Scheme, ids[0])
	if len(ids) > 1 {
		out += " and the others named"
	}
	return out
}

// otherBoxes tries the boxes of the stock book that fit, fewest entries first.
func (b *bench) otherBoxes(fits func(doc.BoxStock) bool, place func(*doc.Box)) {
	list := append([]doc.BoxStock(nil), b.frame.Stock.Boxes...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].Entries < list[j].Entries })
	var options []option
	for _, item := range list {
		if !fits(item) {
			continue
		}
		ops := b.eachBox(func(c *doc.Box) bool {
			changed := c.Stock != item.Key
			c.Stock = item.Key
			if place != nil {
				place(c)
			}
			return changed
		})
		options = append(options, step("use for "+b.boxes()+": "+item.Name, ops...))
	}
	b.pick(orderDevice, 2, options...)
}

// roomierBox tries boxes with more entries, of the same material.
func (b *bench) roomierBox() {
	e, ok := b.frame.Scheme.Boxes.Get(b.subject())
	if !ok {
		return
	}
	now, ok := b.frame.Stock.Box(e.Stock)
	if !ok {
		return
	}
	b.otherBoxes(func(item doc.BoxStock) bool {
		return item.Entries > now.Entries && item.Metal == now.Metal && item.Buried == now.Buried
	}, nil)
}

// blankEntries closes what is open, or leads every cable in from below.
func (b *bench) blankEntries() {
	if b.fd.Code == "BOX-03" {
		b.pick(orderMove, 1, step("bring every cable into "+b.boxes()+" from below or the side", b.eachBox(func(c *doc.Box) bool {
			changed := c.TopEntries > 0
			c.TopEntries = 0
			return changed
		})...))
		return
	}
	b.pick(orderMove, 1, step("close every open entry of "+b.boxes()+" with a blanking plug", b.eachBox(func(c *doc.Box) bool {
		changed := c.Open > 0
		c.Open = 0
		return changed
	})...))
}

// drierBox fills a box that stands wet or is hidden, takes one made for it, or
// brings it to where it may be.
func (b *bench) drierBox() {
	for _, fill := range []string{"gel", "resin"} {
		b.pick(orderMove, 1, step("fill "+b.boxes()+" with "+fill+" made for joints", b.eachBox(func(c *doc.Box) bool {
			changed := c.Fill != fill
			c.Fill = fill
			return changed
		})...))
	}
	if b.fd.Code == "BOX-06" {
		b.pick(orderVolts, 1, step("put a hatch over "+b.boxes()+", so that it can be reached", b.eachBox(func(c *doc.Box) bool {
			changed := c.Hidden
			c.Hidden = false
			return changed
		})...))
	}
	b.otherBoxes(func(item doc.BoxStock) bool { return item.Buried }, nil)
	if b.fd.Code == "BOX-06" {
		return
	}
	least := geom.Metres(b.rules.Limits.JointHeight.Value)
	b.pick(orderSecond, 1, step("raise "+b.boxes()+" to "+span(least)+" above ground", b.eachBox(func(c *doc.Box) bool {
		changed := c.Place.Height < least
		c.Place.Height = max(c.Place.Height, least)
		return changed
	})...))
}

// earthPath joins every armour of the mains circuit: a tag at every end that
// lacks one and a link in every plastic box, or a cable with a core for it.
func (b *bench) earthPath() {
	var ops []edit.Operation
	tags, links := 0, 0
	for i := range b.net.Branches {
		br := &b.net.Branches[i]
		r, ok := b.frame.Scheme.Runs.Get(doc.ID(br.ID))
		if !ok || !br.Armoured() || b.net.Nodes[br.To].System != 0 {
			continue
		}
		c := *r
		n := 0
		for _, e := range []*doc.End{&c.From, &c.To} {
			if e.Untagged {
				e.Untagged = false
				n++
			}
		}
		if n > 0 {
			tags += n
			ops = append(ops, edit.SetRun{Run: &c})
		}
	}
	for i := range b.net.Nodes {
		e, ok := b.frame.Scheme.Boxes.Get(doc.ID(b.net.Nodes[i].ID))
		if ok && e.Unlinked {
			c := *e
			c.Unlinked = false
			links++
			ops = append(ops, edit.SetBox{Box: &c})
		}
	}
	b.pick(orderMove, 1, step("fit "+number(tags, "tag", "tags")+" and "+number(links, "link", "links")+": every armoured end joined, every plastic box linked", ops...))
	b.pick(orderPath, 1, b.coreEarth())
}

// coreEarth gives every mains run whose armour is the protective conductor the
// cable of the same size with a core more.
func (b *bench) coreEarth() option {
	var ops []edit.Operation
	name := ""
	for i := range b.net.Branches {
		br := &b.net.Branches[i]
		if br.ID == "" || br.Cable == nil || br.Cable.Earth != network.EarthArmour || b.net.Nodes[br.To].System != 0 {
			continue
		}
		for _, cb := range b.frame.Stock.Cables {
			if cb.Size == br.Cable.Size && cb.Cores == br.Cable.Cores+1 && cb.Earth == network.EarthCore &&
				cb.ArmourArea > 0 && cb.Insulation == br.Cable.Insulation {
				ops = append(ops, edit.SetCable{Runs: []doc.ID{doc.ID(br.ID)}, Cable: cb.Key})
				name = cb.Name
				break
			}
		}
	}
	return step("use cable with a core for the protective conductor, "+name+" and the like", ops...)
}

// sealedGlands seals every gland named that has no outer seal.
func (b *bench) sealedGlands() {
	b.pick(orderMove, 1, step("use "+network.Sealed+" glands there", b.eachRun(func(r *doc.Run) bool {
		any := false
		for _, e := range []*doc.End{&r.From, &r.To} {
			if e.Gland == "BW" {
				e.Gland, any = network.Sealed, true
			}
		}
		return any
	})...))
}

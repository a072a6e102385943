package testnet

import (
	"strconv"
	"strings"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// box reads what a box is, words between commas: metal, burial, hidden,
// indoors, unlinked, entries=4, side=0.1, h=0.3, fill=gel, top=1, open=1. "plastic" is a
// box about which nothing more is said: 4 entries, 0.3 m above ground.
func box(text string) *network.Box {
	b := &network.Box{Name: "test box", IP: "IP66", Entries: 4, Height: 0.3}
	for _, w := range strings.Split(text, ",") {
		key, value, _ := strings.Cut(w, "=")
		v, _ := strconv.ParseFloat(value, 64)
		switch key {
		case "plastic":
		case "metal":
			b.Metal = true
		case "burial":
			b.Burial = true
		case "hidden":
			b.Hidden = true
		case "indoors":
			b.Indoors = true
		case "unlinked":
			b.Unlinked = true
		case "side":
			b.Side = q.Metre(v)
		case "entries":
			b.Entries = int(v)
		case "h":
			b.Height = q.Metre(v)
		case "top":
			b.TopEntries = int(v)
		case "open":
			b.Open = int(v)
		case "fill":
			b.Fill = map[string]network.Fill{"none": network.FillNone, "gel": network.FillGel, "resin": network.FillResin}[value]
		default:
			panic("testnet: box word " + w)
		}
	}
	return b
}

// ends reads "from:untagged" and "to:BW,untagged".
func ends(b *network.Branch, word string) {
	side, text, ok := strings.Cut(word, ":")
	if !ok {
		return
	}
	e := &b.FromEnd
	if side == "to" {
		e = &b.ToEnd
	}
	for _, w := range strings.Split(text, ",") {
		switch w {
		case "untagged":
			e.Untagged = true
		case "shared":
			e.Shared = true
		case "indoors":
			e.Support = network.Indoors
		default:
			e.Gland = w
		}
	}
}

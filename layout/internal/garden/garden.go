// Package garden holds schemes for the tests of the plan's pictures: one
// small garden with one of everything, and one as large as wanted.
package garden

import (
	"math"
	"strconv"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// Stock returns a stock book with what the gardens use.
func Stock() *doc.Stock {
	lamp := func(key, kind string, u q.Volt) doc.LampStock {
		return doc.LampStock{Key: key, Name: key, Kind: kind, Load: network.Load{Nominal: u, Power: 5, PowerFactor: 1}}
	}
	cable := func(key, name string, cores int, size float64, mains bool) *network.Cable {
		return &network.Cable{Key: key, Name: name, Cores: cores, Size: q.SquareMillimetres(size), Mains: mains}
	}
	return &doc.Stock{
		Lamps: []doc.LampStock{lamp("wall", "wall", 230), lamp("bollard", "bollard", 230), lamp("spike", "spike", 12),
			lamp("deck", "deck", 12), lamp("pond", "pond", 12), lamp("step", "step", 12), lamp("festoon", "festoon", 230)},
		Boxes:   []doc.BoxStock{{Key: "box", Name: "Box 85 mm"}, {Key: "gel", Name: "Gel box", Buried: true}},
		Sources: []doc.SourceStock{{Key: "wound", Name: "Transformer 12 V, 60 VA"}, {Key: "led", Name: "Driver 12 V, 60 W", Converter: network.Converter{Regulated: true}}},
		Gear:    []doc.GearStock{{Key: "iso", Kind: "isolator"}, {Key: "cell", Kind: "photocell"}, {Key: "clock", Kind: "time switch"}, {Key: "rx", Kind: "receiver"}},
		Cables: []*network.Cable{cable("swa", "Armoured 90 °C, 3 × 1.5 mm²", 3, 1.5, true),
			cable("elv", "Garden cable 12 V, 2 × 2.5 mm²", 2, 2.5, false)},
	}
}

// plot collects a scheme while it is written down.
type plot struct {
	areas    []*doc.Area
	lines    []*doc.Line
	marks    []*doc.Mark
	boxes    []*doc.Box
	lamps    []*doc.Lamp
	runs     []*doc.Run
	lengths  []derive.Length
	at       map[doc.ID]geom.Point
	lampNext int
}

// points reads x, y pairs in metres.
func points(v ...float64) []geom.Point {
	var ps []geom.Point
	for i := 0; i+1 < len(v); i += 2 {
		ps = append(ps, geom.Pt(v[i], v[i+1]))
	}
	return ps
}

func (p *plot) area(kind, name string, v ...float64) {
	tag := "A" + strconv.Itoa(len(p.areas)+1)
	p.areas = append(p.areas, &doc.Area{ID: doc.ID(tag), Tag: tag, Kind: kind, Name: name, Ring: points(v...)})
}

func (p *plot) line(kind, name string, v ...float64) {
	tag := "N" + strconv.Itoa(len(p.lines)+1)
	p.lines = append(p.lines, &doc.Line{ID: doc.ID(tag), Tag: tag, Kind: kind, Name: name, Path: points(v...)})
}

func (p *plot) mark(kind, name string, x, y, r, crown float64) {
	tag := "M" + strconv.Itoa(len(p.marks)+1)
	p.marks = append(p.marks, &doc.Mark{ID: doc.ID(tag), Tag: tag, Kind: kind, Name: name,
		Place: doc.Place{At: geom.Pt(x, y)}, Radius: geom.Metres(r), Crown: geom.Metres(crown)})
}

func (p *plot) lamp(stock, zone string, x, y float64) doc.ID {
	p.lampNext++
	id := doc.ID("L" + strconv.Itoa(p.lampNext))
	p.lamps = append(p.lamps, &doc.Lamp{ID: id, Tag: string(id), Place: doc.Place{At: geom.Pt(x, y)}, Stock: stock, Zone: doc.ID(zone)})
	p.at[id] = geom.Pt(x, y)
	return id
}

func (p *plot) box(id, stock string, x, y float64) doc.ID {
	p.boxes = append(p.boxes, &doc.Box{ID: doc.ID(id), Tag: id, Place: doc.Place{At: geom.Pt(x, y)}, Stock: stock})
	p.at[doc.ID(id)] = geom.Pt(x, y)
	return doc.ID(id)
}

func (p *plot) run(cable string, from, to doc.ID, how network.Support, via ...float64) *doc.Run {
	tag := "R" + strconv.Itoa(len(p.runs)+1)
	r := &doc.Run{ID: doc.ID(tag), Tag: tag, Cable: cable, From: doc.End{On: from}, To: doc.End{On: to}}
	path := append([]geom.Point{p.at[from]}, points(via...)...)
	for _, v := range points(via...) {
		r.Legs = append(r.Legs, doc.Leg{To: v, Support: how})
	}
	r.Legs = append(r.Legs, doc.Leg{Support: how})
	path = append(path, p.at[to])
	cut := math.Ceil(geom.PathLength(path).Metres()*2.2) / 2
	p.runs = append(p.runs, r)
	p.lengths = append(p.lengths, derive.Length{Run: r.ID, Tag: tag, Cable: cable, Cut: q.Metre(cut)})
	return r
}

// Small returns a town garden of about 12 m by 9 m with one of everything.
func Small() (*doc.Scheme, []derive.Length, []finding.Finding) {
	p := &plot{at: map[doc.ID]geom.Point{}}
	smallGround(p)
	s := &doc.Scheme{Title: "Garden at the test bench", Author: "A. Tester", Rules: "uk-18",
		Plan: doc.Plan{Scale: 50, Grid: geom.Metres(0.25), North: q.Some(30.0)}}
	p.at["SP1"], p.at["S1"] = geom.Pt(2.2, 0.35), geom.Pt(6.0, 0.4)
	p.at["G1"], p.at["G2"] = geom.Pt(3.4, 0.35), geom.Pt(4.6, 0.35)
	b1, b2 := p.box("B1", "box", 7.4, 0.9), p.box("B2", "gel", 9.6, 4.6)
	smallCables(p, b1, b2)
	s.Supplies = doc.NewSet(&doc.Supply{ID: "SP1", Tag: "SP1", Spur: true, Place: doc.Place{At: p.at["SP1"]}, Nominal: 230})
	s.Sources = doc.NewSet(&doc.Source{ID: "S1", Tag: "S1", Stock: "led", Place: doc.Place{At: p.at["S1"]}})
	s.Gear = doc.NewSet(&doc.Gear{ID: "G1", Tag: "G1", Stock: "iso", Place: doc.Place{At: p.at["G1"]}},
		&doc.Gear{ID: "G2", Tag: "G2", Stock: "clock", Place: doc.Place{At: p.at["G2"]}})
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Tag: "Z1", Name: "Terrace", Number: 1, Colour: "amber"},
		&doc.Zone{ID: "Z2", Tag: "Z2", Name: "Planting and pond", Number: 2, Colour: "blue"})
	s.Areas, s.Lines, s.Marks = doc.NewSet(p.areas...), doc.NewSet(p.lines...), doc.NewSet(p.marks...)
	s.Boxes, s.Lamps, s.Runs = doc.NewSet(p.boxes...), doc.NewSet(p.lamps...), doc.NewSet(p.runs...)
	about := func(level finding.Level, code finding.Code, id string) finding.Finding {
		return finding.Finding{Level: level, Code: code, Subject: finding.Subject{ID: id, Label: id}}
	}
	over := about(finding.Stop, "VD-03", "L9")
	over.Overruled = &finding.Overrule{By: "A. Tester", On: "2026-01-01", Reason: "test"}
	return s, p.lengths, []finding.Finding{about(finding.Stop, "FLT-01", "L3"), about(finding.Decide, "VD-02", "L7"),
		about(finding.Note, "CIR-09", "B2"), about(finding.Decide, "CIR-08", "R4"), over}
}

func smallGround(p *plot) {
	p.area("lawn", "", 0, 0, 12, 0, 12, 9, 0, 9)
	p.area("building", "House", 0, -2.2, 12, -2.2, 12, 0, 0, 0)
	p.area("paving", "Terrace", 0.6, 0, 8.2, 0, 8.2, 2.4, 0.6, 2.4)
	p.area("deck", "Deck", 8.2, 0, 12, 0, 12, 2.2, 8.2, 2.2)
	p.area("border", "Border", 0, 2.4, 1.3, 2.4, 1.3, 7.2, 3, 8, 3, 9, 0, 9)
	p.area("dug bed", "Vegetables", 9.2, 6.6, 12, 6.6, 12, 9, 9.2, 9)
	p.area("gravel", "Gravel path", 5, 2.4, 6.2, 2.4, 6.2, 9, 5, 9)
	p.area("drive", "", 10.6, 2.2, 12, 2.2, 12, 4.4, 10.6, 4.4)
	p.area("water", "Pond", 7.2, 4.2, 8.6, 4.0, 9.2, 4.9, 8.7, 6, 7.5, 6.1, 6.9, 5.2)
	p.line("wall", "Garden wall", 0, 0, 0, 9)
	p.line("fence", "Fence", 0, 9, 12, 9)
	p.line("boundary", "", 12, -2.2, 12, 9)
	p.line("buried service", "gas pipe", 10.2, 0, 10.2, 9)
	p.line("step", "", 0.6, 2.4, 5, 2.4)
	p.line("pergola", "", 6.4, 7, 9, 7, 9, 8.6, 6.4, 8.6, 6.4, 7)
	p.mark("tree", "Birch", 3.4, 5.4, 0.15, 1.3)
	p.mark("window", "", 2.6, 0, 0, 0)
	p.mark("door", "", 5.2, 0.1, 0, 0)
	p.mark("seat", "Bench", 7.7, 7.8, 0, 0)
	p.mark("metalwork", "Gate", 11.7, 4.9, 0, 0)
}

func smallCables(p *plot, b1, b2 doc.ID) {
	p.run("swa", "SP1", "G1", network.Clipped)
	p.run("swa", "G1", "G2", network.Clipped)
	p.run("swa", "G2", "S1", network.Clipped)
	p.run("swa", "G2", p.lamp("wall", "Z1", 1, 0.3), network.Clipped, 4.6, 1.2, 1, 1.2)
	p.run("swa", "G2", b1, network.Clipped, 4.6, 0.9)
	p.run("swa", b1, p.lamp("wall", "Z1", 8, 0.3), network.OnStructure)
	p.run("swa", b1, p.lamp("bollard", "Z1", 6.5, 3.2), network.Buried, 7.4, 2.6)
	p.run("swa", "L3", p.lamp("bollard", "Z1", 6.5, 6.4), network.Buried)
	p.run("swa", "L4", p.lamp("festoon", "Z1", 7.7, 8.6), network.OnStructure, 6.4, 8.6)
	p.run("elv", "S1", b2, network.Buried, 6.0, 1.8, 9.6, 1.8).From.Side = doc.Secondary
	p.run("elv", b2, p.lamp("pond", "Z2", 8.7, 5), network.InDuct)
	p.run("elv", b2, p.lamp("spike", "Z2", 11, 5.6), network.Buried, 10.4, 5.0)
	p.run("elv", "L7", p.lamp("spike", "Z2", 10.8, 7.6), network.Buried)
	p.run("elv", b2, p.lamp("deck", "", 10.9, 1.1), network.Clipped, 10.9, 3)
	p.run("elv", "L9", p.lamp("deck", "", 11.6, 1.1), network.Clipped)
	p.run("elv", "S1", p.lamp("step", "Z2", 2.8, 2.2), network.Clipped, 6, 2.1, 2.8, 2.1).From.Side = doc.Secondary
	p.run("elv", "L11", p.lamp("spike", "Z2", 2.2, 4.2), network.Buried)
	p.run("elv", "L12", p.lamp("spike", "Z2", 3, 5.2), network.InTree)
	p.run("elv", "L12", p.lamp("spike", "Z2", 1, 6.6), network.Buried)
	last := p.run("elv", "L14", "L14", network.Buried, 1.8, 8)
	last.To = doc.End{At: geom.Pt(2.6, 8.4)}
}

// Large returns a scheme of n lamps in rows, each fed by a run of five legs.
func Large(n int) *doc.Scheme {
	p := &plot{at: map[doc.ID]geom.Point{}}
	side := int(math.Ceil(math.Sqrt(float64(n) * 1.6)))
	p.at["SP1"] = geom.Pt(-1, 0)
	w, h := float64(side)*1.5, float64(n/side+1)*1.5
	p.area("lawn", "Lawn", -2, -2, w, -2, w, h, -2, h)
	p.area("gravel", "Drive", 0, 0, w/3, 0, w/3, h/3, 0, h/3)
	prev := doc.ID("SP1")
	for i := range n {
		x, y := float64(i%side)*1.5, float64(i/side)*1.5
		if i%side == 0 {
			prev = "SP1"
		}
		l := p.lamp([]string{"wall", "spike"}[i/side%2], "Z"+strconv.Itoa(1+i%3), x, y)
		a := p.at[prev]
		f, g := a.X.Metres(), a.Y.Metres()
		p.run("swa", prev, l, network.Buried, f+(x-f)*0.2, g+(y-g)*0.2+0.3, f+(x-f)*0.4, g+(y-g)*0.4-0.2,
			f+(x-f)*0.6, g+(y-g)*0.6+0.2, f+(x-f)*0.8, g+(y-g)*0.8-0.3)
		prev = l
	}
	s := &doc.Scheme{Title: "Large", Plan: doc.Plan{Scale: 100, Grid: geom.Metres(0.5)}}
	s.Supplies = doc.NewSet(&doc.Supply{ID: "SP1", Tag: "SP1", Spur: true, Place: doc.Place{At: p.at["SP1"]}})
	s.Zones = doc.NewSet(&doc.Zone{ID: "Z1", Number: 1, Colour: "amber"}, &doc.Zone{ID: "Z2", Number: 2, Colour: "blue"},
		&doc.Zone{ID: "Z3", Number: 3, Colour: "green"})
	s.Areas, s.Lamps, s.Runs = doc.NewSet(p.areas...), doc.NewSet(p.lamps...), doc.NewSet(p.runs...)
	return s
}

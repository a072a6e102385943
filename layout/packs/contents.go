package packs

import (
	"duskwire/calc/finding"
	"duskwire/layout/output"
	"duskwire/layout/scene"
)

// contentsRow is one line of the list of pages.
type contentsRow struct {
	title string
	page  int
}

// cover is the first page of a pack: what is in it, what has to be known before
// it is used, and what was decided against the rules.
func (d *draft) cover(how []string) {
	d.parts = append(d.parts, part{title: "Contents", cover: func(f *flow) {
		f.gap(contentsHigh(len(d.parts) - 1))
		f.head("Before you use this pack")
		f.item("Design aid. Results depend on the figures entered and on the rule set " + d.Rules.Name + " (" + d.Rules.Edition + "). A competent person has to check the design, install, inspect and test.")
		if s := output.OneLine(d.Rules.Statement); s != "" {
			f.item("The rule set: " + s)
		}
		for _, s := range append([]string{
			"Do not dig on these drawings alone. Positions of services are not verified: locate them and dig by hand.",
			"Isolate, lock off and prove dead. More than one supply may be present.",
			"Metal fittings need the protective path shown. Do not energise before its continuity is measured.",
			"Voltage and brightness are calculated; joints and lamps vary.",
			"Local rules about notification, planning, trees and wildlife may apply.",
		}, how...) {
			f.item(s)
		}
		f.gap(1)
		d.standing(f)
	}})
}

// contentsHigh is the room for a list of so many parts.
func contentsHigh(n int) float64 { return 2 + float64(n)*4.4 + 2 }

// standing lists what the findings say about the whole scheme.
func (d *draft) standing(f *flow) {
	over := d.about(func(x *finding.Finding) bool { return x.Overruled != nil })
	open := d.about(func(x *finding.Finding) bool { return x.Overruled == nil && x.Level == finding.Stop })
	decide := d.about(func(x *finding.Finding) bool { return x.Overruled == nil && x.Level == finding.Decide })
	if len(open) > 0 {
		f.findings("Stop: do not build before these are settled", open)
	}
	f.findings("To be decided by the electrician", decide)
	f.findings("Overruled, with the reason", over)
	if len(open)+len(decide)+len(over) == 0 {
		f.head("Findings")
		f.para("No Stop and nothing to decide: what was checked meets the limits set in " + d.Rules.Name + ". Notes: see the list of findings.")
	}
	d.assumed(f)
}

// assumed lists what was not known and was taken instead.
func (d *draft) assumed(f *flow) {
	seen := map[string]bool{}
	var list []string
	for i := range d.Frame.Circuits.Circuits {
		for _, a := range d.Frame.Circuits.Circuits[i].Input.Net.Assumed {
			if !seen[a] {
				seen[a] = true
				list = append(list, a)
			}
		}
	}
	if len(list) == 0 {
		return
	}
	f.head("Not known, and what was taken instead")
	for _, s := range list {
		f.item(upper(s))
	}
}

// contents lists the parts with their pages.
func (d *draft) contents() (out []contentsRow) {
	n := 1
	for i := range d.parts {
		if i > 0 {
			out = append(out, contentsRow{d.parts[i].title, n})
		}
		n += max(1, len(d.parts[i].flow))
	}
	return out
}

// fillContents writes the list of pages into the room that the cover left.
func (d *draft) fillContents(l *scene.List, rows []contentsRow) {
	f := &flow{book: d.book, at: l, x: filing + inner}
	right := l.Width - edge - inner - 60
	y := edge + inner + capTitle + 4.5 + 2
	for _, r := range rows {
		f.write(r.title, f.x, y+capBody, capBody, false, scene.Left)
		f.write(whole(r.page), right, y+capBody, capBody, false, scene.Right)
		w := scene.TextWidth(r.title, capBody, false)
		n := scene.TextWidth(whole(r.page), capBody, false)
		l.Items = append(l.Items, scene.Item{Kind: scene.Polyline, Layer: scene.LayerFrame, Points: points(f.x+w+1.5, y+capBody, right-n-1.5, y+capBody),
			Style: scene.Style{Stroke: d.pal.Soft, Width: 0.18, Dash: []float64{0.2, 1.2}}})
		y += 4.4
	}
}

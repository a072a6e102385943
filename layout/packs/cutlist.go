package packs

import (
	"strings"

	"duskwire/layout/doc"
	"duskwire/layout/scene"
)

// cutList lists every piece of cable to be cut.
func (b *book) cutList(f *flow) {
	f.para("Cut = (plan + rises + tails + slack) × (1 + waste), rounded up to 0.5 m. Tag both ends with the name of the run before it is laid.")
	t := &table{high: 5.2, columns: []column{
		{head: "Run"}, {head: "From"}, {head: "To"}, {head: "Cable", grow: 1}, {head: "Plan", unit: "m", anchor: scene.Right}, {head: "Rises", unit: "m", anchor: scene.Right},
		{head: "Tails", unit: "m", anchor: scene.Right}, {head: "Slack", unit: "m", anchor: scene.Right}, {head: "Waste", unit: "%", anchor: scene.Right},
		{head: "Cut", unit: "m", anchor: scene.Right}, {head: "As cut", unit: "m", least: 20}, {head: "Done", least: 11},
	}}
	total := 0.0
	for i, r := range b.scheme.Runs.All() {
		l := b.length(i)
		name := l.Name
		if name == "" {
			name = "no cable chosen"
		}
		cut, was := digits(float64(l.Cut), 1), ""
		switch {
		case r.With != "":
			cut, name = "–", "in the cable of "+doc.TagOf(b.scheme, r.With)
		case r.Cut.Known:
			was = digits(float64(l.Cut), 2)
			cut = digits(float64(l.Needed), 2) + " needed"
		}
		total += float64(l.Cut)
		t.rows = append(t.rows, row{tick: true, cells: []string{l.Tag, l.From, l.To, name, metres(l.Plan), metres(l.Rises), metres(l.Tails), metres(l.Slack), digits(l.Waste*100, 0), cut, was, ""}})
	}
	if len(t.rows) == 0 {
		f.para("No run is drawn.")
		return
	}
	f.table(t)
	f.head("Sum by cable")
	sums := &table{narrow: true, columns: []column{{head: "Cable", grow: 1}, {head: "Pieces", anchor: scene.Right}, {head: "Cut", unit: "m", anchor: scene.Right}}}
	b.cables(func(_, name string, amount float64, _ int, _, note string) {
		sums.add(name, strings.Fields(note)[0], digits(amount, 1))
	})
	sums.sum("All", "", digits(total, 1))
	f.table(sums)
	f.findings("Findings about lengths", b.about(codes("LEN-")))
}

package check

import (
	"strconv"
	"strings"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	"duskwire/calc/protect"
)

// earth returns the earth paths of the circuit.
func (c *Context) earth() *protect.Earth {
	c.prepare()
	return c.plan.earth
}

// cut is one break in the earth path with what lies beyond it.
type cut struct {
	gap   protect.Gap
	metal []int // nodes with exposed metal
	other []int // other lamps and sources
	rest  []int // anything else
}

// cuts returns the breaks in the armour of cables, nearest the supply first. A
// cable without any protective conductor is the business of FLT-04.
func (c *Context) cuts() []*cut {
	e := c.earth()
	var out []*cut
	for _, i := range c.Tree.Order {
		g, broken := e.Gap(i)
		if !broken || g.Bare {
			continue
		}
		k := 0
		for k < len(out) && out[k].gap.Branch != g.Branch {
			k++
		}
		if k == len(out) {
			out = append(out, &cut{gap: g})
		}
		n := &c.Net.Nodes[i]
		switch _, metal := protect.Exposed(n); {
		case metal:
			out[k].metal = append(out[k].metal, i)
		case n.Kind == network.LampNode || n.Kind == network.PrimaryNode:
			out[k].other = append(out[k].other, i)
		default:
			out[k].rest = append(out[k].rest, i)
		}
	}
	return out
}

// subjects names some nodes.
func (c *Context) subjects(nodes []int) []finding.Subject {
	out := make([]finding.Subject, 0, len(nodes))
	for _, i := range nodes {
		out = append(out, c.subject(i))
	}
	return out
}

// without returns the nodes but one.
func without(nodes []int, one int) []int {
	var out []int
	for _, i := range nodes {
		if i != one {
			out = append(out, i)
		}
	}
	return out
}

// pathWorking writes the way from a node's metal to the main earth terminal.
func pathWorking(c *Context, w *lines, i int) {
	const most = 40
	w.add("earth path from %s:", c.subject(i).Label)
	path := c.earth().Path(i)
	for k, step := range path {
		if k == most && len(path) > most+1 {
			w.add("  and %d more", len(path)-most-1)
		}
		if k < most || k == len(path)-1 {
			w.add("  %s", step)
		}
	}
}

// fittings are what the armours of the mains circuit need at their ends.
type fittings struct {
	ends     int // armoured ends that take a tag or earthing nut
	missing  int // of them without one
	boxes    int // plastic boxes with armour in them
	unlinked int // of them not linked
}

// fittingsOf counts the tags and links of the mains circuit. In a metal box the
// gland makes contact itself.
func (c *Context) fittingsOf() fittings {
	var f fittings
	seen := make([]bool, len(c.Net.Nodes))
	for b := range c.Net.Branches {
		br := &c.Net.Branches[b]
		if far := c.Far(b); far < 0 || !br.Armoured() || c.Net.Nodes[far].System != 0 {
			continue
		}
		for _, node := range []int{br.From, br.To} {
			n := &c.Net.Nodes[node]
			if n.Box != nil && n.Box.Metal || n.Gear != nil && n.Gear.Metal || n.Kind == network.OpenNode || br.EndAt(node).Shared {
				continue
			}
			f.ends++
			if br.EndAt(node).Untagged {
				f.missing++
			}
			if n.Kind == network.BoxNode && !seen[node] {
				seen[node] = true
				f.boxes++
				if n.Box != nil && n.Box.Unlinked {
					f.unlinked++
				}
			}
		}
	}
	return f
}

// working writes the counts.
func (f fittings) working(w *lines) {
	w.add("armoured ends that take a tag or earthing nut: %d, without one: %d", f.ends, f.missing)
	w.add("plastic boxes where armours are linked: %d, not linked: %d", f.boxes, f.unlinked)
}

// tagging is the remedy of joining every armour.
func (f fittings) tagging() finding.Remedy {
	var what []string
	if f.missing > 0 {
		what = append(what, count(f.missing, "tag or earthing nut", "tags or earthing nuts"))
	}
	if f.unlinked > 0 {
		what = append(what, count(f.unlinked, "link", "links"))
	}
	return finding.Remedy{
		Text:   "fit a tag or earthing nut at every armoured end and link them with the earth terminal in every plastic box",
		Figure: strings.Join(what, ", ") + " to fit",
	}
}

// coreInstead offers, for runs whose armour is the protective conductor, the
// armoured cable of the same size with a core for it.
func coreInstead(c *Context, b int) []finding.Remedy {
	br := &c.Net.Branches[b]
	for _, cb := range c.Catalog {
		if br.Cable == nil || cb.Size != br.Cable.Size || cb.Earth != network.EarthCore || cb.ArmourArea <= 0 ||
			cb.Insulation != br.Cable.Insulation || cb.Cores != br.Cable.Cores+1 {
			continue
		}
		var runs []int
		for i := range c.Net.Branches {
			o := &c.Net.Branches[i]
			if far := c.Far(i); far >= 0 && c.Ours(i) && c.Net.Nodes[far].System == 0 && o.Cable.Earth == network.EarthArmour {
				runs = append(runs, i)
			}
		}
		if len(runs) == 1 {
			return []finding.Remedy{swap(br, cb, "its third core is the protective conductor")}
		}
		var names []string
		for _, i := range runs {
			names = append(names, c.runSubject(i).Label)
		}
		return []finding.Remedy{{Text: "use " + cb.Name + " for " + strings.Join(names, ", "),
			Figure: "a core is the protective conductor; the armour is earthed all the same"}}
	}
	return nil
}

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// list writes the first labels and how many more there are.
func list(subjects []finding.Subject) string {
	const most = 3
	var out []string
	for i, s := range subjects {
		if i == most && len(subjects) > most+1 {
			return strings.Join(out, ", ") + " and " + strconv.Itoa(len(subjects)-most) + " more"
		}
		out = append(out, s.Label)
	}
	return strings.Join(out, ", ")
}

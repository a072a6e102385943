package file

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// construction is how one make-up of cable takes its values from the tables.
type construction struct {
	key        string
	insulation string
	conductor  q.Kelvin
	mains      bool
	buriable   bool
	sunlight   bool

	from    *object // for settle
	r20     []resistanceRow
	drop    []dropRow
	ratings []ratingRow
	armour  []armourRow
}

// constructionRows reads a construction; its tables are looked up by settle,
// when every file has been read.
func constructionRows(_ tableFrame, o *object) []*construction {
	c := &construction{
		key:        o.needText("key"),
		insulation: insulationKeys[o.need("insulation", oneOf(insulationKeys)).word(insulationKeys)],
		conductor:  needAbove(o, "conductor", q.ParseCelsius),
		mains:      o.need("mains", "true or false").flag(),
		buriable:   o.need("buriable", "true or false").flag(),
		sunlight:   o.need("sunlight", "true or false").flag(),
		from:       o,
	}
	for _, key := range []string{"resistance", "drop", "ratings"} {
		o.need(key, "the key of a table")
	}
	o.get("seventy")
	o.get("armour")
	return []*construction{c}
}

// settle looks up the tables that the construction names.
func (c *construction) settle(set *tableSet) {
	o := c.from
	c.r20 = pick[resistanceRow](set, o.get("resistance"), "resistance")
	c.drop = pick[dropRow](set, o.get("drop"), "drop")
	c.ratings = append(ratingsOf(set, o.get("ratings"), false), ratingsOf(set, o.get("seventy"), true)...)
	if n := o.get("armour"); n.present() {
		c.armour = pick[armourRow](set, n, "armour")
	}
}

// ratingsOf reads a list of rating tables, each with all its methods or with
// those that are named.
func ratingsOf(set *tableSet, n node, seventy bool) []ratingRow {
	var out []ratingRow
	for _, item := range n.list() {
		o := item.object()
		rows := pick[ratingRow](set, tableKey(o, "table"), "rating")
		var only []string
		for _, m := range o.list("methods") {
			only = append(only, methodWords[m.word(methodWords)])
		}
		o.done()
		for _, row := range rows {
			kept := ratingRow{size: row.size}
			for _, r := range row.ratings {
				if len(only) == 0 || contains(only, r.Method) {
					r.Seventy = seventy
					kept.ratings = append(kept.ratings, r)
				}
			}
			out = append(out, kept)
		}
	}
	return out
}

func contains(list []string, word string) bool {
	for _, s := range list {
		if s == word {
			return true
		}
	}
	return false
}

// fill sets everything about a cable that the tables know. What the tables do
// not have for its size is reported at the cable.
func (c *construction) fill(o *object, out *network.Cable) {
	out.Insulation, out.Conductor = c.insulation, c.conductor
	out.Mains, out.Buriable, out.Sunlight = c.mains, c.buriable, c.sunlight
	size := o.get("size")
	if r, ok := c.resistance(out.Size); ok {
		out.R20, out.RSource = r.r20, r.source
	} else {
		size.fail(out.Size.String(), "a size of the resistance table of "+c.key)
	}
	if d, ok := c.dropOf(out.Size); ok {
		out.Drop, out.DropSource = d.drop, d.source
	} else {
		size.fail(out.Size.String(), "a size of the volt drop table of "+c.key)
	}
	for _, row := range c.ratings {
		if row.size == out.Size {
			out.Ratings = append(out.Ratings, row.ratings...)
		}
	}
	if len(out.Ratings) == 0 {
		size.fail(out.Size.String(), "a size of the rating tables of "+c.key)
	}
	c.fillEarth(o, out)
}

// fillEarth sets the protective conductor and the armour.
func (c *construction) fillEarth(o *object, out *network.Cable) {
	if out.Earth == network.EarthCore {
		at := o.get("earth_size")
		if !at.present() {
			out.EarthSize = out.Size
			at = o.get("size")
		}
		r, ok := c.resistance(out.EarthSize)
		if !ok {
			at.fail(out.EarthSize.String(), "a size of the resistance table of "+c.key)
		}
		out.EarthR20 = r.r20
	}
	if len(c.armour) == 0 {
		if out.Earth == network.EarthArmour {
			o.get("earth").fail(`"armour"`, "another protective conductor: "+c.key+" has no armour")
		}
		return
	}
	for _, a := range c.armour {
		if a.cores == out.Cores && a.size == out.Size {
			out.ArmourArea, out.ArmourR20, out.ArmSource = a.area, a.r20, a.source
			if a.diameter > 0 {
				out.Diameter = a.diameter // else what the stock item says, if anything
			}
			if out.Gland = a.gland; a.gland != "" {
				out.GlandFrom = a.source
			}
			return
		}
	}
	o.get("size").fail(plural(out.Cores, "core")+" of "+out.Size.String(), "a row of the armour table of "+c.key)
}

func (c *construction) resistance(size q.SquareMetre) (resistanceRow, bool) {
	for _, r := range c.r20 {
		if r.size == size {
			return r, true
		}
	}
	return resistanceRow{}, false
}

func (c *construction) dropOf(size q.SquareMetre) (dropRow, bool) {
	for _, d := range c.drop {
		if d.size == size {
			return d, true
		}
	}
	return dropRow{}, false
}

package layout

import (
	"fmt"
	"strconv"
	"strings"

	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// beamOf returns the table of a lamp at its nominal volts and its part of full
// output at the tilt that it has, in degrees from straight down. long is how many
// times as long as its stock item it is, 1 for what is no strip.
func (m *Nights) beamOf(l *doc.Lamp, item *doc.LampStock, table *Light, long, tilt float64, gaps *gaps) (*light.Distribution, float64, error) {
	if table == nil {
		if item.Beam < 1 {
			gaps.add("beam angle not known, taken to shine the same to all sides", l.Tag)
		}
		of := item.Model()
		of.Flux *= q.Lumen(long)
		of.Peak *= q.Candela(long)
		d, err := m.table(beamKey{model: of})
		return d, 1, err
	}
	k, told := table.Relamped(item)
	if told != "" {
		gaps.add(told, l.Tag)
	}
	if table.Table.NearField {
		gaps.add("photometric file "+table.Of.Name()+" says NEARFIELD: its table is meant for its own distances only", l.Tag)
	}
	d, err := m.table(beamKey{times: k * long, of: table.Dist})
	return d, table.Table.Tilt.Factor(tilt), err
}

// Relamped returns how many times the light of the file a fitting gives, and says
// why when that is not 1: figures of relative photometry are those of the lamps
// that it was made with, and go with the flux of the lamps that are put in; those
// of absolute photometry are final.
func (l *Light) Relamped(item *doc.LampStock) (times float64, told string) {
	p := l.Table
	if item.LampFlux <= 0 || p.Absolute || !p.Declared.Known || p.Declared.Value <= 0 || p.Declared.Value == item.LampFlux {
		return 1, ""
	}
	times = float64(item.LampFlux / p.Declared.Value)
	return times, fmt.Sprintf("photometric file %s was made with lamps of %s lm, its light brought to the %s lm of the lamps in the stock book",
		l.Of.Name(), figure(float64(p.Declared.Value)), figure(float64(item.LampFlux)))
}

// table returns the table of a key.
func (m *Nights) table(k beamKey) (*light.Distribution, error) {
	if k.of != nil && k.times == 1 {
		return k.of, nil
	}
	if d := m.tables[k]; d != nil {
		return d, nil
	}
	var d *light.Distribution
	var err error
	if k.of != nil {
		d, err = k.of.Scaled(k.times)
	} else {
		d, _, err = k.model.Table()
	}
	if err != nil {
		return nil, err
	}
	if m.tables == nil || len(m.tables) >= mostTables {
		m.tables = map[beamKey]*light.Distribution{}
	}
	m.tables[k] = d
	return d, nil
}

// inGround reports whether a lamp is let into the ground, where it soils fastest:
// a recessed or deck fitting less than a metre up that does not look down.
func inGround(l *doc.Lamp, item *doc.LampStock) bool {
	_, tilt := l.Points(item)
	return (item.Kind == "recessed" || item.Kind == "deck") && l.Place.Height.Metres() < 1 && tilt >= 0
}

// age gives a lamp its factor for age and dirt.
func (n *Night) age(out *light.Lamp, l *doc.Lamp, item *doc.LampStock) {
	out.Maintained = n.Maintenance
	if inGround(l, item) && n.ground != n.Maintenance {
		out.Maintained = n.ground
		n.low = append(n.low, l.Tag)
	}
}

// Ages writes the factors for age and dirt: "0.8", or "0.8, 0.7 for L3 and L4 in the
// ground".
func (n *Night) Ages() string {
	s := strconv.FormatFloat(n.Maintenance, 'f', -1, 64)
	if len(n.low) > 0 {
		s += ", " + strconv.FormatFloat(n.ground, 'f', -1, 64) + " for " + strings.TrimSpace(TagRuns(n.low)) + " in the ground"
	}
	return s
}

// AgesShort is Ages without the names of lamps.
func (n *Night) AgesShort() string {
	s := strconv.FormatFloat(n.Maintenance, 'f', -1, 64)
	if len(n.low) > 0 {
		s += " (in the ground " + strconv.FormatFloat(n.ground, 'f', -1, 64) + ")"
	}
	return s
}

// Newer says how much more light new and clean lamps give than the figures: "1.25
// times as much".
func (n *Night) Newer() string {
	s := strconv.FormatFloat(1/n.Maintenance, 'f', 2, 64) + " times as much"
	if len(n.low) > 0 {
		s += ", those in the ground " + strconv.FormatFloat(1/n.ground, 'f', 2, 64) + " times"
	}
	return s
}

// NearTags returns the lamps that are nearer to a point than five times the size of
// their luminous opening and give light there: their tables were made from afar, and
// are taken part by part.
func (n *Night) NearTags(at light.Vec, shares []q.Lux) []string {
	var tags []string
	for i, v := range shares {
		if v > 0 && n.Scene.Near(i, at) {
			tags = append(tags, n.Lamps[i].Tag)
		}
	}
	return tags
}

// NearText says of what NearTags returns what it means; "" for none.
func NearText(tags []string) string {
	if len(tags) == 0 {
		return ""
	}
	return TagRuns(tags) + ": nearer than five times the size of what shines, reckoned part by part"
}

package doc

import (
	"math"

	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout/geom"
)

// lowSpike is the height below which a fitting that is not aimed is taken to
// stand in the ground and look up.
const lowSpike = geom.Metre

// Aimed reports whether somebody has said where a lamp points.
func (l *Lamp) Aimed() bool { return l.Aim != 0 || l.Tilt != 0 }

// Points returns where the beam of a lamp points, as in Lamp: as it is aimed, else
// what is taken for it. Spikes and what is let into the ground or stands in water
// look straight up, everything else straight down (common practice, no source).
func (l *Lamp) Points(item *LampStock) (aim, tilt float64) {
	switch {
	case l.Aimed():
		return l.Aim, l.Tilt
	case l.Place.Height < lowSpike && (item.Kind == "spike" || item.Kind == "deck" || item.Kind == "recessed" || item.Kind == "pond"):
		return 0, 90
	}
	return 0, -90
}

// roundBeam is the beam angle from which a lamp has none to speak of: it shines
// the same to all sides.
const roundBeam = 170

// HasBeam reports whether a fitting has a beam that can be aimed: that of its
// photometric file, else that of the stock book.
func (s *LampStock) HasBeam() bool {
	if s.Filed != nil {
		return s.Filed.Edge.Known()
	}
	return s.Modelled()
}

// Modelled reports whether the stock book has a beam that can be aimed.
func (s *LampStock) Modelled() bool { return s.Beam >= 1 && s.Beam < roundBeam }

// Edge returns where the beam of a fitting ends.
func (s *LampStock) Edge() *light.Edge {
	if s.Filed != nil {
		return s.Filed.Edge
	}
	return light.EdgeOf(s.Beam, s.Across)
}

// Brightest returns the peak of the photometric file, else that of the stock book;
// 0 when neither has one.
func (s *LampStock) Brightest() q.Candela {
	if s.Filed != nil {
		return s.Filed.Peak
	}
	return s.Peak
}

// Model returns what the stock book says of the light of a fitting, without a beam
// where it has none that can be aimed.
func (s *LampStock) Model() light.Model {
	m := light.Model{Flux: s.Flux}
	if s.Modelled() {
		m.Along, m.Across, m.Peak = s.Beam, s.Across, s.Peak
	}
	return m
}

// Lit reports whether the stock book says how much light a fitting gives.
func (s *LampStock) Lit() bool { return s.Flux > 0 || s.Modelled() && s.Peak > 0 }

// Lies returns a lamp without light as it points and shines, in metres and radians:
// Aim runs clockwise from up the sheet and Tilt up from level; there the bearing runs
// anticlockwise from x and the tilt up from straight down. What is not aimed has its
// plane C0 to the right. A strip lies on Y, which stays level when the lamp is tilted
// and is the long side of a linear luminaire in the C planes (CIE, from memory); where
// its photometric file has the long side on X it is turned by a quarter, so that it
// lies the same way.
func (l *Lamp) Lies(item *LampStock) light.Lamp {
	const degree = math.Pi / 180
	aim, tilt := l.Points(item)
	at := l.Place.At
	out := light.Lamp{ID: string(l.ID), At: light.Vec{X: at.X.Metres(), Y: at.Y.Metres(), Z: l.Place.Height.Metres()},
		Bearing: (90 - aim) * degree, Tilt: (90 + tilt) * degree, Spin: -l.Spin * degree}
	if item.Filed != nil {
		out.Opening = item.Filed.Opening
	}
	long := l.StripLength(item)
	switch o := out.Opening; {
	case long > 0 && o.X > o.Y:
		out.Spin += math.Pi / 2
		out.Opening = light.Opening{X: long}
	case long > 0:
		out.Opening = light.Opening{Y: long}
	case !l.Aimed():
		out.Bearing = 0
	}
	return out
}

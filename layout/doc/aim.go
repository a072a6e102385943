package doc

import "duskwire/layout/geom"

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

// HasBeam reports whether a fitting has a beam that can be aimed.
func (s *LampStock) HasBeam() bool { return s.Beam >= 1 && s.Beam < roundBeam }

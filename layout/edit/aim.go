package edit

import (
	"fmt"
	"math"

	"duskwire/layout/doc"
)

// AimLamp says where the beam of a lamp points: Aim in degrees clockwise from up
// the sheet, Tilt in degrees above the horizon. Both 0 is written as aim 360,
// because the two zeros stand for a lamp that nobody has aimed.
type AimLamp struct {
	ID        doc.ID
	Aim, Tilt float64
}

// Name implements Operation.
func (o AimLamp) Name() string { return "Aim lamp" }

func (o AimLamp) title(s *doc.Scheme) string {
	return fmt.Sprintf("Aim %s", doc.TagOf(s, o.ID))
}

// Apply implements Operation.
func (o AimLamp) Apply(s *doc.Scheme) (*doc.Scheme, error) {
	l, ok := s.Lamps.Get(o.ID)
	if !ok {
		return nil, unknown(s, o.ID, "lamp")
	}
	if l.Lock {
		return nil, refuse("%s is locked in its place; unlock it first (Ctrl+L)", l.Tag)
	}
	if math.IsNaN(o.Aim+o.Tilt) || math.IsInf(o.Aim, 0) || o.Tilt < -90 || o.Tilt > 90 {
		return nil, refuse("aim: found %g°, tilt %g°, expected a tilt of -90° to 90°", o.Aim, o.Tilt)
	}
	c := *l
	c.Tilt = math.Round(o.Tilt*1e9) / 1e9
	c.Aim = aimed(o.Aim, c.Tilt)
	if c.Aim == l.Aim && c.Tilt == l.Tilt {
		return s, nil
	}
	return replace(s, &c)
}

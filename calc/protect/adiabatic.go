package protect

import (
	"fmt"
	"math"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Parts of a cable that the k table knows.
const (
	CorePart   = "core"
	ArmourPart = "armour"
)

// Adiabatic returns the smallest conductor area that stands a fault current i
// for a time s,
//
//	S = sqrt(I² · t) / k
//
// with k in A·s^½/mm². Valid for 0.1 s <= t <= 5 s; use the current with the
// time at that current, never a fault current with the longest time allowed.
// k must be above zero. Source: BS 7671 434.5.2 and 543.1.3.
func Adiabatic(i q.Ampere, s q.Second, k float64) q.SquareMetre {
	return AreaFor(q.AmpereSquaredSecond(float64(i)*float64(i)*float64(s)), k)
}

// AreaFor returns the smallest area that stands a let-through energy,
// S = sqrt(I²t)/k. Source: as Adiabatic.
func AreaFor(e q.AmpereSquaredSecond, k float64) q.SquareMetre {
	return q.SquareMillimetres(math.Sqrt(float64(e)) / k)
}

// Withstand returns the energy that a conductor stands, k²·S², in A²s. Source:
// BS 7671 434.5.2.
func Withstand(area q.SquareMetre, k float64) q.AmpereSquaredSecond {
	kS := k * area.SquareMillimetres()
	return q.AmpereSquaredSecond(kS * kS)
}

// K returns the adiabatic constant of a part ("core", "armour") of a cable with
// an insulation key, in A·s^½/mm². ok is false when the table has none. Source:
// BS 7671 Tables 43.1 (line cores), 54.3 (protective cores, the same values)
// and 54.4 (armour).
func K(part, key string, t *Tables) (float64, finding.Source, bool) {
	for _, row := range t.K {
		if row.Part == part && row.Key == key {
			return row.K, row.Source, true
		}
	}
	return 0, finding.Source{}, false
}

// Selected returns the smallest protective conductor by selection instead of
// calculation, for line conductors up to 35 mm²: S up to 16 mm² and 16 mm²
// above, times kLine/kPart when the material differs. Source: BS 7671 Table
// 54.7.
func Selected(line q.SquareMetre, kLine, kPart float64) q.SquareMetre {
	return min(line, q.SquareMillimetres(16)) * q.SquareMetre(kLine/kPart)
}

// LetThrough returns an upper bound of the energy I²t that the overcurrent part
// of a device lets through at a prospective current i, in A²s. It is a bound
// from the tables and never a maker's figure:
//
//	fuse      Ia² · t of a tabulated point whose Ia is reached, the least of
//	          them: above a point a fuse lets through no more than at it
//	breaker   I² · t with t of the instantaneous band, and not above the
//	          class 3 limit for its rated breaking capacity while i is within
//	          it, nor above a row that holds up to a current of its own
//
// ok is false when no tabulated point is reached. Where only this bound fails,
// the maker's figure decides. Source: EN 60898-1 Tables ZA.1 and ZA.2 (from
// memory) for class 3; derived otherwise.
func LetThrough(d network.Device, i q.Ampere, uo q.Volt, t *Tables) (q.AmpereSquaredSecond, finding.Source, bool) {
	if d.Kind == network.Breaker || d.Kind == network.RCBO {
		return breakerEnergy(d, i, t)
	}
	var best q.AmpereSquaredSecond
	var src finding.Source
	found := false
	for _, row := range t.Fuses {
		if row.Kind != d.Kind {
			continue
		}
		ia, s, ok := TripCurrent(d, row.Time, uo, t)
		if !ok || !reaches(i, ia) {
			continue
		}
		e := q.AmpereSquaredSecond(float64(ia) * float64(ia) * float64(row.Time))
		if !found || e < best {
			best, src, found = e, s, true
			src.Clause += fmt.Sprintf(", I²t at its %v point", row.Time)
			src.Evidence = finding.Derived
		}
	}
	return best, src, found
}

// breakerEnergy bounds the let-through of a breaker in its instantaneous band.
func breakerEnergy(d network.Device, i q.Ampere, t *Tables) (q.AmpereSquaredSecond, finding.Source, bool) {
	m, ok := multiple(d.Curve, t)
	if !ok || m.Time <= 0 || d.Rating <= 0 || !reaches(i, q.Ampere(m.Times)*d.Rating) {
		return 0, finding.Source{}, false
	}
	e := q.AmpereSquaredSecond(float64(i) * float64(i) * float64(m.Time))
	src := m.Source
	src.Clause += fmt.Sprintf(", I² · %v", m.Time)
	src.Evidence = finding.Derived
	if row, ok := energyRow(d, i, t); ok && row.Energy < e {
		return row.Energy, row.Source, true
	}
	return e, src, true
}

// energyRow returns the row with the least energy that holds for a breaker at a
// current: of its class the smallest size band that holds its rating and
// exactly its breaking capacity, which has to cover the current; or a row that
// holds up to a current of its own.
func energyRow(d network.Device, i q.Ampere, t *Tables) (EnergyRow, bool) {
	var class, own EnergyRow
	for _, row := range t.Energy {
		switch {
		case row.Curve != d.Curve || row.UpTo < d.Rating || d.Breaking > 0 && i > d.Breaking:
		case row.Within > 0:
			if i <= row.Within && (own.Within <= 0 || row.Energy < own.Energy) {
				own = row
			}
		case row.Breaking == d.Breaking && (class.Breaking <= 0 || row.UpTo < class.UpTo):
			class = row
		}
	}
	if own.Within > 0 && (class.Breaking <= 0 || own.Energy < class.Energy) {
		return own, true
	}
	return class, class.Breaking > 0
}

package protect

import (
	"fmt"

	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// MaxLoop returns the largest earth-fault loop impedance with which the
// overcurrent part of a device opens within a time, unrounded, in ohms:
//
//	breaker, RCBO   Zs = Uo · Cmin / (m · In)   m = 5, 10, 20 for B, C, D
//	fuse            the tabulated row for the longest time not above within
//
// A fuse rating without a row takes the row of the next larger rating of its
// kind, since a smaller link of a family clears no slower; the source then says
// so. ok is false when the device has no overcurrent part, when within is
// shorter than anything tabulated, or when no row covers it. Source: BS 7671
// 411.4.4, Tables 41.2 to 41.4; EN 60898-1 Table 2.
func MaxLoop(d network.Device, within q.Second, uo q.Volt, t *Tables) (q.Ohm, finding.Source, bool) {
	switch d.Kind {
	case network.Breaker, network.RCBO:
		m, ok := multiple(d.Curve, t)
		if !ok || m.Time <= 0 || within < m.Time || d.Rating <= 0 {
			return 0, finding.Source{}, false
		}
		return q.Ohm(float64(uo) * t.Cmin / (m.Times * float64(d.Rating))), m.Source, true
	case network.FuseBS1362, network.FuseBS88_3, network.FuseBS3036:
		row, ok := fuseRow(d, within, t)
		if !ok {
			return 0, finding.Source{}, false
		}
		z := row.Zs
		if t.Nominal > 0 {
			z *= q.Ohm(uo / t.Nominal)
		}
		return z, fuseSource(d, row), true
	}
	return 0, finding.Source{}, false
}

// TripCurrent returns Ia, the current that opens the overcurrent part of a
// device within a time, in amperes: m·In for a breaker, Uo·Cmin/Zs of the
// tabulated row for a fuse (exact only to the rounding of that row). ok as for
// MaxLoop.
func TripCurrent(d network.Device, within q.Second, uo q.Volt, t *Tables) (q.Ampere, finding.Source, bool) {
	z, src, ok := MaxLoop(d, within, uo, t)
	if !ok || z <= 0 {
		return 0, finding.Source{}, false
	}
	return q.Ampere(float64(uo) * t.Cmin / float64(z)), src, true
}

// MaxLoopResidual returns the largest loop with which the residual part of a
// device gives disconnection, in ohms: 50 V / IΔn on TT, Uo·Cmin / (5·IΔn) on
// TN. With the earthing unknown the smaller of the two is returned. ok is false
// without a residual part. Source: BS 7671 411.5.3, 411.4.4, Table 41.5.
func MaxLoopResidual(d network.Device, e network.Earthing, uo q.Volt, t *Tables) (q.Ohm, finding.Source, bool) {
	if !d.ResidualPart() {
		return 0, finding.Source{}, false
	}
	tt := q.Ohm(float64(t.Touch) / float64(d.Residual))
	tn := q.Ohm(float64(uo) * t.Cmin / (5 * float64(d.Residual)))
	if e == network.TT || (e == network.EarthingUnknown && tt < tn) {
		return tt, t.TouchSource, true
	}
	return tn, t.CminSource, true
}

// Final returns the longest disconnection time of a final circuit under an
// earthing arrangement: 0.4 s TN, 0.2 s TT. ok is false when the earthing is
// not known. Source: BS 7671 Table 41.1 and 411.3.2.2.
func Final(e network.Earthing, t *Tables) (q.Second, finding.Source, bool) {
	for _, row := range t.Times {
		if row.Earthing == e && e != network.EarthingUnknown {
			return row.Final, row.Source, true
		}
	}
	return 0, finding.Source{}, false
}

// Longest returns the longest disconnection time of the circuit behind an
// overcurrent device of rating in: that of a final circuit, but 5 s on TN and 1 s
// on TT where the circuit is a way of its own, which feeds nothing but fixed
// equipment, and its device is rated above 32 A. An existing circuit may have
// socket-outlets, for which the short time holds up to 63 A: behind a spur it is
// always taken. ok is false when the earthing is not known. Source: BS 7671
// 411.3.2.2, 411.3.2.3, 411.3.2.4.
func Longest(s *network.Supply, in q.Ampere, t *Tables) (q.Second, finding.Source, bool) {
	if s.Kind == network.OwnWay && s.Earthing != network.EarthingUnknown {
		for _, row := range t.Times {
			if row.Earthing == s.Earthing && row.Above > 0 && in > row.Above {
				return row.Larger, row.LargerSource, true
			}
		}
	}
	return Final(s.Earthing, t)
}

// multiple returns the instantaneous band of a breaker curve.
func multiple(curve string, t *Tables) (Multiple, bool) {
	for _, m := range t.Multiples {
		if m.Curve == curve {
			return m, true
		}
	}
	return Multiple{}, false
}

// fuseRow returns the row of the fuse's rating, or of the next larger one, for
// the longest tabulated time that is not above within.
func fuseRow(d network.Device, within q.Second, t *Tables) (FuseRow, bool) {
	const slack = 1e-9
	var best FuseRow
	found := false
	for _, row := range t.Fuses {
		if row.Kind != d.Kind || row.Time > within+slack || row.Rating < d.Rating-slack {
			continue
		}
		if !found || row.Rating < best.Rating || (row.Rating == best.Rating && row.Time > best.Time) {
			best, found = row, true
		}
	}
	return best, found
}

// fuseSource says which row was taken when the rating has none of its own.
func fuseSource(d network.Device, row FuseRow) finding.Source {
	src := row.Source
	if row.Rating != d.Rating {
		src.Clause += fmt.Sprintf(" (row for %v taken for %v: no row of its own)", row.Rating, d.Rating)
		src.Evidence = finding.Derived
	}
	return src
}

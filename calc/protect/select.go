package protect

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// InstantFrom returns the lowest fault current at which a breaker may open at
// once, the lower end of its instantaneous band, in amperes:
//
//	I = least · In   least = 3, 5, 10 for B, C, D
//
// From there up nothing in the standards keeps it closed while a device behind
// it clears the fault. ok is false for other devices and where the rule set
// gives no lower end. Source: EN 60898-1 Table 2.
func InstantFrom(d network.Device, t *Tables) (q.Ampere, finding.Source, bool) {
	if d.Kind != network.Breaker && d.Kind != network.RCBO {
		return 0, finding.Source{}, false
	}
	m, ok := multiple(d.Curve, t)
	if !ok || m.Least <= 0 || d.Rating <= 0 {
		return 0, finding.Source{}, false
	}
	return q.Ampere(m.Least) * d.Rating, m.Source, true
}

// LongRun returns the current that a device carries without opening and the one
// that opens it within its conventional time, in amperes. ok is false where the
// rule set says nothing about its kind. Source: EN 60898-1 Table 7; BS 1362.
func LongRun(d network.Device, t *Tables) (holds, opens q.Ampere, src finding.Source, ok bool) {
	kind := d.Kind
	if kind == network.RCBO {
		kind = network.Breaker
	}
	for _, row := range t.Conventional {
		if row.Kind == kind && d.Rating > 0 {
			return q.Ampere(row.Holds) * d.Rating, q.Ampere(row.Opens) * d.Rating, row.Source, true
		}
	}
	return 0, 0, finding.Source{}, false
}

// Limits returns the shortest and the longest time that a device may take at a
// current by the time-current points of the rule set; a zero time is one that
// no point bounds. A device takes longer the smaller the current, so its
// longest time is that of the points at or below the current and its shortest
// that of the points at or above it. Only points of its own rating count. ok is
// false when no point bounds either. Source: that of the points.
func Limits(d network.Device, i q.Ampere, t *Tables) (least, longest q.Second, src finding.Source, ok bool) {
	for _, row := range t.Points {
		if row.Kind != d.Kind || row.Rating != d.Rating {
			continue
		}
		if reaches(i, row.Current) && (longest == 0 || row.Longest < longest) {
			longest, src, ok = row.Longest, row.Source, true
		}
		if reaches(row.Current, i) && row.Least > least {
			least, src, ok = row.Least, row.Source, true
		}
	}
	return least, longest, src, ok
}

// ResidualApart reports whether two residual devices in series tell faults
// apart: the one ahead is delayed (type S) and its IΔn is at least ratio times
// that of the one behind. Source: BS 7671 536.4.1.4 (from memory).
func ResidualApart(ahead, behind network.Device, ratio float64) bool {
	return ahead.Delayed && float64(ahead.Residual) >= ratio*float64(behind.Residual)*(1-1e-9)
}

package protect

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Steps returns the currents, in A, below which FaultTime and LetThrough of the
// overcurrent part of a device lose a tabulated point: the start of a breaker's
// instantaneous band, Ia of every row of a fuse. In no order; none without an
// overcurrent part. Source: as TripCurrent.
func Steps(d network.Device, uo q.Volt, t *Tables) []q.Ampere {
	if d.Kind == network.Breaker || d.Kind == network.RCBO {
		if m, ok := multiple(d.Curve, t); ok && d.Rating > 0 {
			return []q.Ampere{q.Ampere(m.Times) * d.Rating}
		}
		return nil
	}
	var out []q.Ampere
	for _, row := range t.Fuses {
		if row.Kind != d.Kind {
			continue
		}
		if ia, _, ok := TripCurrent(d, row.Time, uo, t); ok {
			out = append(out, ia)
		}
	}
	return out
}

package protect

import (
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// FaultTime returns the longest time that the overcurrent part of a device
// takes at a fault current, as far as the tables bound it: the operating time
// of the instantaneous band for a breaker, the shortest tabulated time whose
// trip current is reached for a fuse. ok is false when the current reaches no
// tabulated point: the time is then not known, and longer. Source: as MaxLoop.
func FaultTime(d network.Device, i q.Ampere, uo q.Volt, t *Tables) (q.Second, finding.Source, bool) {
	switch d.Kind {
	case network.Breaker, network.RCBO:
		m, ok := multiple(d.Curve, t)
		if !ok || m.Time <= 0 || d.Rating <= 0 || !reaches(i, q.Ampere(m.Times)*d.Rating) {
			return 0, finding.Source{}, false
		}
		return m.Time, m.Source, true
	case network.FuseBS1362, network.FuseBS88_3, network.FuseBS3036:
		return fuseTime(d, i, uo, t)
	}
	return 0, finding.Source{}, false
}

// fuseTime looks through the tabulated times of a fuse for the shortest one
// whose trip current is reached.
func fuseTime(d network.Device, i q.Ampere, uo q.Volt, t *Tables) (q.Second, finding.Source, bool) {
	var best q.Second
	var src finding.Source
	found := false
	for _, row := range t.Fuses {
		if row.Kind != d.Kind || (found && row.Time >= best) {
			continue
		}
		ia, s, ok := TripCurrent(d, row.Time, uo, t)
		if ok && reaches(i, ia) {
			best, src, found = row.Time, s, true
		}
	}
	return best, src, found
}

// ResidualTimeAt returns the longest time that the residual part of a device
// takes at a fault current, from the largest multiple of IΔn that is reached.
// ok is false below IΔn or without a residual part. Source: EN 61008-1 Table 1
// (from memory).
func ResidualTimeAt(d network.Device, i q.Ampere, t *Tables) (q.Second, finding.Source, bool) {
	if !d.ResidualPart() {
		return 0, finding.Source{}, false
	}
	at := -1
	for k, row := range t.Residual {
		if row.Delayed != d.Delayed || !reaches(i, q.Ampere(row.Multiple)*d.Residual) {
			continue
		}
		if at < 0 || row.Multiple > t.Residual[at].Multiple {
			at = k
		}
	}
	if at < 0 {
		return 0, finding.Source{}, false
	}
	return t.Residual[at].Longest, t.Residual[at].Source, true
}

// reaches compares currents that come from the same figures by two ways; a
// loop exactly on its limit gives exactly Ia but for the last bit.
func reaches(i, ia q.Ampere) bool { return float64(i) >= float64(ia)*(1-1e-12) }

// Clearing is one device part that opens for a fault, with the longest time it
// may take.
type Clearing struct {
	Index    int // in Loop.Upstream
	Device   network.Device
	Residual bool // the residual part; otherwise the overcurrent part
	Time     q.Second
	Source   finding.Source
}

// FaultTimes returns every part of the upstream devices that opens for a fault
// to earth of current i, board first, the overcurrent part before the residual
// part of the same device. Parts whose time is not known at that current are
// left out.
func FaultTimes(upstream []network.Device, i q.Ampere, uo q.Volt, t *Tables) []Clearing {
	var out []Clearing
	for k, d := range upstream {
		if s, src, ok := FaultTime(d, i, uo, t); ok {
			out = append(out, Clearing{Index: k, Device: d, Time: s, Source: src})
		}
		if s, src, ok := ResidualTimeAt(d, i, t); ok {
			out = append(out, Clearing{Index: k, Device: d, Residual: true, Time: s, Source: src})
		}
	}
	return out
}

// Disconnection says whether and by what a fault to earth at one node is
// disconnected in time.
type Disconnection struct {
	// Known is false when the loop, the earthing or the limit is not known;
	// Missing then says which and nothing else is set.
	Known   bool
	Missing string
	Current q.Ampere // Uo·Cmin/Zs, the least fault current
	Limit   q.Second
	Source  finding.Source // of the limit
	Meets   bool           // some device opens within Limit
	By      Clearing       // the device that is relied on; when Meets is false the fastest, if Opens
	Opens   bool           // some device opens at all, in a time that is known
	// ByOvercurrent tells that an overcurrent part alone meets the limit, so
	// that a residual device is additional protection and not the only one.
	ByOvercurrent bool
}

// Disconnects returns what opens for a fault of negligible impedance at the
// node of the loop and whether it does so within the time that Longest gives.
// The fault current is Uo·Cmin/Zs with the loop at operating temperature. The
// overcurrent parts are relied on first, nearest to the fault; then the
// residual parts. Source: BS 7671 411.3.2, 411.4.4, 411.5.3.
func Disconnects(l Loop, s network.Supply, t *Tables) Disconnection {
	var out Disconnection
	if !l.Applies {
		out.Missing = "no earth-fault loop to prove here"
		return out
	}
	if !l.Known {
		out.Missing = l.Missing
		return out
	}
	guard := q.Ampere(0)
	for k := range l.Upstream {
		if l.Upstream[k].Overcurrent() {
			guard = l.Upstream[k].Rating
		}
	}
	limit, src, ok := Longest(&s, guard, t)
	if !ok {
		out.Missing = "the earthing arrangement"
		return out
	}
	if l.Hot <= 0 || s.Nominal <= 0 {
		out.Missing = "a loop impedance above zero and a nominal voltage"
		return out
	}
	out.Known, out.Limit, out.Source = true, limit, src
	out.Current = q.Ampere(float64(s.Nominal) * t.Cmin / float64(l.Hot))
	parts := FaultTimes(l.Upstream, out.Current, s.Nominal, t)
	for _, residual := range []bool{false, true} {
		for k := len(parts) - 1; k >= 0; k-- {
			p := parts[k]
			if p.Residual != residual {
				continue
			}
			if p.Time <= limit {
				out.By, out.Opens, out.Meets = p, true, true
				out.ByOvercurrent = !residual
				return out
			}
			if !out.Opens || p.Time < out.By.Time {
				out.By, out.Opens = p, true
			}
		}
	}
	return out
}

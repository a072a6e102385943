package panel

import (
	"duskwire/calc"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// point returns the n-th result of the subject; a source has two.
func (s *subject) point(n int) (calc.Point, bool) {
	for _, r := range s.frame.Results {
		for i := range r.Points {
			if r.Points[i].ID != string(s.id) {
				continue
			}
			if n == 0 {
				return r.Points[i], true
			}
			n--
		}
	}
	return calc.Point{}, false
}

// readings adds the figures expected at a point entity.
func readings(f *form) {
	on := f.on
	have := func(n int, want func(calc.Point) bool) func() bool {
		return func() bool {
			p, ok := on.point(n)
			return ok && (want == nil || want(p))
		}
	}
	f.heading("What to expect here").when = have(0, nil)
	f.hint("Not connected to a supply point, so there is nothing to compute yet.").when = func() bool {
		_, ok := on.point(0)
		return !ok
	}
	f.hint("The circuit has no steady state; these figures are not an answer.").when = have(0, func(p calc.Point) bool { return !p.Trusted })
	pointRows(f, 0, have)
	f.heading("On the output side").when = have(1, nil)
	pointRows(f, 1, have)
	roomRows(f)
}

func pointRows(f *form, n int, have func(int, func(calc.Point) bool) func() bool) {
	on := f.on
	figure := func(name string, want func(calc.Point) bool, text func(calc.Point) string) {
		row := f.figure(name, func() string { p, _ := on.point(n); return text(p) })
		row.when = have(n, want)
		if why := whyPoint[name]; why != nil {
			row.why(func() Tip { p, _ := on.point(n); return why(on, p) })
		}
	}
	figure("Voltage", nil, func(p calc.Point) string {
		if p.Drive > 0 {
			return seriesVolts(p)
		}
		return p.Voltage.String() + " of " + p.Nominal.String()
	})
	stringRow(figure, on)
	figure("Volt drop", nil, func(p calc.Point) string { return p.Drop.String() + ", " + q.Percent(p.DropRatio) })
	figure("Current", nil, func(p calc.Point) string { return p.Current.String() })
	loop := func(p calc.Point) bool { return p.Loop.Applies }
	known := func(p calc.Point) bool { return p.Loop.Applies && p.Loop.Known }
	figure("Fault loop", loop, func(p calc.Point) string {
		if !p.Loop.Known {
			return "not known: " + p.Loop.Missing
		}
		return p.Loop.Hot.String() + " hot"
	})
	figure("Largest allowed", func(p calc.Point) bool { return loop(p) && p.Limit.Known }, func(p calc.Point) string {
		return p.Limit.Value.String() + " for " + p.Device
	})
	figure("Meter, cold", known, func(p calc.Point) string { return "Zs " + p.Loop.Cold.String() })
	figure("R1+R2, cold", known, func(p calc.Point) string { return p.Loop.R1R2Cold.String() })
}

// seriesVolts is the reading at a point of a string of constant current.
func seriesVolts(p calc.Point) string {
	switch {
	case !p.Trusted:
		return "no reading: the driver cannot feed the string as it is"
	case p.Kind == network.LampNode:
		return p.Voltage.String() + " across it"
	case p.Kind == network.SecondaryNode:
		return p.Voltage.String() + " over the whole string"
	}
	return p.Voltage.String() + " between the cores"
}

// stringRow adds what the whole string takes, against the range of its driver.
func stringRow(figure func(string, func(calc.Point) bool, func(calc.Point) string), on *subject) {
	of := func(p calc.Point) (calc.String, bool) {
		for _, r := range on.frame.Results {
			for _, s := range r.Strings {
				if p.Drive > 0 && p.System == s.System {
					return s, true
				}
			}
		}
		return calc.String{}, false
	}
	figure("String", func(p calc.Point) bool { _, ok := of(p); return ok }, func(p calc.Point) string {
		s, _ := of(p)
		volts := s.Least.String() + " to " + s.Most.String()
		if !s.Volts.Known {
			return s.State + "; the driver gives " + volts
		}
		return s.Volts.Value.String() + ", " + s.State + " the driver's " + volts
	})
}

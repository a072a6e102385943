package judge

import (
	"math"

	"duskwire/calc/cable"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Loop is the earth fault loop at a point, measured cold:
//
//	expected = Zfixed + (Z - Zfixed - Zsteel)·(234.5 + t)/254.5 + Zsteel·(1 + 0.0045·(t - 20))
//
// with Z at 20 °C, of which Zfixed was measured as it is. A reading is compared
// with the line for cold readings, 80 % of the largest loop that the device
// allows; on TT, where the residual device protects, with the limit itself.
type Loop struct {
	Missing            string // why it is not known, "" when it is
	Fixed, Cold, Steel q.Ohm
	Joints             int
	Line               q.Maybe[q.Ohm]
	Device             string
	Source             finding.Source // of the line
	TT                 bool
	AtSupply           bool
	// Start is what was read at the supply, and R1R2 what was read from there to
	// here, leads taken off; unknown where nobody read it.
	Start, R1R2 q.Maybe[q.Ohm]
	Beside      Beside
}

func (l Loop) at(d Day) float64 {
	wire := float64(l.Cold - l.Fixed - l.Steel)
	return float64(l.Fixed) + wire*cable.CopperAt(d.Temperature) + float64(l.Steel)*cable.SteelAt(d.Temperature)
}

// Expected implements Ask.
func (l Loop) Expected(d Day) string {
	if l.Missing != "" {
		return ""
	}
	return ohms(l.at(d))
}

// Limit implements Ask.
func (l Loop) Limit() string {
	if !l.Line.Known {
		return ""
	}
	return "at most " + ohms(float64(l.Line.Value))
}

// loopFloor is what loop testers that do not trip the residual device are easily
// off by, in ohms, and loopShare what they and the supply are off by. Common
// practice, no source.
const loopFloor, loopShare = 0.15, 0.15

// Judge implements Ask.
func (l Loop) Judge(v Value, d Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Stop, Limit: l.Limit(), Source: l.Source, Assumed: d.taken(), Figure: figure(v.Bound, v.SI, ohms)}
	var w lines
	r := v.SI
	if l.Line.Known {
		w.add("%s against the line of %s for %s", v.Text(Zs), ohms(float64(l.Line.Value)), l.Device)
		if v.Bound == Open || r > float64(l.Line.Value)+1e-9 && v.Bound != Below {
			j.Verdict = Outside
			j.Text = j.Figure + " is more than the " + ohms(float64(l.Line.Value)) + " for " + l.Device
			if v.Bound == Open {
				j.Figure, j.Text = "over range", "no loop within the range of the meter; "+l.Limit()+" for "+l.Device
			}
			j.Points = l.points(r, d, 1, v.Bound)
			j.Working = w.b.String()
			return j
		}
		if v.Bound == Above || v.Bound == Below && r > float64(l.Line.Value) {
			return unread(v, Zs, l.Limit())
		}
	}
	if l.Missing != "" {
		j.Text = j.Figure + "; what is expected is not known: " + l.Missing
		if !l.Line.Known {
			j.Verdict = Unjudged
		}
		j.Working = w.b.String()
		return j
	}
	want, how := l.reference(d)
	tol := loopFloor + loopShare*want + jointOhm*float64(l.Joints)
	w.add("expected at %s: %s", d.Temperature, ohms(l.at(d)))
	if how != "" {
		w.add("by %s: %s", how, ohms(want))
	}
	w.add("near enough: within %s (common practice, no source)", ohms(tol))
	off := r - want
	side := 0
	if math.Abs(off) > tol && !(v.Bound == Below && off > 0) {
		side = 1
		if off < 0 {
			side = -1
		}
	}
	j.Text = j.Figure + " against " + ohms(want) + " expected"
	if side < 0 && l.linked(v, want-l.Beside.less(d)-tol, &w) {
		side, j.Text = 0, j.Figure+" against "+ohms(want)+" expected of the core alone; lower as core and armour are side by side"
	}
	if side != 0 {
		j.Verdict, j.Source = Far, practice
		j.Points = l.points(r, d, side, v.Bound)
	}
	if !l.Line.Known && side == 0 {
		j.Verdict, j.Text = Unjudged, j.Text+"; its limit is not known"
	}
	j.Working = w.b.String()
	return j
}

// linked reports whether a low reading is no lower than core and armour side by side
// explain: the armour links are on when a loop is read.
func (l Loop) linked(v Value, least float64, w *lines) bool {
	if !l.Beside.any() {
		return false
	}
	w.add("expected is the core alone. With armour links on it reads lower, core and armour side by side: near enough from %s. No limit is held against that", ohms(math.Max(0, least)))
	return v.Bound == Exact && v.SI >= least && !(l.Start.Known && v.SI < float64(l.Start.Value))
}

// reference is what the loop should read: from what was measured where both parts
// were, else from the drawing.
func (l Loop) reference(d Day) (float64, string) {
	if l.Start.Known && l.R1R2.Known {
		return float64(l.Start.Value + l.R1R2.Value), "the measured loop at the supply " + ohms(float64(l.Start.Value)) + " + the measured R1+R2 " + ohms(float64(l.R1R2.Value))
	}
	return l.at(d), ""
}

func (l Loop) points(r float64, d Day, side int, b Bound) (out []string) {
	if l.AtSupply {
		if side > 0 {
			return []string{"the supply's own loop: compare Ze with the survey; ask the distributor when it is above what is declared", "a poor contact at the main earth or in the cable indoors"}
		}
		return []string{"lower than the survey: measured with bonding or other earths connected, or the survey's figure was that of another place"}
	}
	if side < 0 {
		out = append(out, "a parallel path to earth: bonded metalwork, a rod, or metal in the soil")
		if l.Start.Known && r < float64(l.Start.Value) {
			out = append(out, "lower than the loop at the supply itself, which a cable from there cannot be")
		}
		return append(out, "or Ze was measured too high, or the cable is thicker or shorter than drawn")
	}
	if b == Open || r > 10*l.at(d)+10 {
		return []string{"the protective conductor is open on the way", "the residual device tripped, or the tester had no neutral"}
	}
	if l.Start.Known && l.R1R2.Known {
		if sum := float64(l.Start.Value + l.R1R2.Value); r > sum+loopFloor {
			out = append(out, "more than the measured Ze + R1+R2: a contact that gives way under current, or one that was opened since")
		}
	}
	if !l.R1R2.Known {
		out = append(out, "measure R1+R2 here: if that is as expected, the loop of the supply is high")
	}
	return append(out, "a poor contact on the way, thinner or longer cable than drawn; loop testers that do not trip the RCD are easily off by "+ohms(loopFloor))
}

package judge

import (
	"duskwire/calc/cable"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// ArmourEnd is the armour of one run, gland to gland with the links off:
//
//	expected at most = R·L·(1 + 0.0045·(t - 20))
//
// with the largest resistance of its standard. A good armour reads less, so only
// high readings and very low ones say something.
type ArmourEnd struct {
	At20     q.Ohm // 0 when the tables do not have it
	From, To string
}

// Expected implements Ask.
func (a ArmourEnd) Expected(d Day) string {
	if a.At20 <= 0 {
		return ""
	}
	return "up to " + ohms(a.at(d))
}

func (a ArmourEnd) at(d Day) float64 { return float64(a.At20) * cable.SteelAt(d.Temperature) }

// Limit implements Ask: it must be continuous, without a figure.
func (a ArmourEnd) Limit() string { return "" }

// parallelArmour is the share of the largest resistance below which a reading is
// too good. Common practice, no source.
const parallelArmour = 0.25

// Judge implements Ask.
func (a ArmourEnd) Judge(v Value, d Day) Judgement {
	var w lines
	r := d.less(v, &w)
	j := Judgement{Verdict: Pass, Level: finding.Stop, Source: practice, Figure: figure(v.Bound, r, ohms), Assumed: d.taken()}
	ends := a.From + " or " + a.To
	if v.Bound == Open {
		j.Verdict, j.Figure, j.Source = Outside, "over range", continuitySource
		j.Text = "the armour is not continuous from " + a.From + " to " + a.To
		j.Points = []string{"a gland without grip on the wires, or a tag left off, at " + ends, "the armour was cut through: look where it was dug or drilled"}
		return j
	}
	if a.At20 <= 0 {
		j.Verdict, j.Text = Unjudged, j.Figure+": the tables have no resistance of this armour"
		return j
	}
	b := bandOf(a.at(d), 2)
	w.add("at most %s at 20 °C, %s at %s", ohms(float64(a.At20)), ohms(b.expected), d.Temperature)
	w.add("high from %s with two glands, too low below %s of it (common practice, no source)", ohms(b.high), q.Percent(parallelArmour))
	switch {
	case v.Bound == Above && r < b.high:
		return unread(v, Armour, "near what is expected")
	case r > b.high && v.Bound != Below:
		j.Verdict, j.Text = Far, j.Figure+" is more than the "+ohms(b.expected)+" of a good armour"
		j.Points = []string{"a gland or tag that hardly holds the wires, at " + ends, "or more cable than drawn"}
	case r < parallelArmour*b.expected-floorOhm:
		j.Verdict, j.Text = Far, j.Figure+" is far less than armour of this length reads"
		j.Points = []string{"a parallel path: the links are still on, or metalwork joins both ends", "the ends of another, shorter run"}
	default:
		j.Text = j.Figure + " against up to " + ohms(b.expected) + " expected"
	}
	j.Working = w.b.String()
	return j
}

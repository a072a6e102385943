package judge

import (
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
)

// Residual are the tests of a residual current device: one of them is asked. At
// the rated residual current at most 300 ms, delayed ones 130 to 500 ms; nothing
// at half of it. Source: BS 7671:2018+A2 643.7 and 643.8, EN 61008-1 (from
// memory). A rising current trips between half and the whole of it.
type Residual struct {
	Test    Test
	Rated   q.Ampere
	Delayed bool
	// Leaks is what was read of standing leakage, which adds to the test current.
	Leaks q.Maybe[q.Ampere]
}

var residualSource = memory("643.8")

func milliseconds(v float64) string { return fixed(v*1e3, 0) + " ms" }

func (r Residual) times() (low, high float64) {
	if r.Delayed {
		return 0.130, 0.500
	}
	return 0, 0.300
}

// Expected implements Ask.
func (r Residual) Expected(Day) string {
	if words := r.Test.Words(); len(words) > 0 {
		return words[0]
	}
	return ""
}

// Limit implements Ask.
func (r Residual) Limit() string {
	low, high := r.times()
	switch r.Test {
	case RCDTime:
		if low > 0 {
			return milliseconds(low) + " to " + milliseconds(high)
		}
		return "at most " + milliseconds(high)
	case RCDCurrent:
		return "over " + milliamps(float64(r.Rated)/2) + ", up to " + milliamps(float64(r.Rated))
	}
	return r.Expected(Day{})
}

// Judge implements Ask.
func (r Residual) Judge(v Value, _ Day) Judgement {
	j := Judgement{Verdict: Pass, Level: finding.Stop, Limit: r.Limit(), Source: residualSource, Figure: v.Text(r.Test), Text: v.Text(r.Test)}
	outside := func(text string, points ...string) Judgement {
		j.Verdict, j.Text, j.Points = Outside, text, points
		return j
	}
	low, high := r.times()
	if r.Test == RCDCurrent {
		low, high = float64(r.Rated)/2, float64(r.Rated)
	}
	if v.Word != "" {
		switch v.Word {
		case "trips":
			return outside("it trips at half its rated residual current", r.early()...)
		case "fails":
			return outside("its test button does not switch it off", "a device that does not trip: exchange it", "no supply, or the button is fed from the dead side")
		}
		return j
	}
	if r.Test == RCDTime && v.Bound == Exact && v.SI == 0 {
		j.Verdict, j.Text = Unjudged, j.Text+" is no operating time: read it again"
		return j
	}
	exact := r.Test == RCDCurrent || r.Delayed // the lower bound counts as well
	switch {
	case v.Bound == Open, v.SI > high+1e-9 && v.Bound != Below, v.Bound == Above && v.SI >= high-1e-9:
		text := "it does not trip within " + milliseconds(high)
		if r.Test == RCDCurrent {
			text = "it does not trip up to " + milliamps(high)
		}
		return outside(text, "a worn or stuck device: exchange it", "the tester had no earth, or neutral and earth are joined behind the device")
	case v.Bound != Exact && (exact || v.Bound == Above || v.SI > high):
		return unread(v, r.Test, r.Limit())
	case exact && v.SI < low-1e-9:
		return outside(j.Figure+" is too early: "+r.Limit(), r.early()...)
	case exact && r.Test == RCDCurrent && v.SI <= low+1e-12:
		return outside(j.Figure+" is too early: "+r.Limit(), r.early()...)
	}
	return j
}

// early is why a device trips too soon.
func (r Residual) early() []string {
	if r.Leaks.Known && float64(r.Leaks.Value) > float64(r.Rated)/6 {
		return []string{"standing leakage of " + milliamps(float64(r.Leaks.Value)) + " adds to the test current: test with the garden off"}
	}
	out := []string{"standing leakage adds to the test current: test with the garden off, then clamp it"}
	if r.Delayed {
		return append(out, "not a delayed device after all")
	}
	return append(out, "another device of lower rating trips in its place")
}

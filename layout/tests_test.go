package layout_test

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/judge"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
)

// enter writes a reading down on the first visit, at 20 °C.
func enter(t *testing.T, d *layout.Desk, tag string, test judge.Test, text string) *layout.TestRow {
	t.Helper()
	v, err := judge.ParseTyped(test, text)
	if err != nil {
		t.Fatal(err)
	}
	on := doc.WithTag(d.Frame().Scheme, tag)
	part := ""
	for _, r := range d.Tests().Of(test) {
		if r.On == on.Key() {
			part = r.Part
		}
	}
	a := doc.Asked{On: on.Key(), Test: test, Part: part}
	commit(t, d, edit.SetReading{New: doc.Visit{Temperature: q.Some(q.Celsius(20))}, Reading: doc.Reading{Asked: a, Value: v}})
	row := d.Tests().Row(a)
	if row == nil {
		t.Fatalf("%s of %s is not asked", test, tag)
	}
	return row
}

func ohmsIn(t *testing.T, text string) float64 {
	t.Helper()
	v, err := judge.Parse(judge.R1R2, text)
	if err != nil {
		t.Fatal(err)
	}
	return v.SI
}

// TestExpectedReadings: what a meter should show is the hand calculation of the trade
// notes, section 9: terrace wall R1+R2 0.32 Ω; gate light R1+R2 2.42 Ω, Zs 2.77 Ω cold
// with the lamp's own run; armour 11.2 mΩ/m on the bollards.
func TestExpectedReadings(t *testing.T) {
	for _, c := range []struct {
		file, tag string
		test      judge.Test
		want      float64
		limit     string
	}{
		{"1-terrace-wall.yaml", "L4", judge.R1R2, 0.32, ""},
		{"1-terrace-wall.yaml", "L4", judge.Zs, 0.92, "at most 12.48 Ω"}, // 0.60 + 0.32, 80 % of 15.6
		{"4-gate.yaml", "L2", judge.R1R2, 2.41, ""},
		{"4-gate.yaml", "L2", judge.Zs, 2.76, "at most 5.83 Ω"}, // 80 % of 7.28 for the B6
	} {
		d := scenario(t, c.file)
		row := enter(t, d, c.tag, c.test, "1")
		if got := ohmsIn(t, d.Tests().Expected(row)); math.Abs(got-c.want) > 0.015 {
			t.Errorf("%s %s of %s: %g Ω, want %g", c.file, c.test, c.tag, got, c.want)
		}
		if got := row.Ask.Limit(); c.limit != "" && got != c.limit {
			t.Errorf("%s %s of %s: limit %q, want %q", c.file, c.test, c.tag, got, c.limit)
		}
	}
}

// TestMeasuredFindings: what a reading is at its level, in the findings, and gone
// when it is taken again.
func TestMeasuredFindings(t *testing.T) {
	d := scenario(t, "1-terrace-wall.yaml")
	enter(t, d, "L4", judge.R1R2, "0.33")
	if got := codes(d.Frame(), finding.Stop) + codes(d.Frame(), finding.Decide); got != "" {
		t.Fatalf("a reading as expected raises %s", got)
	}
	enter(t, d, "L4", judge.R1R2, "0.8")
	enter(t, d, "L4", judge.Polarity, "reversed")
	if got := codes(d.Frame(), finding.Decide); got != "TST-02" {
		t.Errorf("Decide %q, want TST-02", got)
	}
	if got := codes(d.Frame(), finding.Stop); got != "TST-01" || layout.NoEdit("TST-01") == "" {
		t.Errorf("Stop %q, want TST-01 that no edit leads out of", got)
	}
	why := ""
	for _, f := range d.Explain(doc.WithTag(d.Frame().Scheme, "L4").Key()) {
		why += string(f.Code) + f.Working
	}
	if !strings.Contains(why, "TST-01Polarity: line and neutral are reversed here") {
		t.Errorf("working of L4: %s", why)
	}
	second := doc.Reading{Asked: doc.Asked{On: doc.WithTag(d.Frame().Scheme, "L4").Key(), Test: judge.Polarity}, Value: judge.Value{Word: "right"}}
	commit(t, d, edit.SetReading{Visit: 1, Reading: second})
	if got := codes(d.Frame(), finding.Stop); got != "" {
		t.Errorf("Stop %q after it was put right", got)
	}
	// The run that fed it goes: the reading is of nothing.
	commit(t, d, edit.Delete{IDs: []doc.ID{doc.WithTag(d.Frame().Scheme, "R4").Key()}})
	if got := codes(d.Frame(), finding.Note); !strings.Contains(got, "TST-03") {
		t.Errorf("Notes %q, want TST-03", got)
	}
}

// TestBefore: a poor contact is found where it is, by the point before.
func TestBefore(t *testing.T) {
	d := scenario(t, "1-terrace-wall.yaml")
	enter(t, d, "L2", judge.R1R2, "0.25")
	enter(t, d, "L3", judge.R1R2, "0.6")
	row := enter(t, d, "L4", judge.R1R2, "0.64")
	says := func(r *layout.TestRow) string {
		j, _ := d.Tests().Judge(r)
		return strings.Join(j.Points, "; ")
	}
	if got := says(row); !strings.Contains(got, "L3, is off as much") {
		t.Errorf("L4: %s", got)
	}
	at := d.Tests().Row(doc.Asked{On: doc.WithTag(d.Frame().Scheme, "L3").Key(), Test: judge.R1R2})
	if got := says(at); !strings.Contains(got, "L2, is nearly right: R3 or its ends add 0.3") {
		t.Errorf("L3: %s", got)
	}
}

// BenchmarkTests: what is asked of 1,000 lamps.
func BenchmarkTests(b *testing.B) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		b.Fatal(err)
	}
	d := layout.NewDesk(stock, rules, border(1000), "")
	for b.Loop() {
		layout.TestsOf(d.Frame(), rules[0])
	}
}

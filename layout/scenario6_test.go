package layout_test

import (
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// find returns the only finding of a code and level that is not overruled.
func find(t *testing.T, f *layout.Frame, code finding.Code, l finding.Level) finding.Finding {
	t.Helper()
	var out []finding.Finding
	for _, x := range f.Findings {
		if x.Code == code && x.Level == l {
			out = append(out, x)
		}
	}
	if len(out) != 1 {
		t.Fatalf("%d findings %s of level %v, want one", len(out), code, l)
	}
	return out[0]
}

func labels(list []finding.Subject) string {
	var out []string
	for _, s := range list {
		out = append(out, s.Label)
	}
	return strings.Join(out, " ")
}

// tagged returns the operation that changes the ends of every run by set.
func tagged(f *layout.Frame, set func(r *doc.Run)) edit.Operation {
	var ops []edit.Operation
	for _, r := range f.Scheme.Runs.All() {
		changed := *r
		set(&changed)
		if changed.From != r.From || changed.To != r.To {
			ops = append(ops, edit.SetRun{Run: &changed})
		}
	}
	return edit.Batch{Label: "Tags", Ops: ops}
}

// TestPlasticBoxes is scenario 6 of the trade notes: five class I bollards on
// 45 m of 2-core 1.5 mm² armoured cable, plastic boxes, no tags. The loop alone
// would pass; the trace breaks at box 1. The handrail is 0.7 m from bollard 3.
func TestPlasticBoxes(t *testing.T) {
	d := scenario(t, "6-plastic-boxes.yaml")
	f := d.Frame()
	if got := codes(f, finding.Stop); got != "EAR-02 EAR-03" {
		t.Errorf("stops %q, want the broken earth path and the armours alone", got)
	}
	path := find(t, f, "EAR-02", finding.Stop)
	// With no tag on the armour that arrives in box 1 even its own lamp has none.
	if got := path.Subject.Label + " " + labels(path.Also); got != "L1 B1 R1 L2 L3 L4 L5" {
		t.Errorf("EAR-02 about %s", got)
	}
	if !strings.Contains(path.Working, "broken: the armour of R1 has no tag at B1") {
		t.Errorf("the break is not in the path:\n%s", path.Working)
	}
	// Needed: 10 ends of 5 pieces with a tag or nut, 5 boxes linked.
	if !strings.Contains(path.Working, "tag or earthing nut: 10, without one: 9") || !strings.Contains(path.Working, "linked: 5,") {
		t.Errorf("counts of the trade notes are missing:\n%s", path.Working)
	}
	if armour := find(t, f, "EAR-03", finding.Stop); armour.Subject.Label+" "+labels(armour.Also) != "R2 R3 R4 R5" {
		t.Errorf("EAR-03 about %s and %s", armour.Subject.Label, labels(armour.Also))
	}
	if p := point(t, f, "L5"); p.Loop.Known {
		t.Errorf("the broken armour is credited: %v at L5", p.Loop.Hot)
	}
	metal := find(t, f, "EAR-06", finding.Decide)
	if metal.Subject.Label != "L3" || metal.Figure != "0.7 m" || !strings.Contains(metal.Text, "TN-C-S") || !strings.Contains(metal.Text, "Handrail") {
		t.Errorf("EAR-06: %s %s %s", metal.Subject.Label, metal.Figure, metal.Text)
	}
}

// TestPlasticBoxesCured: the cures of the scenario. With box 1 made properly
// its lamp has an earth and lamps 2 to 5 have none; with every armour joined
// the path is whole and the loop passes, and so it is with a core.
func TestPlasticBoxesCured(t *testing.T) {
	d := scenario(t, "6-plastic-boxes.yaml")
	commit(t, d, tagged(d.Frame(), func(r *doc.Run) { r.To.Untagged = r.To.Untagged && r.ID != "R1" }))
	path := find(t, d.Frame(), "EAR-02", finding.Stop)
	if got := path.Subject.Label + " " + labels(path.Also); got != "L2 B1 R2 L3 L4 L5" {
		t.Errorf("box 1 made: EAR-02 about %s, want lamps 2 to 5 broken at B1", got)
	}
	commit(t, d, tagged(d.Frame(), func(r *doc.Run) { r.From.Untagged, r.To.Untagged = false, false }))
	f := d.Frame()
	if got := codes(f, finding.Stop); got != "" {
		t.Errorf("all joined: stops %q", got)
	}
	p := point(t, f, "B5")
	// 0.35 + 45·(12.1·1.28 + 1.1·10.2)/1000 = 1.55 with the armour cold, as the
	// notes have it; its own multiplier 1.27 makes 1.69. Both pass a B6, 7.28.
	within(t, "loop, armour cold", 0.35+float64(p.Loop.R1R2Hot)-45*1.1*0.0102*0.27, 1.55, 0.006)
	within(t, "loop, armour hot", float64(p.Loop.Hot), 1.688, 0.001)
	within(t, "limit of the B6", float64(p.Limit.Value), 7.28, 0.006)
	joints := find(t, f, "EAR-05", finding.Note)
	if joints.Figure != "10 glands" || joints.Subject.Label != "L5" {
		t.Errorf("EAR-05 %s at %s, want 10 glands in series at L5", joints.Figure, joints.Subject.Label)
	}
	for _, r := range f.Scheme.Runs.All()[:5] {
		commit(t, d, edit.SetCable{Runs: []doc.ID{r.ID}, Cable: "swa-3x1.5"})
	}
	commit(t, d, tagged(d.Frame(), func(r *doc.Run) { r.To.Untagged = true }))
	if got := codes(d.Frame(), finding.Stop); got != "" {
		t.Errorf("three-core, armours earthed at one end: stops %q", got)
	}
}

// TestExplainShowsThePath: the working of a class I lamp leads to the main
// earth terminal, conductor by conductor.
func TestExplainShowsThePath(t *testing.T) {
	d := scenario(t, "6-plastic-boxes.yaml")
	commit(t, d, tagged(d.Frame(), func(r *doc.Run) { r.From.Untagged, r.To.Untagged = false, false }))
	for _, f := range d.Explain("L2") {
		if f.Code == "EAR-02" {
			want := "core of R7 to B2\n  armour of R2 to B1: tag at B2, tag at B1\n  armour of R1 to SP1: tag at B1, tag at SP1\n  core of indoor leg of SP1 to board\n  main earth terminal"
			if f.Level != finding.Held || !strings.Contains(f.Working, want) {
				t.Errorf("%v\n%s", f.Level, f.Working)
			}
			return
		}
	}
	t.Error("nothing about the earth path of L2")
}

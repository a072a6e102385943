package ui

import (
	"testing"

	"duskwire/calc/finding"
	"duskwire/layout"
)

// The ways out of a finding come from a worker, and a second question drops the
// first.
func TestCuresComeFromAWorker(t *testing.T) {
	r := newRig(t, "townhouse-mistakes.yaml")
	var fd finding.Finding
	for _, f := range r.desk.Frame().Findings {
		if f.Code == "VD-03" {
			fd = f
		}
	}
	if fd.Code == "" {
		t.Fatal("no VD-03 in the example")
	}
	var got [][]layout.Cure
	r.w.cures(fd, func(list []layout.Cure) { t.Error("the first question was answered") })
	r.w.cures(fd, func(list []layout.Cure) { got = append(got, list) })
	r.wait()
	r.wait()
	if len(got) != 1 || len(got[0]) == 0 {
		t.Fatalf("%d answers", len(got))
	}
}

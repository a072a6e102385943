package layout

import (
	"strings"

	"duskwire/calc/finding"
	"duskwire/layout/tool"
)

// Step is one of the first steps of a new scheme: its name, whether the frame
// shows it done, and how it is done, with the keys.
type Step struct {
	Name, Say string
	Done      bool
}

// FirstSteps returns the way from an empty sheet to findings that are dealt
// with: supply, plan, lamps, run, findings, in this order. It looks at the frame
// alone, so that undo takes a tick back. The plan is done with a picture that has
// its scale, or with any ground drawn; the run as soon as a lamp is fed; the
// findings when something is fed, none of them is a Stop and every Decide has its
// decision. Done is not a proof of anything.
func FirstSteps(f *Frame) []Step {
	s := f.Scheme
	lay := s.Plan.Underlay
	key := func(name string) string { return strings.ToUpper(string(tool.Letter(name))) }
	plan := "Press " + key(tool.NameArea) + ", " + key(tool.NameLine) + " or " + key(tool.NameMark) +
		" and draw the ground; or a picture under it: Ctrl+Shift+Y, or drop a file here."
	if lay.Present() {
		plan = "Press " + key(tool.NameScale) + " and click two points of the picture whose distance you know."
	}
	fed := anyFed(f)
	return []Step{
		{"Supply", "Press " + key(tool.NameSupply) + " and click where the garden takes its power; what the survey found goes into Properties.",
			s.Supplies.Len() > 0},
		{"Plan", plan, lay.Present() && lay.Known.Given() || s.Areas.Len()+s.Lines.Len()+s.Marks.Len() > 0},
		{"Lamps", "Press " + key(tool.NameLamp) + ", choose the fitting in the tray, and click where the lamps go.", s.Lamps.Len() > 0},
		{"Run", "Press " + key(tool.NameRun) + " and click supply point, corners of the route and lamps, one after the other; Esc stops.", fed},
		{"Findings", "Ctrl+J goes from finding to finding: mend a Stop, decide a Decide; a Note asks for nothing.",
			fed && openFindings(f) == 0},
	}
}

// anyFed reports whether a lamp has a reading: it hangs on a supply point.
func anyFed(f *Frame) bool {
	for _, r := range f.Results {
		if r.Totals.Lamps > 0 {
			return true
		}
	}
	return false
}

// openFindings counts what still asks for something.
func openFindings(f *Frame) (n int) {
	for i := range f.Findings {
		if f.Findings[i].Level > finding.Note && f.Findings[i].Overruled == nil {
			n++
		}
	}
	return n
}

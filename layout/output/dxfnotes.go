package output

import (
	"duskwire/calc/finding"
)

const (
	layerNotes = "NOTES"
	notesWide  = 150 // of a line of notes, millimetres on paper
	notesPitch = 4   // between lines
)

// notes letters what was decided against below the drawing, a layer of its own: what,
// why, who and when, each on as many lines as it takes.
func (d *dxf) notes(fs []finding.Finding) {
	lines := []string{"Findings overruled"}
	for i := range fs {
		if f := &fs[i]; f.Overruled != nil {
			lines = append(lines, wrap(overruledWords(f), notesWide, dxfCap, false, linesOverruled)...)
		}
	}
	if len(lines) == 1 {
		return
	}
	at := d.extent.Min
	for _, l := range lines {
		at.Y -= notesPitch * d.mm
		d.text(layerNotes, l, at, 0, false)
	}
}

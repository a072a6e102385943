package scene

import (
	"duskwire/calc"
	"duskwire/calc/finding"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/picture"
)

// Input is everything the plan is drawn from. Only Scheme is needed.
type Input struct {
	Scheme   *doc.Scheme
	Stock    *doc.Stock        // nil: symbols by entity only
	Lengths  []derive.Length   // for the cut lengths in run labels
	Findings []finding.Finding // for the marks beside their subjects
	// Show names the layers wanted; nil is all but the grid.
	Show map[Layer]bool
	// Skip reports entities to leave out, such as those being dragged; nil
	// leaves out none.
	Skip    func(doc.ID) bool
	Palette *Palette // nil: Light()
	// Picture is what lies under the plan as it was read; nil leaves it out.
	Picture *picture.Picture
	// Look is what the runs are drawn to show; all but LookPlan need Circuits and
	// Results.
	Look     Look
	Circuits *derive.Circuits
	Results  []*calc.Result // one a circuit
	// NoZones leaves out the rings, numbers and colours of zones.
	NoZones bool
	// Hatch asks for the hatched areas of zones, with or without the rings.
	Hatch Hatch
	// Screen drops labels that find no free place (one can zoom in) and draws
	// zoom-dependent extras. On paper every point keeps its tag.
	Screen bool
	// Sparse drops on paper too what finds no free place right beside its symbol,
	// so that no two labels meet.
	Sparse bool
}

// AllLayers returns a fresh Show with every layer on.
func AllLayers() map[Layer]bool {
	return map[Layer]bool{LayerPicture: true, LayerGrid: true, LayerGround: true, LayerLines: true, LayerZones: true, LayerRuns: true,
		LayerPoints: true, LayerDimensions: true, LayerLabels: true, LayerFinding: true, LayerFrame: true}
}

func (in *Input) shows(l Layer) bool {
	if in.Show == nil {
		return l != LayerGrid
	}
	return in.Show[l]
}

func (in *Input) skips(id doc.ID) bool { return in.Skip != nil && in.Skip(id) }

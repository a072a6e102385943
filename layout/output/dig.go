package output

import (
	"io"

	"duskwire/layout"
	"duskwire/layout/scene"
)

// DigOf writes the plan of a frame as it is dug: ground and runs by depth, the
// findings about the ground where they are. Otherwise it is as PictureOf.
func DigOf(w io.Writer, format string, f *layout.Frame, rules, date string) error {
	s, err := sheetOf(f, rules, date)
	if err != nil {
		return err
	}
	s.Plan.Look, s.Plan.Circuits = scene.LookDig, f.Circuits
	return Picture(w, format, s)
}

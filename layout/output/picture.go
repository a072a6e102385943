package output

import (
	"fmt"
	"io"

	"duskwire/layout/scene"
)

// Picture writes the plan, or the circuits, as one page in the format "png", "svg" or "pdf".
// The same sheet gives the same bytes every time.
func Picture(w io.Writer, format string, s Sheet) error {
	var write func(io.Writer, *scene.List, Sheet) error
	switch format {
	case "png":
		write = writePNG
	case "svg":
		write = writeSVG
	case "pdf":
		write = writePDF
	default:
		return fmt.Errorf("picture: format %q: expected png, svg or pdf", format)
	}
	page := Page
	if s.Circuit != nil {
		page = CircuitPage
	}
	l, err := page(s)
	if err != nil {
		return err
	}
	if err := write(w, l, s); err != nil {
		return fmt.Errorf("picture: %s: %w", format, err)
	}
	return nil
}

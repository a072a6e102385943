//go:build e2e

package main_test

import (
	"os"
	"testing"
	"time"
)

// TestScreenshots takes the pictures of README: make screenshot. It runs only
// when it is asked to, since it tests nothing that TestExample does not.
func TestScreenshots(t *testing.T) {
	if os.Getenv("DUSKWIRE_SHOTS") == "" {
		t.Skip("pictures are taken by make screenshot")
	}
	const runX, runY = 1.5, 12 // on a leg of R9 of the example, away from all else
	for _, shot := range []struct {
		name, scale string
		stage       func(*program)
	}{
		{"window", "1", func(*program) {}},
		{"window-dark", "1", func(p *program) { p.key("ctrl+d") }},
		{"window-200", "2", func(*program) {}},
		{"window-200-dark", "2", func(p *program) { p.key("ctrl+d") }},
		{"window-dusk", "1", func(p *program) { p.key("ctrl+4"); time.Sleep(4 * time.Second) }},
		{"window-standing", "1", func(p *program) { p.key("ctrl+4", "ctrl+shift+4"); time.Sleep(5 * time.Second) }},
		{"window-pages", "1", func(p *program) { p.key("ctrl+p"); time.Sleep(3 * time.Second); p.key("Next") }},
		{"window-circuit", "1", func(p *program) { p.key("ctrl+2", "ctrl+0") }},
		{"window-dig", "1", func(p *program) { p.key("ctrl+3") }},
		{"window-section", "1", func(p *program) { p.click(runX, runY) }},
	} {
		t.Run(shot.name, func(t *testing.T) {
			s := newScreen(t, 1280, 800)
			p := s.run(shot.scale)
			p.await("the example's lamps", func(f *frame) bool { return f.Totals.Lamps > 0 && !f.Preview })
			shot.stage(p)
			p.moveTo(2, 790) // over nothing that answers
			time.Sleep(2 * time.Second)
			s.picture(shot.name + ".png")
			p.key("Escape") // a sheet holds Ctrl+Q back
			p.quit()
		})
	}
}

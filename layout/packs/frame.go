package packs

import (
	"strconv"

	"duskwire/layout/output"
	"duskwire/layout/scene"
)

// caution stands on every page.
const caution = "Design aid: a competent person checks the design, installs, inspects and tests. Isolate, lock off and prove dead. " +
	"Do not dig on this drawing alone: positions of services are not verified. Local rules may ask for more."

// frame draws the frame, the marks for the middle of each side and the title
// block of a list page. Source: ISO 5457, ISO 7200 (from memory).
func (b *book) frame(l *scene.List, title string, n, of int) {
	f := &flow{book: b, at: l}
	w, h := l.Width, l.Height
	f.box(thick, filing, edge, w-edge, h-edge)
	mx, my := w/2, h/2
	f.line(thick, mx, edge-5, mx, edge)
	f.line(thick, mx, h-edge, mx, h-edge+5)
	f.line(thick, filing-5, my, filing, my)
	f.line(thick, w-edge, my, w-edge+5, my)
	top, right := h-edge-block(l), w-edge
	f.line(medium, filing, top, right, top)
	x, wide, y := filing+3.0, right-filing-6, top+3+capHead+0.4
	page := "Page " + strconv.Itoa(n) + " of " + strconv.Itoa(of)
	name := b.scheme.Title
	if output.OneLine(name) == "" {
		name = "Garden lighting"
	}
	date := b.Date
	if date == "" {
		date = "Date:                    "
	}
	room := wide - 32
	f.write(first(wrap(name, room, capHead+0.4, true)), x, y, capHead+0.4, true, scene.Left)
	f.write(page, right-3, y, capBody, true, scene.Right)
	y += 4.6
	f.write(first(wrap(title, room, capBody, true)), x, y, capBody, true, scene.Left)
	f.write(date, right-3, y, capBody, false, scene.Right)
	y += 3.9
	words := caution + " Judged by the limits set in " + b.Rules.Name + ", " + b.Rules.Edition + "."
	if a := output.OneLine(b.scheme.Author); a != "" { // last, for what finds no room is cut
		words += " Drawn by " + a + "."
	}
	room = (h - edge - y) / pitchFine
	for _, t := range most(wrap(words, wide, capSmall, false), int(room+1)) {
		f.write(t, x, y, capSmall, false, scene.Left)
		y += pitchFine
	}
}

// first returns the first line, with an ellipsis when more follow.
func first(lines []string) string {
	l := most(lines, 1)
	if len(l) == 0 {
		return ""
	}
	return l[0]
}

// most returns at most n lines; what is too much ends in an ellipsis.
func most(lines []string, n int) []string {
	if len(lines) <= n {
		return lines
	}
	out := append([]string(nil), lines[:n]...)
	out[n-1] += "…"
	return out
}

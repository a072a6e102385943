package output

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"duskwire/layout/scene"
)

// writeSVG writes the page with one user unit a millimetre, so that it
// measures true. Layers are groups; data-id names the entity of the plan.
func writeSVG(w io.Writer, l *scene.List, s Sheet) error {
	out := &svg{w: bufio.NewWriter(w)}
	out.put(`<?xml version="1.0" encoding="UTF-8"?>`, "\n")
	out.put(`<svg xmlns="http://www.w3.org/2000/svg" width="`, mm(l.Width), `mm" height="`, mm(l.Height),
		`mm" viewBox="0 0 `, mm(l.Width), " ", mm(l.Height),
		`" stroke-linecap="round" stroke-linejoin="round" fill="none" fill-rule="evenodd" font-family="Go, 'Go Regular', Arial, 'Liberation Sans', 'Noto Sans', sans-serif">`, "\n")
	out.put("<title>", escaped(plain(s.Plan.Scheme.Title)), "</title>\n")
	out.put(`<rect width="100%" height="100%" fill="`, hex(l.Background), `"/>`, "\n")
	layer := scene.Layer("")
	for i := range l.Items {
		it := &l.Items[i]
		if it.Layer != layer {
			if layer != "" {
				out.put("</g>\n")
			}
			layer = it.Layer
			out.put(`<g class="`, escaped(string(layer)), `">`, "\n")
		}
		out.item(it, l.Background)
	}
	if layer != "" {
		out.put("</g>\n")
	}
	out.put("</svg>\n")
	if out.err != nil {
		return out.err
	}
	return out.w.Flush()
}

type svg struct {
	w   *bufio.Writer
	err error
}

func (o *svg) put(parts ...string) {
	for _, p := range parts {
		if o.err == nil {
			_, o.err = o.w.WriteString(p)
		}
	}
}

// mm writes millimetres to a thousandth without needless zeros.
func mm(v float64) string {
	s := strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
	if s == "-0" {
		return "0"
	}
	return s
}

func hex(c scene.Colour) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// escaped makes a text fit for XML; characters that XML cannot hold become
// the replacement character.
func escaped(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(s)) // a strings.Builder does not fail
	return b.String()
}

func (o *svg) item(it *scene.Item, paper scene.Colour) {
	switch it.Kind {
	case scene.Text:
		o.text(it, paper)
		return
	case scene.Image:
		o.image(it)
		return
	case scene.Circle:
		o.put(`<circle cx="`, mm(it.Points[0].X), `" cy="`, mm(it.Points[0].Y), `" r="`, mm(it.Size), `"`)
	case scene.Polyline, scene.Polygon, scene.Segments:
		o.put(`<path d="`)
		for i, p := range it.Points {
			cmd := "L"
			if i == 0 || it.Kind == scene.Segments && i%2 == 0 {
				cmd = "M"
			}
			o.put(cmd, mm(p.X), " ", mm(p.Y))
		}
		if it.Kind == scene.Polygon {
			o.put("Z")
		}
		o.put(`"`)
	}
	o.style(&it.Style)
	o.id(it)
	o.put("/>\n")
}

func (o *svg) id(it *scene.Item) {
	if it.Entity != "" {
		o.put(` data-id="`, escaped(it.Entity), `"`)
	}
}

func (o *svg) style(st *scene.Style) {
	if st.Fill.A > 0 {
		o.put(` fill="`, hex(st.Fill), `"`)
		if st.Fill.A < 255 {
			o.put(` fill-opacity="`, mm(float64(st.Fill.A)/255), `"`)
		}
	}
	if st.Width <= 0 || st.Stroke.A == 0 {
		return
	}
	o.put(` stroke="`, hex(st.Stroke), `" stroke-width="`, mm(st.Width), `"`)
	if st.Stroke.A < 255 {
		o.put(` stroke-opacity="`, mm(float64(st.Stroke.A)/255), `"`)
	}
	if len(st.Dash) > 0 {
		o.put(` stroke-dasharray="`)
		for i, d := range st.Dash {
			if i > 0 {
				o.put(" ")
			}
			o.put(mm(d))
		}
		o.put(`"`)
	}
}

// text writes a text of fixed length, so that another font keeps its place.
func (o *svg) text(it *scene.Item, paper scene.Colour) {
	if it.Text == "" {
		return
	}
	p := scene.Start(it)
	o.put(`<text x="`, mm(p.X), `" y="`, mm(p.Y), `" font-size="`, mm(scene.FontSize(it.Size, it.Bold)),
		`" textLength="`, mm(scene.TextWidth(it.Text, it.Size, it.Bold)), `" lengthAdjust="spacingAndGlyphs" fill="`, hex(it.Style.Fill), `"`)
	if it.Bold {
		o.put(` font-weight="bold"`)
	}
	if it.Turn != 0 {
		o.put(` transform="rotate(`, mm(-it.Turn), " ", mm(p.X), " ", mm(p.Y), `)"`)
	}
	if it.Halo {
		o.put(` paint-order="stroke" stroke="`, hex(paper), `" stroke-width="`, mm(2*scene.HaloWidth), `"`)
	}
	o.id(it)
	o.put(">", escaped(it.Text), "</text>\n")
}

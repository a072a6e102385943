package file

import (
	"strconv"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// underlay reads the picture under the plan.
func (r *reader) underlay(n node) doc.Underlay {
	o := n.object()
	if !n.present() {
		return doc.Underlay{}
	}
	u := doc.Underlay{
		File:  o.needText("file"),
		Sum:   o.needText("sha256"),
		At:    o.point("at"),
		Pixel: needValue(o, "pixel", q.ParseMetre),
		Turn:  o.angle("turn"),
		Lock:  o.flag("lock"),
	}
	u.Width, u.Height = wholePair(o.need("pixels", pixelsWanted))
	if f := o.get("fade"); f.present() {
		u.Fade = doc.Ratio(f.ratio())
	}
	u.Known = measure(o.get("known"))
	u.Check = measure(o.get("check"))
	r.spots[spot{part: "picture"}] = o.node
	o.done()
	return u
}

const pixelsWanted = "width and height in pixels such as [4000, 3000]"

// wholePair reads two whole numbers in brackets.
func wholePair(n node) (a, b int) {
	if !n.present() {
		return 0, 0
	}
	list := n.list()
	if len(list) != 2 {
		n.fail(n.found(), pixelsWanted)
		return 0, 0
	}
	return list[0].whole(0, 1e6), list[1].whole(0, 1e6)
}

// measure reads a length between two places on the picture.
func measure(n node) (m doc.Measure) {
	if !n.present() {
		return m
	}
	o := n.object()
	m.From, m.To = pixelPlace(o, "from"), pixelPlace(o, "to")
	m.Length = o.need("length", "a length with its unit").length()
	o.done()
	if m.Length <= 0 && o.has("length") {
		o.get("length").fail(o.get("length").found(), "a length above nothing")
	}
	return m
}

// pixelPlace reads a place on the picture, in pixels.
func pixelPlace(o *object, key string) doc.Spot {
	const expected = "a place on the picture in pixels such as [120, 310.5]"
	n := o.need(key, expected)
	if !n.present() {
		return doc.Spot{}
	}
	list := n.list()
	if len(list) != 2 {
		n.fail(n.found(), expected)
		return doc.Spot{}
	}
	return doc.Spot{X: list[0].number(-1e6, 1e6), Y: list[1].number(-1e6, 1e6)}
}

// underlay writes the picture under the plan.
func (w *writer) underlay(u doc.Underlay) {
	if !u.Present() {
		return
	}
	w.line(0, "picture", "")
	w.line(1, "file", written(u.File))
	w.line(1, "sha256", strconv.Quote(u.Sum))
	w.line(1, "pixels", "["+strconv.Itoa(u.Width)+", "+strconv.Itoa(u.Height)+"]")
	w.line(1, "at", pointText(u.At))
	w.line(1, "pixel", amount(u.Pixel, "m"))
	if u.Turn != 0 {
		w.line(1, "turn", degrees(u.Turn))
	}
	if u.Fade != 0 {
		w.line(1, "fade", percent(u.Fade))
	}
	if u.Lock {
		w.line(1, "lock", "true")
	}
	for _, m := range []struct {
		key string
		doc.Measure
	}{{"known", u.Known}, {"check", u.Check}} {
		if m.Given() {
			var f flow
			f.add("from", pixelText(m.From))
			f.add("to", pixelText(m.To))
			f.add("length", metres(m.Length))
			w.line(1, m.key, f.String())
		}
	}
}

func pixelText(s doc.Spot) string { return "[" + plainFloat(s.X) + ", " + plainFloat(s.Y) + "]" }

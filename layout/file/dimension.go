package file

import (
	"strconv"

	"duskwire/layout/doc"
)

func dimension(o *object, id doc.ID, tag string) *doc.Dimension {
	return &doc.Dimension{
		ID: id, Tag: tag, Kind: o.needText("kind"),
		From:   anchor(o.need("from", "a place such as {on: A1, corner: 2}").object()),
		To:     anchor(o.need("to", "a place such as {on: A1, corner: 2}").object()),
		Offset: o.length("offset"),
	}
}

// anchor reads {on: L1}, {on: A1, corner: 2} or {at: [3 m, 4 m]}.
func anchor(o *object) doc.Anchor {
	a := doc.Anchor{On: doc.ID(o.text("on")), At: o.point("at")}
	if n := o.get("corner"); n.present() {
		a.Corner = n.whole(1, maxCorner) - 1
		if a.On == "" {
			n.fail(n.found(), "none: it is on nothing")
		}
	}
	if o.y != nil && (a.On == "") != o.has("at") {
		found := "neither of them"
		if a.On != "" {
			found = "both of them"
		}
		o.fail(found, "either on or at")
	}
	o.done()
	return a
}

// maxCorner is more than anything has.
const maxCorner = 1000000

func (w *writer) dimension(e *doc.Dimension) {
	w.text(2, "kind", e.Kind)
	w.line(2, "from", anchorText(e.From))
	w.line(2, "to", anchorText(e.To))
	w.length("offset", e.Offset)
}

// anchorText writes an anchor; the first corner, and the only one of a point
// entity, is not written.
func anchorText(a doc.Anchor) string {
	var f flow
	if a.On == "" {
		f.add("at", pointText(a.At))
		return f.String()
	}
	f.text("on", string(a.On))
	if a.Corner != 0 {
		f.add("corner", strconv.Itoa(a.Corner+1))
	}
	return f.String()
}

package file

import (
	"strconv"

	"duskwire/layout/doc"
)

// eyes reads the points that somebody looks from at night.
func (r *reader) eyes(list []node) []doc.Eye {
	if len(list) > doc.MostEyes {
		list[doc.MostEyes].fail(strconv.Itoa(len(list))+" eye points", "at most "+strconv.Itoa(doc.MostEyes))
		return nil
	}
	var out []doc.Eye
	for i, n := range list {
		name := "eye " + strconv.Itoa(i+1)
		o := n.within(name).object()
		e := doc.Eye{Tag: o.needText("tag"), Name: o.text("name"), Place: place(o),
			Bearing: o.angle("bearing"), Tilt: o.angle("tilt"), Field: doc.UsualField}
		if !o.has("height") {
			e.Place.Height = doc.UsualEyeHeight
		}
		if o.has("field") {
			e.Field = o.angle("field")
		}
		out = append(out, e)
		r.spots[spot{part: name}] = o.node
		o.done()
	}
	return out
}

// eyes writes the eye points.
func (w *writer) eyes(list []doc.Eye) {
	if len(list) > 0 {
		w.line(0, "eyes", "")
	}
	for _, e := range list {
		w.dash = true
		w.line(2, "tag", written(e.Tag))
		w.text(2, "name", e.Name)
		w.line(2, "at", pointText(e.Place.At))
		if e.Place.Height != doc.UsualEyeHeight {
			w.length("height", e.Place.Height)
		}
		w.angle("bearing", e.Bearing)
		w.angle("tilt", e.Tilt)
		if e.Field != doc.UsualField {
			w.angle("field", e.Field)
		}
	}
}

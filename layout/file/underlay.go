package file

import (
	"fmt"
	"path/filepath"
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

// absolute returns the scheme with the full path of its picture, which the
// file at the path names as seen from its own folder.
func absolute(path string, s *doc.Scheme) (*doc.Scheme, error) {
	name := filepath.FromSlash(s.Plan.Underlay.File)
	if name == "" || filepath.IsAbs(name) {
		return s, nil
	}
	full, err := filepath.Abs(filepath.Join(filepath.Dir(path), name))
	if err != nil {
		return nil, err
	}
	n := *s
	n.Plan.Underlay.File = full
	return &n, nil
}

// relative returns the scheme as the file at the path holds it: the picture is
// named from the folder of the file, with ".." where it lies elsewhere, so that
// a folder can be moved or handed on as a whole. A picture that cannot be
// reached that way is refused.
func relative(path string, s *doc.Scheme) (*doc.Scheme, error) {
	name := s.Plan.Underlay.File
	if name == "" || !filepath.IsAbs(name) {
		return s, nil
	}
	folder, err := filepath.Abs(filepath.Dir(path))
	if err != nil {
		return nil, err
	}
	short, err := filepath.Rel(folder, name)
	if err != nil {
		return nil, fmt.Errorf("picture: file: found %q, expected a file that can be reached from the folder of the scheme; copy it there and choose it again", name)
	}
	n := *s
	n.Plan.Underlay.File = filepath.ToSlash(short)
	return &n, nil
}

package output

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/jpeg"
	"math"
	"strconv"

	"codeberg.org/go-pdf/fpdf"

	"duskwire/layout/scene"
)

// inPrint is how many pixels a millimetre of a picture under the plan goes
// into a file with: 200 dots an inch, for it is a background.
const inPrint = 8

// embedded returns the picture of an item as JPEG. It stands out behind the
// drawing and is printed faded, so that the small losses of JPEG do not show.
func embedded(it *scene.Item) ([]byte, image.Rectangle, error) {
	m := it.Print(inPrint)
	var b bytes.Buffer
	err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 82})
	return b.Bytes(), m.Rect, err
}

// image writes a picture inside the file, cut off at the edge of the drawing.
// It stays a picture of its own beside the drawing, so it can be taken out.
func (o *svg) image(it *scene.Item) {
	data, size, err := embedded(it)
	if err != nil {
		o.err = err
		return
	}
	lo, hi, at := it.Points[3], it.Points[4], it.Points[0]
	w, h := float64(size.Dx()), float64(size.Dy())
	o.put(`<clipPath id="under"><rect x="`, mm(lo.X), `" y="`, mm(lo.Y), `" width="`, mm(hi.X-lo.X), `" height="`, mm(hi.Y-lo.Y), `"/></clipPath>`, "\n")
	o.put(`<g clip-path="url(#under)"><image width="`, mm(w), `" height="`, mm(h), `" preserveAspectRatio="none" opacity="`, mm(1-it.Fade), `" transform="matrix(`)
	for i, v := range []float64{
		(it.Points[1].X - at.X) / w, (it.Points[1].Y - at.Y) / w,
		(it.Points[2].X - at.X) / h, (it.Points[2].Y - at.Y) / h, at.X, at.Y,
	} {
		if i > 0 {
			o.put(" ")
		}
		o.put(strconv.FormatFloat(v, 'f', 8, 64))
	}
	o.put(`)" href="data:image/jpeg;base64,`, base64.StdEncoding.EncodeToString(data), `"/></g>`, "\n")
}

// image draws a picture, cut off at the edge of the drawing.
func (o *pdf) image(it *scene.Item) {
	data, _, err := embedded(it)
	if err != nil {
		o.SetError(err)
		return
	}
	name := "under" + strconv.Itoa(o.page)
	as := fpdf.ImageOptions{ImageType: "JPG"}
	o.RegisterImageOptionsReader(name, as, bytes.NewReader(data))
	lo, hi, at := it.Points[3], it.Points[4], it.Points[0]
	wide := math.Hypot(it.Points[1].X-at.X, it.Points[1].Y-at.Y)
	high := math.Hypot(it.Points[2].X-at.X, it.Points[2].Y-at.Y)
	turn := math.Atan2(it.Points[1].Y-at.Y, it.Points[1].X-at.X) * 180 / math.Pi // clockwise, y is down
	o.ClipRect(lo.X, lo.Y, hi.X-lo.X, hi.Y-lo.Y, false)
	o.SetAlpha(1-it.Fade, "Normal")
	o.TransformBegin()
	o.TransformRotate(-turn, at.X, at.Y)
	o.ImageOptions(name, at.X, at.Y, wide, high, false, as, 0, "")
	o.TransformEnd()
	o.SetAlpha(1, "Normal")
	o.ClipEnd()
}

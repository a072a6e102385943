package output

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"image"
	"image/draw"
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
	data, err := asJPEG(m)
	return data, m.Rect, err
}

func asJPEG(m *image.RGBA) ([]byte, error) {
	var b bytes.Buffer
	err := jpeg.Encode(&b, m, &jpeg.Options{Quality: 82})
	return b.Bytes(), err
}

// heldImage is a picture in a PDF file. The writer sorts pictures by their width alone
// and takes those of one width in any order, so that the file would differ from one
// time to the next; every picture gets a width of its own, by more columns at the
// right that are cut off where it is shown.
type heldImage struct {
	name  string
	wide  int // pixels without them
	extra int
}

// register puts the picture of an item into the file, each but once.
func (o *pdf) register(it *scene.Item, as fpdf.ImageOptions) (heldImage, error) {
	m := it.Print(inPrint)
	data, err := asJPEG(m)
	if err != nil {
		return heldImage{}, err
	}
	sum := sha256.Sum256(data)
	if in, seen := o.images[sum]; seen {
		return in, nil
	}
	in := heldImage{name: "image" + strconv.Itoa(len(o.images)), wide: m.Rect.Dx()}
	for o.widths[in.wide+in.extra] {
		in.extra++
	}
	if in.extra > 0 {
		if data, err = asJPEG(widened(m, in.extra)); err != nil {
			return in, err
		}
	}
	o.widths[in.wide+in.extra], o.images[sum] = true, in
	o.RegisterImageOptionsReader(in.name, as, bytes.NewReader(data))
	return in, nil
}

// widened returns a picture with its last column repeated.
func widened(m *image.RGBA, extra int) *image.RGBA {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w+extra, h))
	draw.Draw(out, out.Rect, m, m.Rect.Min, draw.Src)
	for n := range extra {
		draw.Draw(out, image.Rect(w+n, 0, w+n+1, h), m, image.Pt(m.Rect.Max.X-1, m.Rect.Min.Y), draw.Src)
	}
	return out
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
	// Without it the writer puts what begins left of the sheet somewhere else.
	as := fpdf.ImageOptions{ImageType: "JPG", AllowNegativePosition: true}
	in, err := o.register(it, as)
	if err != nil {
		o.SetError(err)
		return
	}
	lo, hi, at := it.Points[3], it.Points[4], it.Points[0]
	wide := math.Hypot(it.Points[1].X-at.X, it.Points[1].Y-at.Y)
	high := math.Hypot(it.Points[2].X-at.X, it.Points[2].Y-at.Y)
	turn := math.Atan2(it.Points[1].Y-at.Y, it.Points[1].X-at.X) * 180 / math.Pi // clockwise, y is down
	o.ClipRect(lo.X, lo.Y, hi.X-lo.X, hi.Y-lo.Y, false)
	o.SetAlpha(1-it.Fade, "Normal")
	o.TransformBegin()
	o.TransformRotate(-turn, at.X, at.Y)
	if in.extra > 0 {
		o.ClipRect(at.X, at.Y, wide, high, false)
	}
	o.ImageOptions(in.name, at.X, at.Y, wide*float64(in.wide+in.extra)/float64(in.wide), high, false, as, 0, "")
	if in.extra > 0 {
		o.ClipEnd()
	}
	o.TransformEnd()
	o.SetAlpha(1, "Normal")
	o.ClipEnd()
}

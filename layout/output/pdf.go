package output

import (
	"crypto/sha256"
	"io"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"duskwire/layout/scene"
)

// pointsPerMM converts millimetres to the points of PDF font sizes.
const pointsPerMM = 72 / 25.4

// writePDF writes the page in millimetres.
func writePDF(w io.Writer, l *scene.List, s Sheet) error {
	return WritePDF(w, []*scene.List{l}, s.Plan.Scheme.Title)
}

// WritePDF writes lists as the pages of one file, in millimetres, with both
// fonts embedded. Nothing in it depends on the clock.
func WritePDF(w io.Writer, pages []*scene.List, title string) error {
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm",
		Size: fpdf.SizeType{Wd: pages[0].Width, Ht: pages[0].Height}})
	epoch := time.Unix(0, 0).UTC()
	f.SetCreationDate(epoch)
	f.SetModificationDate(epoch)
	f.SetCatalogSort(true)
	f.SetProducer("Duskwire", true)
	f.SetTitle(basic(plain(title)), true)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.AddUTF8FontFromBytes("go", "", scene.FontRegular())
	f.AddUTF8FontFromBytes("go", "B", scene.FontBold())
	o := &pdf{Fpdf: f, images: map[[sha256.Size]byte]heldImage{}, widths: map[int]bool{}}
	for _, l := range pages {
		o.page++
		f.AddPageFormat("P", fpdf.SizeType{Wd: l.Width, Ht: l.Height})
		f.SetLineCapStyle("round")
		f.SetLineJoinStyle("round")
		for i := range l.Items {
			o.item(&l.Items[i], l.Background)
		}
	}
	return f.Output(w)
}

// pdf draws items with fpdf.
type pdf struct {
	*fpdf.Fpdf
	page   int
	images map[[sha256.Size]byte]heldImage // so far, by what they hold
	widths map[int]bool                    // of these, pixels
}

// basic replaces characters outside the basic plane, which the PDF writer
// cannot hold; the fonts have none of them.
func basic(s string) string {
	return strings.Map(func(r rune) rune {
		if r > 0xFFFF {
			return '\uFFFD'
		}
		return r
	}, s)
}

func (o *pdf) item(it *scene.Item, paper scene.Colour) {
	if it.Kind == scene.Text {
		o.text(it, paper)
		return
	}
	if it.Kind == scene.Image {
		o.image(it)
		return
	}
	st := &it.Style
	mode := ""
	if st.Fill.A > 0 && it.Kind != scene.Polyline && it.Kind != scene.Segments {
		o.SetFillColor(int(st.Fill.R), int(st.Fill.G), int(st.Fill.B))
		mode = "F"
	}
	if st.Width > 0 && st.Stroke.A > 0 {
		o.SetDrawColor(int(st.Stroke.R), int(st.Stroke.G), int(st.Stroke.B))
		o.SetLineWidth(st.Width)
		o.SetDashPattern(st.Dash, 0)
		mode += "D"
	}
	if mode == "" || len(it.Points) == 0 {
		return
	}
	if st.Fill.A > 0 && st.Fill.A < 255 { // ground over a picture
		o.SetAlpha(float64(st.Fill.A)/255, "Normal")
		defer o.SetAlpha(1, "Normal")
	}
	switch it.Kind {
	case scene.Circle:
		o.Circle(it.Points[0].X, it.Points[0].Y, it.Size, mode)
		return
	case scene.Segments:
		for i := 0; i+1 < len(it.Points); i += 2 {
			o.MoveTo(it.Points[i].X, it.Points[i].Y)
			o.LineTo(it.Points[i+1].X, it.Points[i+1].Y)
		}
	default:
		for i, p := range it.Points {
			if i == 0 {
				o.MoveTo(p.X, p.Y)
			} else {
				o.LineTo(p.X, p.Y)
			}
		}
		if it.Kind == scene.Polygon {
			o.ClosePath()
		}
	}
	if strings.HasPrefix(mode, "F") {
		mode += "*" // even-odd
	}
	o.DrawPath(mode)
}

// text draws the halo as a stroked path, so that the words stand only once in
// the page's text, then the words.
func (o *pdf) text(it *scene.Item, paper scene.Colour) {
	if it.Text == "" {
		return
	}
	if it.Halo {
		o.halo(it, paper)
	}
	style := ""
	if it.Bold {
		style = "B"
	}
	o.SetFont("go", style, scene.FontSize(it.Size, it.Bold)*pointsPerMM)
	o.SetTextColor(int(it.Style.Fill.R), int(it.Style.Fill.G), int(it.Style.Fill.B))
	p := scene.Start(it)
	if it.Turn != 0 {
		o.TransformBegin()
		o.TransformRotate(it.Turn, p.X, p.Y)
		defer o.TransformEnd()
	}
	o.Text(p.X, p.Y, basic(it.Text))
}

func (o *pdf) halo(it *scene.Item, paper scene.Colour) {
	curves := scene.Outlines(it)
	if len(curves) == 0 {
		return
	}
	o.SetDrawColor(int(paper.R), int(paper.G), int(paper.B))
	o.SetLineWidth(2 * scene.HaloWidth)
	o.SetDashPattern(nil, 0)
	for i, c := range curves {
		switch {
		case c.Move:
			if i > 0 {
				o.ClosePath()
			}
			o.MoveTo(c.P[0].X, c.P[0].Y)
		case c.N == 1:
			o.LineTo(c.P[0].X, c.P[0].Y)
		default:
			o.CurveBezierCubicTo(c.P[0].X, c.P[0].Y, c.P[1].X, c.P[1].Y, c.P[2].X, c.P[2].Y)
		}
	}
	o.ClosePath()
	o.DrawPath("D")
}

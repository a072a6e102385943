package packs

import (
	"context"
	"fmt"
	"image"
	"math"
	"strings"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/geom"
	"duskwire/layout/output"
	"duskwire/layout/picture"
	"duskwire/layout/scene"
)

const (
	// nightCells is about how many cells the night plan on paper has, and the size of
	// a standing view in pixels: some 4 a millimetre.
	nightCells                 = 330 * 330
	standingWide, standingHigh = 760, 475
	// optionCells is for the small pictures of two schemes side by side.
	optionCells = 200 * 200
)

// night is the light of a frame as the pages show it; nil pictures were not made
// yet.
type night struct {
	*book
	of      *layout.Night
	sheet   *light.Sheet
	picture *picture.Picture
	err     error
	window  geom.Rect // the part of the garden that is shown; empty for all of it
	scale   int       // of that
}

// nightOf works the light of a book out, about so many cells of it. What goes wrong
// is told where the pictures would be.
func nightOf(ctx context.Context, b *book, area geom.Rect, cells int) *night {
	n := &night{book: b}
	if n.of, n.err = layout.NightOf(b.Frame); n.err != nil {
		return n
	}
	g := layout.NightGrid(area, cells)
	if n.sheet, n.err = layout.FillSheet(ctx, n.of, g); n.err != nil {
		return n
	}
	img := image.NewRGBA(image.Rect(0, 0, g.W, g.H))
	n.sheet.Paint(light.Night, layout.NightGround(b.scheme, g), img)
	n.picture = picture.Of(img)
	return n
}

// nightPages adds the night plan, the standing views and the page of contours.
func (d *draft) nightPages() {
	if d.scheme.Lamps.Len() == 0 || d.ctx.Err() != nil {
		return
	}
	d.report("Night plan")
	n := nightOf(d.ctx, d.book, layout.NightArea(d.scheme), nightCells)
	on := d.nightPaper(n)
	d.listOn("Night plan", on, n.plan)
	parts, within := d.nightParts(n, on)
	for i, p := range parts {
		d.listOn("Night plan, part "+whole(i+1)+" of "+whole(len(parts)), within, p.plan)
	}
	if len(d.scheme.Eyes) > 0 && n.err == nil {
		d.list("Standing view", false, func(f *flow) { n.views(d.ctx, f) })
	}
	d.listOn("Lines of equal light", on, n.contours)
	for i, p := range parts {
		d.listOn("Lines of equal light, part "+whole(i+1)+" of "+whole(len(parts)), within, p.contours)
	}
}

// nightParts parts the night pages of a garden that does not fit its paper at its own
// scale, as those of the plan are parted: each part with light of its own, worked out
// as finely as that of the whole.
func (d *draft) nightParts(n *night, on paper) (out []*night, within paper) {
	own := d.scheme.Plan.Scale
	if n.err != nil || own <= 0 {
		return nil, on
	}
	room := func(on paper) (w, h float64) {
		f := newSheet(d.book, on)
		return f.width, f.bottom - f.y - capTitle - 4.5 - n.feet(f)
	}
	w, h := room(on)
	fits := int(d.planBox(0, 0, w, h).view.Denominator)
	if fits <= own {
		return nil, on
	}
	within = paper{d.Paper != "A4", true}
	w, h = room(within)
	list, scale := d.windows(w, h, own, fits)
	for _, window := range list {
		p := nightOf(d.ctx, d.book, window.Grow(nightBeyond), nightCells)
		p.window, p.scale = window, scale
		out = append(out, p)
	}
	return out, within
}

// feet is the room that the words below a night page take, the longer ones.
func (n *night) feet(f *flow) float64 { return max(n.planFoot().high(f), n.contourFoot().high(f)) }

// nightPaper chooses the paper of the night pages as that of the plan is chosen:
// the smallest that holds the scheme's own scale, else the one with the largest
// scale, A3 only where it gives a larger one than A4.
func (d *draft) nightPaper(n *night) paper {
	across := d.across()
	var best paper
	least := math.MaxInt
	own, extent := d.scheme.Plan.Scale, scene.Extent(d.scheme)
	for _, on := range []paper{{false, across}, {false, !across}, {true, across}, {true, !across}} {
		if d.Paper == "A4" && on.large || d.Paper == "A3" && !on.large {
			continue
		}
		f := newSheet(d.book, on)
		f.y += capTitle + 4.5
		high := f.bottom - f.y
		if n.err == nil {
			high -= n.feet(f)
		}
		if own > 0 && scene.Fits(extent, own, f.width, high) {
			return on
		}
		for _, s := range scene.Scales {
			if s < least && scene.Fits(extent, s, f.width, high) && (least > 50 || !on.large) {
				best, least = on, s
			}
		}
	}
	if least == math.MaxInt {
		return paper{d.Paper == "A3", across}
	}
	return best
}

// across reports whether the plan is shown larger on a page across than on one
// upright.
func (b *book) across() bool {
	r := scene.Extent(b.scheme)
	room := func(landscape bool) float64 {
		f := newFlow(b, landscape)
		return math.Max(r.Width().Metres()/f.width, r.Height().Metres()/(f.bottom-f.y-capTitle-under))
	}
	return room(true) < room(false)
}

// failed tells what went wrong, if anything did.
func (n *night) failed(f *flow) bool {
	if n.err != nil {
		f.para("The night picture could not be drawn: " + n.err.Error() + ".")
	}
	return n.err != nil
}

// label says what the picture is and how it was made.
func (n *night) label() string {
	x := light.Night
	return upper(layout.NightCaveat) + ". Photopic, direct light only, maintained: maintenance factor " + n.of.Ages() + " (new and clean " + n.of.Newer() + ")" +
		". Fixed exposure: " + digits(float64(x.White), 0) + " lx on a surface that reflects half is shown white; moonlight of " +
		digits(float64(x.Moon), 1) + " lx is added, so that the dark can be read. At night the eye sees dim colours weaker than the picture does."
}

// lateWords says what is different after curfew.
func (n *night) lateWords() string {
	return "Before curfew, all lamps on. After curfew " + n.of.Late(n.Frame).Words() + "."
}

// assumed lists what was taken for unknown.
func (n *night) assumed() []string {
	if len(n.of.Assumed) == 0 {
		return nil
	}
	return []string{"Assumed: " + strings.Join(n.of.Assumed, "; ") + "."}
}

// frameOf is a box on a page that shows the plan.
type frameOf struct {
	x, y, w, h float64
	view       scene.View
}

// planBox returns a box of a page, and the plan in it at the largest scale that
// fits.
func (b *book) planBox(x, y, w, h float64) frameOf {
	extent := scene.Extent(b.scheme)
	scale := scene.Scales[len(scene.Scales)-1]
	for _, d := range scene.Scales {
		if scene.Fits(extent, d, w, h) {
			scale = d
			break
		}
	}
	return frameOf{x, y, w, h, viewOf(extent, float64(scale), w, h)}
}

// viewOf puts the middle of a rectangle of the plan into the middle of a box.
func viewOf(r geom.Rect, denominator, w, h float64) scene.View {
	c, k := r.Centre(), denominator*float64(geom.Millimetre)
	return scene.View{Denominator: denominator, Origin: geom.Point{X: c.X - geom.Length(w/2*k), Y: c.Y + geom.Length(h/2*k)}}
}

// ground puts the night picture into a box.
func (f *flow) ground(n *night, at frameOf) {
	around := layout.NightAround()
	f.add(scene.Item{Kind: scene.Polygon, Points: points(at.x, at.y, at.x+at.w, at.y, at.x+at.w, at.y+at.h, at.x, at.y+at.h), Style: scene.Style{Fill: around}})
	list := scene.Lux(scene.LuxInput{Picture: n.picture, Grid: n.sheet.Grid(), Around: around}, at.view, at.w, at.h)
	f.insert(list, at)
}

// insert puts a drawing into its box.
func (f *flow) insert(l *scene.List, at frameOf) {
	for i := range l.Items {
		it := l.Items[i]
		it.Points = make([]scene.XY, len(l.Items[i].Points))
		for k, p := range l.Items[i].Points {
			it.Points[k] = scene.XY{X: p.X + at.x, Y: p.Y + at.y}
		}
		f.at.Items = append(f.at.Items, it)
	}
}

// bedded lays a dark bed under the letters of a drawing over a night picture, in
// place of a halo in the colour of the paper, and prints the beds of the lines
// solid, since a PDF of ours has no translucent strokes.
func bedded(l *scene.List) {
	var out []scene.Item
	for _, it := range l.Items {
		if it.Kind == scene.Text && it.Halo {
			it.Halo = false
			w, p := scene.TextWidth(it.Text, it.Size, it.Bold)+0.8, scene.Start(&it)
			s, c := math.Sincos(it.Turn * math.Pi / 180)
			corner := func(x, y float64) scene.XY { return scene.XY{X: p.X + x*c - y*s, Y: p.Y - x*s - y*c} }
			out = append(out, scene.Item{Kind: scene.Polygon, Layer: it.Layer, Style: scene.Style{Fill: scene.Colour{R: 8, G: 12, B: 18, A: 0x90}},
				Points: []scene.XY{corner(-0.4, -0.5), corner(w-0.4, -0.5), corner(w-0.4, it.Size+0.5), corner(-0.4, it.Size+0.5)}})
		}
		if it.Style.Width > 0 && it.Style.Stroke.A > 0 {
			it.Style.Stroke.A = 255
		}
		out = append(out, it)
	}
	l.Items = out
}

// foot is what stands below a drawing.
type foot struct{ words []string }

// high is the room that it takes, mm; of very long words what fits a third of the
// page, for the rest goes on over the page.
func (t foot) high(f *flow) float64 {
	h := 4.0
	for _, s := range t.words {
		h += 1 + pitchFine*float64(len(wrap(s, f.width, capSmall, false)))
	}
	return min(h, (f.bottom-f.y)/3)
}

// nightBeyond is how far beyond the garden, or a part of it, its light is shown.
const nightBeyond = 2 * geom.Metre

// lit returns the ground that is shown: the garden, with the light that falls beside
// it as far as it makes a line of lux.
func (n *night) lit() geom.Rect {
	if !n.window.Empty() {
		return n.window
	}
	extent := scene.Extent(n.scheme)
	out, g := extent, n.sheet.Grid()
	within := extent.Grow(nightBeyond)
	for i, e := range n.sheet.All() {
		if m := g.Middle(i%g.W, i/g.W); e >= light.Levels[0] {
			if at := geom.Pt(m.X, m.Y); within.Contains(at) {
				out = out.With(at)
			}
		}
	}
	return out
}

// nightLabel is the room round a night picture for labels, mm, as the plan has.
const nightLabel = 2 * 8.0

// draws makes the rest of a page a drawing of the plan to scale, with words below. The
// garden is as large as it can be; the box closes round it and its light, so that no
// paper is printed black for nothing.
func (n *night) draws(f *flow, t foot) frameOf {
	wide, high := f.width, f.bottom-f.y-t.high(f)
	at := n.planBox(f.x, f.y, wide, high)
	scale := at.view.Denominator
	if n.scale > 0 {
		scale = float64(n.scale)
	}
	shown := n.lit()
	w := min(wide, shown.Width().Millimetres()/scale+nightLabel)
	h := min(high, shown.Height().Millimetres()/scale+nightLabel)
	// What light reaches beside the garden must not push the garden out of the box.
	at = frameOf{f.x + (wide-w)/2, f.y, w, h, viewOf(n.middle(shown, scale, w, h), scale, w, h)}
	k := at.view.Denominator * float64(geom.Millimetre)
	f.at.View = scene.View{Denominator: at.view.Denominator,
		Origin: at.view.Origin.Sub(geom.Point{X: geom.Length(at.x * k), Y: -geom.Length(at.y * k)})}
	return at
}

// middle returns the rectangle in the middle of which a box of w by h mm looks: that
// which is shown, or the garden alone where the box has no room for more.
func (n *night) middle(shown geom.Rect, scale, w, h float64) geom.Rect {
	extent := scene.Extent(n.scheme)
	if !n.window.Empty() {
		return shown
	}
	if shown.Width().Millimetres()/scale+nightLabel > w {
		shown.Min.X, shown.Max.X = extent.Min.X, extent.Max.X
	}
	if shown.Height().Millimetres()/scale+nightLabel > h {
		shown.Min.Y, shown.Max.Y = extent.Min.Y, extent.Max.Y
	}
	return shown
}

// beneath puts a drawing under what stands on the page and hides what of it reaches
// over the edge of its box.
func (f *flow) beneath(at frameOf, draw func()) {
	over := f.at.Items
	f.at.Items = nil
	draw()
	w, h := f.at.Width, f.at.Height
	for _, b := range [][4]float64{{0, 0, w, at.y}, {0, at.y + at.h, w, h}, {0, at.y, at.x, at.y + at.h}, {at.x + at.w, at.y, w, at.y + at.h}} {
		f.add(scene.Item{Kind: scene.Polygon, Points: points(b[0], b[1], b[2], b[1], b[2], b[3], b[0], b[3]), Style: scene.Style{Fill: f.pal.Paper}})
	}
	f.at.Items = append(f.at.Items, over...)
}

// close draws the edge of a drawing and writes the words below it.
func (f *flow) close(at frameOf, t foot) {
	f.box(thin, at.x, at.y, at.x+at.w, at.y+at.h)
	f.y = at.y + at.h + 2.5
	for _, s := range t.words {
		f.small(s)
	}
}

// under is about the room for words below a drawing, mm.
const under = 20.0

// plan is the page of the night plan.
func (n *night) plan(f *flow) {
	if n.failed(f) {
		return
	}
	t := n.planFoot()
	at := n.draws(f, t)
	t.words[0] = "Scale 1:" + whole(int(at.view.Denominator)) + ". " + t.words[0]
	f.beneath(at, func() {
		f.ground(n, at)
		in := n.planInput()
		in.Circuits, in.Results = n.Frame.Circuits, n.Frame.Results
		list := scene.Build(output.NightPlan(in), at.view, at.w, at.h)
		bedded(list)
		f.insert(list, at)
	})
	f.close(at, t)
}

// planFoot stands below the night plan.
func (n *night) planFoot() foot {
	t := foot{[]string{n.lateWords() + " " + n.label() + " A lamp has its number where that finds room; all are on the plan."}}
	if len(n.scheme.Eyes) == 0 {
		t.words = append(t.words, "No eye point is placed on the plan, so that no standing view is drawn.")
	}
	t.words = append(t.words, n.assumed()...)
	return t
}

// contourFoot stands below the lines of equal light.
func (n *night) contourFoot() foot {
	return foot{append([]string{"Lines of " + luxLevels() + " lx on level ground; those below 5 lx are broken. " + n.lateWords() + " " + n.label()}, n.assumed()...)}
}

// views are the pages of the standing views, two on a page.
func (n *night) views(ctx context.Context, f *flow) {
	v, err := layout.StandingOf(ctx, n.scheme, n.of, n.sheet, 0)
	if err != nil {
		return // cancelled
	}
	const high = 92.0 // two go on a page
	wide := high * standingWide / standingHigh
	for _, e := range n.scheme.Eyes {
		img, err := v.Picture(ctx, e, standingWide, standingHigh)
		if err != nil {
			return
		}
		f.room(high + 12)
		f.write(first(wrap(e.Title(), f.width, capHead, true)), f.x, f.y+capHead, capHead, true, scene.Left)
		f.y += capHead + 2
		f.picture(img, frameOf{x: f.x, y: f.y, w: wide, h: high})
		f.y += high + 2
		f.small(fmt.Sprintf("Eye %s m above ground, looking %s° clockwise from up the sheet, %s° wide.", digits(e.Place.Height.Metres(), 2), digits(math.Mod(e.Bearing+720, 360), 0), digits(e.Field, 0)))
		f.y += 1
	}
	f.small(n.label() + " Walls, fences, buildings, steps, seats and trees are plain solids; a lamp that shines towards the eye is a dot, which is no measure of glare.")
	for _, s := range n.assumed() {
		f.small(s)
	}
}

// picture puts an image into a box.
func (f *flow) picture(img *image.RGBA, at frameOf) {
	f.add(scene.Item{Kind: scene.Image, Image: picture.Of(img),
		Points: points(at.x, at.y, at.x+at.w, at.y, at.x, at.y+at.h, at.x, at.y, at.x+at.w, at.y+at.h)})
	f.box(thin, at.x, at.y, at.x+at.w, at.y+at.h)
}

// contours is the page of lines of equal lux, black on white, for it is printed
// without colours too.
func (n *night) contours(f *flow) {
	if n.failed(f) {
		return
	}
	t := n.contourFoot()
	at := n.draws(f, t)
	t.words[0] = "Scale 1:" + whole(int(at.view.Denominator)) + ". " + t.words[0]
	in := n.planInput()
	in.Picture, in.NoZones, in.Skip = nil, true, output.Unlit(n.scheme)
	in.Show = scene.AllLayers()
	for _, l := range []scene.Layer{scene.LayerGrid, scene.LayerFinding, scene.LayerPicture, scene.LayerZones, scene.LayerDimensions, scene.LayerRuns, scene.LayerLabels} {
		in.Show[l] = false
	}
	f.beneath(at, func() {
		f.insert(scene.Build(in, at.view, at.w, at.h), at)
		f.insert(scene.Lux(scene.LuxInput{Grid: n.sheet.Grid(), Lines: layout.NightLines(n.sheet), Ink: n.pal.Ink, Bed: n.pal.Paper}, at.view, at.w, at.h), at)
	})
	f.close(at, t)
}

// luxLevels lists the levels of the lines.
func luxLevels() string {
	var out []string
	for _, l := range light.Levels {
		out = append(out, fmt.Sprintf("%g", l))
	}
	return listed(out)
}

// nightOptions shows two schemes beside each other at one exposure and one scale.
func (d *draft) nightOptions(other *book) {
	if d.scheme.Lamps.Len()+other.scheme.Lamps.Len() == 0 || d.ctx.Err() != nil {
		return
	}
	d.report("Options by night")
	area := layout.NightArea(d.scheme).Union(layout.NightArea(other.scheme))
	a, b := nightOf(d.ctx, d.book, area, optionCells), nightOf(d.ctx, other, area, optionCells)
	d.list("Options by night", true, func(f *flow) {
		if a.failed(f) || b.failed(f) {
			return
		}
		const gap = 4.0
		w, h := (f.width-gap)/2, f.bottom-f.y-under-12
		extent := scene.Extent(a.scheme).Union(scene.Extent(b.scheme))
		k := math.Max(extent.Width().Metres()/(w-4), extent.Height().Metres()/(h-4)) * 1000
		for i, n := range []*night{a, b} {
			x := f.x + float64(i)*(w+gap)
			f.write([...]string{"A: ", "B: "}[i]+first(wrap(compared(n.book).Title, w-8, capHead, true)), x, f.y+capHead, capHead, true, scene.Left)
			at := frameOf{x, f.y + capHead + 2, w, h, viewOf(extent, k, w, h)}
			f.ground(n, at)
			in := scene.Input{Scheme: n.scheme, Stock: n.stock, Palette: scene.Dark(), Look: scene.LookDusk, NoZones: true,
				Circuits: n.Frame.Circuits, Results: n.Frame.Results, Show: map[scene.Layer]bool{scene.LayerGround: true, scene.LayerLines: true}}
			list := scene.Build(in, at.view, at.w, at.h)
			bedded(list)
			f.insert(list, at)
			f.box(thin, at.x, at.y, at.x+at.w, at.y+at.h)
		}
		f.at.View = viewOf(extent, k, w, h) // to scale: its labels are the plan's
		f.y += h + capHead + 5
		f.small("Both at one exposure and one scale. " + a.label())
		for _, s := range a.assumed() {
			f.small(s)
		}
	})
}

package ui

import (
	"image"
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"duskwire/layout"
	"duskwire/layout/scene"
)

// legend explains, below the tools, the lines and zones on the plan. It is drawn
// by the code that draws the plan.
type legend struct {
	box     *fyne.Container
	palette *scene.Palette
	frame   *layout.Frame
	look    scene.Look
	noZones bool
	hatch   bool
	shown   []scene.Entry
}

// legendGroups are the groups shown here, with the heading of each: symbols are
// explained by the tools above, ground by its names.
var legendGroups = map[string]string{
	scene.AlongGroup(scene.LookVolts): "Volts lost, share of nominal", scene.AlongGroup(scene.LookAmperes): "Amperes in a run",
	"Cable runs": "Cable runs", "Zones": "Zones: the number after a lamp",
}

func newLegend() *legend { return &legend{box: container.NewVBox(), palette: scene.Light()} }

// setFrame follows the scheme. What is being dragged changes no entry.
func (l *legend) setFrame(f *layout.Frame) {
	if f.Preview || l.frame != nil && f.Scheme == l.frame.Scheme && f.Stock == l.frame.Stock {
		return
	}
	l.frame = f
	l.fill(false)
}

// setPalette draws the samples in other colours.
func (l *legend) setPalette(p *scene.Palette) {
	l.palette = p
	l.fill(true)
}

// setLook explains the look that the plan is drawn with.
func (l *legend) setLook(k scene.Look) {
	if l.look != k {
		l.look = k
		l.fill(false)
	}
}

// fill makes the entries anew if they have changed, or anyway.
func (l *legend) fill(anyway bool) {
	if l.frame == nil {
		return
	}
	var entries []scene.Entry
	for _, e := range scene.Legend(scene.Input{Scheme: l.frame.Scheme, Stock: l.frame.Stock, Palette: l.palette,
		Look: l.look, NoZones: l.noZones, Hatch: scene.Hatch{All: l.hatch}, Circuits: l.frame.Circuits, Results: l.frame.Results, Findings: l.findings()}) {
		if legendGroups[e.Group] != "" && len(e.Sample) > 0 {
			entries = append(entries, e)
		}
	}
	if !anyway && reflect.DeepEqual(entries, l.shown) {
		return
	}
	l.shown = entries
	l.box.Objects = nil
	group := ""
	for _, e := range entries {
		if e.Group != group {
			group = e.Group
			head := small(legendGroups[group])
			head.TextStyle.Bold = true
			l.box.Add(head)
		}
		name := small(e.Words)
		name.Wrapping = fyne.TextWrapWord
		l.box.Add(container.New(legendRow{}, l.sample(e.Sample), name))
	}
	l.box.Refresh()
}

// The samples are smaller than on paper, to suit the print beside them.
const (
	sampleScale  = 3.6 // units for a millimetre
	sampleWidth  = scene.LegendWidth * sampleScale
	sampleHeight = scene.LegendHeight * sampleScale
)

// sample is a picture of one entry, drawn whenever its size in pixels changes.
func (l *legend) sample(items []scene.Item) fyne.CanvasObject {
	list := &scene.List{Width: scene.LegendWidth, Height: scene.LegendHeight}
	for _, it := range items {
		points := make([]scene.XY, len(it.Points))
		for i, p := range it.Points {
			points[i] = scene.XY{X: p.X + scene.LegendWidth/2, Y: p.Y + scene.LegendHeight/2}
		}
		it.Points = points
		list.Items = append(list.Items, it)
	}
	paint := scene.NewRasteriser()
	r := canvas.NewRaster(func(w, h int) image.Image {
		img := image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
		paint.Draw(img, list, float64(w)/scene.LegendWidth)
		return img
	})
	r.ScaleMode = canvas.ImageScalePixels
	return r
}

// legendRow sets a sample before its words.
type legendRow struct{}

func (legendRow) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(trayWidth/2, max(sampleHeight, o[1].MinSize().Height-2*legendTuck))
}

func (legendRow) Layout(o []fyne.CanvasObject, size fyne.Size) {
	left := theme.Size(theme.SizeNameInnerPadding)
	o[0].Resize(fyne.NewSize(sampleWidth, sampleHeight))
	o[0].Move(fyne.NewPos(left, (size.Height-sampleHeight)/2))
	x := left + sampleWidth
	o[1].Resize(fyne.NewSize(size.Width-x, size.Height+2*legendTuck))
	o[1].Move(fyne.NewPos(x, -legendTuck))
}

// legendTuck is what the rows are closer than the padding of their words.
const legendTuck = 3

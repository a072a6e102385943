package ui

import (
	"bytes"
	"encoding/json"
	"os"
	"time"

	"duskwire/layout"
)

// viewTrace maps the plan to pixels of the window: a plan point (x, y) in
// metres is at Left + (x-X)·PerMetre, Top - (y-Y)·PerMetre.
type viewTrace struct {
	Left     float64 `json:"left_px"` // of the board's top left corner
	Top      float64 `json:"top_px"`
	Width    float64 `json:"width_px"`
	Height   float64 `json:"height_px"`
	PerMetre float64 `json:"pixels_per_metre"`
	X        float64 `json:"x_m"` // plan point at that corner
	Y        float64 `json:"y_m"`
}

type findingTrace struct {
	Code      string `json:"code"`
	Level     string `json:"level"`
	Subject   string `json:"subject"`
	Text      string `json:"text"`
	Figure    string `json:"figure"`
	Limit     string `json:"limit"`
	Overruled bool   `json:"overruled"`
}

type totalsTrace struct {
	Lamps     int     `json:"lamps"`
	Load      float64 `json:"load_w"`
	Cable     float64 `json:"cut_length_m"`
	WorstDrop float64 `json:"worst_drop_percent"`
	DropAt    string  `json:"worst_drop_at"`
	WorstLoop float64 `json:"worst_zs_ohm"`
	LoopAt    string  `json:"worst_zs_at"`
	Stop      int     `json:"stop"`
	Decide    int     `json:"decide"`
	Note      int     `json:"note"`
}

type placeTrace struct {
	Tag string  `json:"tag"`
	X   float64 `json:"x_m"`
	Y   float64 `json:"y_m"`
}

type frameTrace struct {
	Seq      uint64         `json:"seq"`
	Preview  bool           `json:"preview"`
	Behind   bool           `json:"behind"` // figures, light or coils are of an earlier frame
	Unsaved  bool           `json:"unsaved"`
	Path     string         `json:"path"`
	Undo     string         `json:"undo"`
	Redo     string         `json:"redo"`
	Places   []placeTrace   `json:"places"`
	Runs     []string       `json:"runs"`
	Findings []findingTrace `json:"findings"`
	Totals   totalsTrace    `json:"totals"`
	Rows     []string       `json:"rows"` // of the findings panel as they stand there
	View     viewTrace      `json:"view"`
}

// heldTrace says that the window did not look at pointer and keys for so long.
type heldTrace struct {
	Held float64 `json:"held_ms"`
}

// trace writes one JSON line whenever what the window shows has changed, so
// that a test can see what a person sees.
type trace struct {
	out    *os.File
	window *Window
	last   []byte
}

// Trace appends what the window shows to the file at path from now on, one
// JSON object a line, and a line {"held_ms": 63.2} for every time that the window
// did not look at pointer and keys for more than 50 ms.
func (w *Window) Trace(path string) error {
	out, err := os.OpenFile(path, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	t := &trace{out: out, window: w}
	w.Watch(t.write)
	t.write()
	w.Stalls(t.held)
	return nil
}

// held writes a line when that was long.
func (t *trace) held(d time.Duration) {
	if d <= heldLong {
		return
	}
	if line, err := json.Marshal(heldTrace{float64(d.Round(100*time.Microsecond)) / float64(time.Millisecond)}); err == nil {
		_, _ = t.out.Write(append(line, '\n'))
	}
}

// write writes one line, unless it is the last one again. A line that cannot
// be written is lost: the trace must never disturb the work it watches.
func (t *trace) write() {
	line, err := json.Marshal(t.describe(t.window.desk.Frame()))
	if err != nil || bytes.Equal(line, t.last) {
		return
	}
	t.last = line
	_, _ = t.out.Write(append(line, '\n'))
}

func (t *trace) describe(f *layout.Frame) frameTrace {
	look := t.window.Look()
	out := frameTrace{
		Seq: f.Seq, Preview: f.Preview, Behind: f.Behind || f.LightBehind || f.DrumsBehind,
		Unsaved: f.Unsaved, Path: f.Path,
		Undo: f.Undo, Redo: f.Redo, Places: placesOf(f), Rows: look.Rows,
		Totals: totalsTrace{
			Lamps: f.Totals.Lamps, Load: float64(f.Totals.Load), Cable: float64(f.Totals.Cable),
			WorstDrop: 100 * f.Totals.WorstDrop, DropAt: f.Totals.DropAt,
			WorstLoop: float64(f.Totals.WorstLoop), LoopAt: f.Totals.LoopAt,
			Stop: f.Totals.Stop, Decide: f.Totals.Decide, Note: f.Totals.Note,
		},
	}
	for _, r := range f.Scheme.Runs.All() {
		out.Runs = append(out.Runs, r.Tag)
	}
	for _, x := range f.Findings {
		out.Findings = append(out.Findings, findingTrace{
			Code: string(x.Code), Level: x.Level.String(), Subject: x.Subject.Label, Text: x.Text,
			Figure: x.Figure, Limit: x.Limit, Overruled: x.Overruled != nil,
		})
	}
	scale := float64(t.window.Fyne().Canvas().Scale())
	out.View = viewTrace{
		Left: float64(look.Place.X) * scale, Top: float64(look.Place.Y) * scale,
		Width: float64(look.Size.Width) * scale, Height: float64(look.Size.Height) * scale,
		PerMetre: look.UnitsPerMetre * scale,
		X:        look.Origin.X.Metres(), Y: look.Origin.Y.Metres(),
	}
	return out
}

// placesOf lists everything that stands at one point, in the order of the
// scheme.
func placesOf(f *layout.Frame) []placeTrace {
	var out []placeTrace
	s := f.Scheme
	add := func(tag string, x, y float64) { out = append(out, placeTrace{tag, x, y}) }
	for _, e := range s.Supplies.All() {
		add(e.Tag, e.Place.At.X.Metres(), e.Place.At.Y.Metres())
	}
	for _, e := range s.Boxes.All() {
		add(e.Tag, e.Place.At.X.Metres(), e.Place.At.Y.Metres())
	}
	for _, e := range s.Lamps.All() {
		add(e.Tag, e.Place.At.X.Metres(), e.Place.At.Y.Metres())
	}
	for _, e := range s.Gear.All() {
		add(e.Tag, e.Place.At.X.Metres(), e.Place.At.Y.Metres())
	}
	for _, e := range s.Sources.All() {
		add(e.Tag, e.Place.At.X.Metres(), e.Place.At.Y.Metres())
	}
	return out
}

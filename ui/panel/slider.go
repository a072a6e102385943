package panel

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// sliderRow is a caption with a slider for a share from 0 to 1 and its value in
// per cent. The arrow keys move it by a step of 5 %; it commits when it is let
// go, or at each key.
type sliderRow struct {
	line
	slider *slider
	value  *widget.Label
	read   func() float64
}

// slider is one with a ring while it has the focus.
type slider struct {
	widget.Slider
	onFocus func(fyne.CanvasObject)
	ring    Ring
}

// TypedKey implements fyne.Focusable.
func (s *slider) TypedKey(e *fyne.KeyEvent) {
	if !PassKey(s, e) {
		s.Slider.TypedKey(e)
	}
}

// TypedRune implements fyne.Focusable.
func (s *slider) TypedRune(r rune) { PassRune(s, r) }

// FocusGained implements fyne.Focusable.
func (s *slider) FocusGained() {
	s.Slider.FocusGained()
	s.ring.Show()
	if s.onFocus != nil {
		s.onFocus(s)
	}
}

// FocusLost implements fyne.Focusable.
func (s *slider) FocusLost() {
	s.Slider.FocusLost()
	s.ring.Hide()
}

func newSliderRow(name string, read func() float64, write func(float64) error) *sliderRow {
	r := &sliderRow{slider: &slider{ring: NewRing()}, value: widget.NewLabel(""), read: read}
	r.slider.Min, r.slider.Max, r.slider.Step = 0, 100, 5
	r.slider.ExtendBaseWidget(r.slider)
	r.slider.OnChanged = func(v float64) { r.tell(v) }
	r.slider.OnChangeEnded = func(v float64) {
		if v/100 != r.read() && write(v/100) != nil {
			r.show()
		}
	}
	r.box = container.New(pair{}, caption(name), container.NewBorder(nil, nil, nil, r.value, container.NewStack(r.slider, r.slider.ring)))
	return r
}

func (r *sliderRow) tell(v float64) { r.value.SetText(fmt.Sprintf("%3.0f %%", v)) }

func (r *sliderRow) reset() { r.show() }
func (r *sliderRow) flush() {}

// show sets the slider with its hooks detached, so that showing a value never
// writes one.
func (r *sliderRow) show() {
	if !r.applies() {
		return
	}
	changed, ended := r.slider.OnChanged, r.slider.OnChangeEnded
	r.slider.OnChanged, r.slider.OnChangeEnded = nil, nil
	if v := r.read() * 100; r.slider.Value != v {
		r.slider.SetValue(v)
	}
	r.slider.OnChanged, r.slider.OnChangeEnded = changed, ended
	r.tell(r.read() * 100)
}

// buttonsRow is a line of buttons.
type buttonsRow struct{ line }

// push is one button of a row.
type push struct {
	text string
	do   func()
}

func newButtonsRow(buttons ...push) *buttonsRow {
	r := &buttonsRow{}
	var all []fyne.CanvasObject
	for _, b := range buttons {
		all = append(all, NewButton(b.text, b.do).Object())
	}
	r.box = container.NewGridWithColumns(len(all), all...)
	return r
}

func (r *buttonsRow) show()  { r.applies() }
func (r *buttonsRow) reset() { r.applies() }
func (r *buttonsRow) flush() {}

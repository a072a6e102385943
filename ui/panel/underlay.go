package panel

import (
	"fmt"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// PictureAct is what a button of the picture section asks the window for.
type PictureAct int

const (
	ChoosePicture PictureAct = iota // another one when there is one
	ScalePicture
	CheckPicture
	MovePicture
	RemovePicture
)

// pictureHeading is what the section is found by.
const pictureHeading = "Picture under the plan"

// pictureRows are the section of the scheme about the picture under the plan.
func pictureRows(f *form) {
	on := f.on
	lay := func() doc.Underlay { return on.scheme().Plan.Underlay }
	there := func() bool { return lay().Present() }
	scaled := func() bool { return lay().Known.Given() }
	act := func(a PictureAct) func() {
		return func() {
			if on.picture != nil {
				on.picture(a)
			}
		}
	}
	f.heading(pictureHeading)
	empty := newButtonsRow(push{"Choose picture…", act(ChoosePicture)})
	empty.when = func() bool { return !there() }
	f.hint("No picture yet. Choose a photo, a scanned plan or a page as PDF to draw over, or drop its file onto the window; then press U and give it its scale.").when = empty.when
	f.add(empty)
	f.figure("File", func() string { return lay().Name() }).when = there
	f.figure("State", func() string { return pictureState(on) }).when = there
	fade := newSliderRow("Faded by", func() float64 { return float64(lay().Fade) },
		func(v float64) error { return on.desk.Commit(edit.FadePicture{Fade: doc.Ratio(v)}) })
	fade.when = there
	f.add(fade)
	f.angle("Turned by", func() float64 { return lay().Turn },
		func(v float64) edit.Operation { return edit.TurnPicture{To: v} }).when = there
	f.check("Locked: the picture stays where it is", func() bool { return lay().Lock },
		func(v bool) edit.Operation { return edit.LockPicture{Lock: v} }).when = there
	f.figure("Scale", func() string { return scaleText(lay()) }).when = there
	f.figure("Check", func() string { return checkText(lay()) }).when = func() bool { return there() && scaled() }
	for _, line := range [][]push{
		{{"Scale…", act(ScalePicture)}, {"Check…", act(CheckPicture)}},
		{{"Move, turn", act(MovePicture)}, {"Replace…", act(ChoosePicture)}},
		{{"Remove the picture", act(RemovePicture)}},
	} {
		r := newButtonsRow(line...)
		r.when = there
		f.add(r)
	}
}

// pictureState says whether the file was read.
func pictureState(on *subject) string {
	u := on.frame.Under
	switch {
	case u == nil:
		return "being read"
	case u.Missing():
		return "missing: the file is not there"
	case u.Err != nil:
		return u.Err.Error()
	case u.Picture.Sum != on.scheme().Plan.Underlay.Sum:
		return "changed since it was chosen"
	}
	return fmt.Sprintf("%d × %d pixels", u.Picture.Width, u.Picture.Height)
}

// scaleText says how large a pixel is and what that rests on.
func scaleText(u doc.Underlay) string {
	if !u.Known.Given() {
		return "not set: a length on it means nothing yet"
	}
	return fmt.Sprintf("%.3g mm a pixel, by a length of %s", float64(u.Pixel)*1000, LengthText(u.Known.Length))
}

// checkText says how far the check dimension is off.
func checkText(u doc.Underlay) string {
	part, by, ok := u.CheckError()
	if !ok {
		return "not checked by a second length"
	}
	return LengthText(u.Measured(u.Check)) + " on the picture, " + LengthText(u.Check.Length) + " in truth: " + doc.OffText(part, by)
}

// ShowPicture brings the section about the picture into view, when nothing is
// selected.
func (p *Properties) ShowPicture() {
	if p.now == nil || p.on.id != "" || len(p.on.ids) > 0 {
		return
	}
	// Down first, so that the section then stands at the top.
	p.scroll.ScrollToBottom()
	for _, r := range p.now.rows {
		if fixed, ok := r.(*fixedRow); ok && fixed.heads(pictureHeading) {
			p.scroll.ScrollToOffset(fyne.NewPos(0, p.now.box.Position().Y+fixed.object().Position().Y))
			return
		}
	}
}

package ui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/packs"
)

// workPages is the making of the pages that are looked at.
const workPages = "pages"

// preview is the sheet that shows the packs page by page before they are saved or
// printed. Its pages are those that are written: the same lists go to both.
type preview struct {
	win   *Window
	sheet *sheet
	input packs.Input
	made  map[string]*packs.Pack
	pack  *packs.Pack // that is shown; nil while it is made
	key   string
	at    int

	view       *pageView
	kind, page *sheetSelect
	back, next *sheetButton
	zoom, note *widget.Label
	help       *widget.Label // the keys, and what was saved before them
	progress   *progressRow
}

// packNames are the packs by their keys, in the order of packs.Keys.
var packNames = []string{"Client pack", "Site pack", "Test pack"}

// showPages opens the sheet of pages.
func (w *Window) showPages() {
	w.settle()
	w.showPagesOf(w.packInput())
}

// showPagesOf shows the packs of what is given, the client pack first.
func (w *Window) showPagesOf(in packs.Input) {
	p := &preview{win: w, input: in, made: map[string]*packs.Pack{}}
	w.preview = p
	p.sheet = w.openSheet("Pages", w.sheetRoom(), p.build,
		answer{text: "Close", cancel: true, then: p.closed},
		answer{text: "Save PDF…", main: true, check: func() bool { p.save(); return false }})
	p.sheet.home = p.view
	p.sheet.typed = p.view.pageKey
	p.sheet.focus(p.view)
	p.choose(0)
}

const pageKeysHelp = "PgUp PgDn page   + − zoom   0 page   W width   arrows, drag move"

// told says below the pages what the line under the plan says, for the sheet lies
// over that.
func (p *preview) told(text string) {
	if p != nil {
		p.help.SetText(text + "   ·   " + pageKeysHelp)
	}
}

func (p *preview) build(s *sheet) fyne.CanvasObject {
	p.sheet = s
	p.view = newPageView(s, p.turn)
	p.view.zoomed, p.view.failure = p.showZoom, func(err error) { p.say(upperFirst(err.Error())) }
	p.kind = newSheetSelect(s, packNames, 0, p.choose)
	p.page = newSheetSelect(s, []string{"no page yet"}, 0, func(i int) { p.goTo(i) })
	p.zoom = widget.NewLabel("")
	p.note = wrapped("")
	p.note.Alignment = fyne.TextAlignCenter
	p.progress = newProgressRow()
	icon := func(i fyne.Resource, do func()) *sheetButton {
		b := newSheetButton(s, "", do)
		b.Icon = i
		return b
	}
	p.back, p.next = icon(theme.NavigateBackIcon(), func() { p.turn(-1) }), icon(theme.NavigateNextIcon(), func() { p.turn(1) })
	out, in := icon(theme.ZoomOutIcon(), func() { p.view.zoomBy(-1) }), icon(theme.ZoomInIcon(), func() { p.view.zoomBy(1) })
	all := newSheetButton(s, "Page", func() { p.view.setFit(fitPage) })
	wide := newSheetButton(s, "Width", func() { p.view.setFit(fitWidth) })
	left := container.NewHBox(container.New(atLeast{fyne.NewSize(118, 0)}, p.kind.object()), p.back.object())
	right := container.NewHBox(p.next.object(), out.object(), container.New(atLeast{fyne.NewSize(56, 0)}, p.zoom), in.object(), all.object(), wide.object())
	bar := container.NewBorder(nil, nil, left, right, p.page.object())
	p.help = widget.NewLabel(pageKeysHelp)
	p.help.Importance = widget.LowImportance
	p.help.Truncation = fyne.TextTruncateEllipsis
	return container.NewBorder(bar, container.NewStack(p.help, p.progress.box), nil, nil,
		container.NewStack(p.view, container.NewCenter(container.New(atLeast{fyne.NewSize(260, 0)}, p.note))))
}

// choose shows another pack, which is made in a worker when it was not yet.
func (p *preview) choose(i int) {
	if i < 0 || i >= len(packs.Keys) || p.key == packs.Keys[i] && p.pack != nil {
		return
	}
	key, w := packs.Keys[i], p.win
	p.key, p.pack = key, nil
	p.view.show(nil)
	p.say("Making the pages…")
	if made := p.made[key]; made != nil {
		w.bridge.Drop(workPages)
		p.fill(made)
		return
	}
	in, whole := p.input, w.desk.Whole(p.input.Frame)
	RunTask(w.bridge, Task{Key: workPages, Title: "Making the " + lowerFirst(packNames[i])}, func(ctx context.Context, report Report) (*packs.Pack, error) {
		in.Frame = whole()
		made, err := packs.Make(ctx, in, packs.Report(report), key)
		if err != nil {
			return nil, err
		}
		return made[0], nil
	}, func(made *packs.Pack, err error) {
		switch {
		case errors.Is(err, context.Canceled):
			p.say("Cancelled: no pages were made. Choose a pack to go on.")
		case err != nil:
			p.say("The pages could not be made: " + err.Error())
		default:
			p.made[key] = made
			p.fill(made)
		}
	})
}

// fill lists the pages of a pack and shows the first.
func (p *preview) fill(made *packs.Pack) {
	p.pack = made
	names := make([]string, len(made.Pages))
	for i := range made.Pages {
		names[i] = fmt.Sprintf("%d of %d: %s", i+1, len(made.Pages), made.Pages[i].Title)
	}
	p.page.Options = names
	p.at = -1
	p.say("")
	p.goTo(0)
}

// goTo shows a page of the pack.
func (p *preview) goTo(i int) {
	if p.pack == nil || len(p.pack.Pages) == 0 {
		return
	}
	i = max(0, min(i, len(p.pack.Pages)-1))
	if i == p.at {
		return
	}
	p.at = i
	p.page.SetSelectedIndex(i) // comes back here and finds the page shown
	p.view.show(&p.pack.Pages[i])
	enable(p.back, i > 0)
	enable(p.next, i < len(p.pack.Pages)-1)
}

func enable(b *sheetButton, can bool) {
	if can {
		b.Enable()
	} else {
		b.Disable()
	}
}

func (p *preview) turn(by int) { p.goTo(p.at + by) }

func (p *preview) showZoom() { p.zoom.SetText(strconv.Itoa(int(p.view.percent()+0.5)) + " %") }

// say writes over the view; "" takes that away.
func (p *preview) say(text string) {
	p.note.SetText(text)
	if text == "" {
		p.note.Hide()
	} else {
		p.note.Show()
	}
}

// save writes the pack that is shown.
func (p *preview) save() {
	made := p.pack
	if made == nil {
		return
	}
	p.win.exportSlow(made.Key+"-pack", []string{".pdf"}, func(_ context.Context, report Report, out io.Writer, _ string, _ *layout.Frame, _ *check.Rules, _ string) error {
		report(0.2, "putting the pages together")
		return made.PDF(out)
	})
}

// closed ends what is under way for the sheet.
func (p *preview) closed() {
	p.win.bridge.Drop(workPages)
	p.win.bridge.Drop(workPage)
	p.win.preview = nil
}

// showProgress follows work that takes long, below the plan and in the sheet of
// pages when that covers it.
func (w *Window) showProgress(list []Progress) {
	w.progress.show(list)
	if w.preview != nil {
		w.preview.progress.show(list)
	}
}

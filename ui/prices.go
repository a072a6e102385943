package ui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	layouts "fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/packs"
)

// workPrices is the finding out of what needs a price, and the reading of a list.
const workPrices = "prices"

// mostPriceRows is how many things the form shows; a longer list is written and
// read as CSV.
const mostPriceRows = 150

// showPrices opens the price list: what the drawing needs, and what is listed
// beside that. Each field is one step, taken back like any other.
func (w *Window) showPrices() {
	w.settle()
	in := w.packInput()
	whole := w.desk.Whole(in.Frame)
	RunTask(w.bridge, Task{Key: workPrices, Title: "Looking through the scheme"}, func(context.Context, Report) ([]doc.ItemPrice, error) {
		in.Frame = whole()
		return packs.Wanted(in), nil
	}, func(want []doc.ItemPrice, err error) {
		if err == nil && len(w.sheets) == 0 {
			w.openPrices(want)
		}
	})
}

// priceForm is the open price list.
type priceForm struct {
	win    *Window
	want   []doc.ItemPrice
	fields []*priceEntry
}

func (w *Window) openPrices(want []doc.ItemPrice) {
	p := &priceForm{win: w, want: want}
	room := w.sheetRoom()
	s := w.openSheet("Price list", fyne.NewSize(min(room.Width, 620), min(room.Height, 520)), p.build,
		answer{text: "Import CSV…", check: p.flush, then: p.importCSV},
		answer{text: "Save CSV…", check: p.flush, then: p.saveCSV},
		answer{text: "Close", main: true, cancel: true, check: p.flush})
	s.focus(p.fields[0])
}

// flush commits what is being typed and reports whether nothing is wrong.
func (p *priceForm) flush() bool {
	for _, f := range p.fields {
		if !f.flush() {
			f.sheet.focus(f)
			return false
		}
	}
	return true
}

func (p *priceForm) list() *doc.PriceList { return &p.win.desk.Frame().Scheme.List }

func (p *priceForm) build(s *sheet) fyne.CanvasObject {
	box := container.NewVBox(wrapped("What you ask for one of each: one amount, or a low and a high one such as 28 to 35. Empty is not known, which is not 0: sums then say what they lack."))
	heading := func(text string) {
		l := widget.NewLabel(text)
		l.TextStyle.Bold = true
		box.Add(l)
	}
	p.general(s, box)
	rows, more := p.rows()
	group := ""
	for _, r := range rows {
		if r.Group != group {
			group = r.Group
			heading(packs.PriceGroup(group))
		}
		p.item(s, box, r)
	}
	if more > 0 {
		box.Add(wrapped(fmt.Sprintf("%d more things are listed: save the list as CSV to see them.", more)))
	}
	p.coils(s, box, heading)
	return s.long(container.New(layouts.NewCustomPaddedLayout(0, 0, 0, 14), box)) // clear of the scroll bar
}

// general are the word for the money and the hours.
func (p *priceForm) general(s *sheet, box *fyne.Container) {
	p.add(s, box, "Word for your money", "such as pounds", func() string { return p.list().Currency }, func(text string) error {
		l := *p.list()
		l.Currency = text
		return p.win.desk.Commit(edit.SetPriceList{List: l})
	})
	p.add(s, box, "Hours of work beside the digging", "not known, such as 16 to 24 h", func() string {
		if h := p.list().Hours; h != (doc.Span{}) {
			return h.String()
		}
		return ""
	}, func(text string) error {
		l := *p.list()
		l.Hours = doc.Span{}
		if text != "" {
			h, err := doc.ParseSpan(text)
			if err != nil {
				return err
			}
			l.Hours = h
		}
		return p.win.desk.Commit(edit.SetPriceList{List: l})
	})
}

// rows are what is needed and what is listed, in the order of a list, and how
// many of the listed ones are left out.
func (p *priceForm) rows() (rows []doc.ItemPrice, more int) {
	all := doc.PriceList{}
	for _, r := range p.want {
		r.Band = doc.Band{Low: 1, High: 1}
		all = all.With(r)
	}
	listed := p.list().Items
	room := max(mostPriceRows-len(all.Items), 0)
	for _, r := range listed {
		if _, ok := all.Of(r.Group, r.Item); ok {
			continue
		}
		if room--; room < 0 {
			more++
			continue
		}
		all = all.With(r)
	}
	return all.Items, more
}

// item is the field of one thing.
func (p *priceForm) item(s *sheet, box *fyne.Container, r doc.ItemPrice) {
	name, unit := p.win.desk.Frame().Stock.PriceName(r.Group, r.Item)
	if unit != "each" {
		name += ", " + map[string]string{"m": "a metre", "m³": "a cubic metre", "h": "an hour"}[unit]
	}
	p.add(s, box, name, "not known", func() string {
		if b, ok := p.list().Of(r.Group, r.Item); ok {
			return b.String()
		}
		return ""
	}, func(text string) error {
		to := doc.ItemPrice{Group: r.Group, Item: r.Item}
		if text != "" {
			b, err := doc.ParseBand(text)
			if err != nil {
				return err
			}
			to.Band = b
		}
		return p.win.desk.Commit(edit.SetPrice{Price: to})
	})
}

// coils are how the cables of the drawing are bought.
func (p *priceForm) coils(s *sheet, box *fyne.Container, heading func(string)) {
	heading("Buying cable: coils, by the metre, what is left at hand")
	for _, r := range p.want {
		if r.Group != "cable" {
			continue
		}
		name, _ := p.win.desk.Frame().Stock.PriceName(r.Group, r.Item)
		p.add(s, box, name, "such as 25 m at 31.50, metre at 1.45, left 8 m", func() string {
			prices := p.win.desk.Frame().Scheme.Prices
			if i := slices.IndexFunc(prices, func(c doc.Price) bool { return c.Cable == r.Item }); i >= 0 {
				return prices[i].Offers()
			}
			return ""
		}, func(text string) error {
			price, err := doc.ParseOffers(r.Item, text)
			if err != nil {
				return err
			}
			return p.win.desk.Commit(edit.SetCablePrice{Price: price})
		})
	}
}

// priceCaption is the width of the names.
const priceCaption = 280

// add adds a name with its field.
func (p *priceForm) add(s *sheet, box *fyne.Container, name, hint string, read func() string, commit func(string) error) {
	f := newPriceEntry(s, hint, read, commit)
	i := len(p.fields)
	f.next = func() {
		if i+1 < len(p.fields) {
			s.focus(p.fields[i+1])
		} else {
			s.focus(s.buttons[len(s.buttons)-1])
		}
	}
	p.fields = append(p.fields, f)
	box.Add(container.New(captioned{priceCaption}, wrapped(name), container.NewVBox(f.object(), f.reason)))
}

// importCSV asks for a list and takes its prices in, as one step.
func (p *priceForm) importCSV() {
	w := p.win
	w.chooseFrom(choice{title: "Import prices", verb: "Import", endings: []string{".csv"}}, func(path string) {
		name, stock := filepath.Base(path), w.desk.Frame().Stock
		RunTask(w.bridge, Task{Key: workPrices, Title: "Reading " + name}, func(context.Context, Report) ([]doc.ItemPrice, error) {
			data, err := readSome(path, file.MaxPriceBytes+1)
			if err != nil {
				return nil, err
			}
			return file.ReadPrices(name, data, stock)
		}, func(items []doc.ItemPrice, err error) {
			if err == nil {
				err = w.desk.Commit(edit.ImportPrices{Items: items})
			}
			switch {
			case errors.Is(err, context.Canceled):
				w.status.SetHint("Cancelled: no price was taken", true)
			case err != nil:
				w.fail("No price was taken from "+name, err)
			default:
				w.status.SetHint(fmt.Sprintf("%d prices taken from %s", len(items), name), false)
				w.showPrices()
			}
		})
	})
}

// readSome reads a file of which at most so many bytes are wanted.
func readSome(path string, most int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || !info.Mode().IsRegular() {
		return nil, errors.New(path + ": found no plain file")
	}
	return io.ReadAll(io.LimitReader(f, most))
}

// saveCSV writes the list, with a line for each thing that lacks a price.
func (p *priceForm) saveCSV() {
	want := p.want
	p.win.export("prices", []string{".csv"}, func(out io.Writer, _ string, f *layout.Frame, _ *check.Rules, _ string) error {
		_, err := out.Write(file.WritePrices(&f.Scheme.List, f.Stock, want))
		return err
	})
}

// priceEntry is a field in a sheet that commits like those of the panel: on
// Return and when it loses the keyboard; Escape takes typing back and, without
// any, closes the sheet; wrong text stays, with the reason under it.
type priceEntry struct {
	sheetEntry
	shown  string
	read   func() string
	commit func(string) error
	next   func()
	reason *widget.Label
}

func newPriceEntry(s *sheet, hint string, read func() string, commit func(string) error) *priceEntry {
	plain := newSheetEntry(s, "", hint)
	e := &priceEntry{read: read, commit: commit, reason: widget.NewLabel("")}
	e.sheet, e.ring = s, plain.ring
	e.Wrapping, e.Scroll, e.PlaceHolder = plain.Wrapping, plain.Scroll, plain.PlaceHolder
	e.shown = read()
	e.Text = e.shown
	e.reason.Importance = widget.DangerImportance
	e.reason.Wrapping = fyne.TextWrapWord
	e.reason.Hide()
	e.ExtendBaseWidget(e)
	return e
}

// object returns the field with the ring that shows the focus.
func (e *priceEntry) object() fyne.CanvasObject { return container.NewStack(e, e.ring) }

// flush commits the text if it differs, and reports whether it was taken.
func (e *priceEntry) flush() bool {
	text := strings.TrimSpace(e.Text)
	if text != e.shown {
		if err := e.commit(text); err != nil {
			e.reason.SetText(upperFirst(err.Error()))
			e.reason.Show()
			return false
		}
	}
	e.reset()
	return true
}

// reset shows the value of the scheme.
func (e *priceEntry) reset() {
	e.shown = e.read()
	if e.Text != e.shown {
		e.SetText(e.shown)
	}
	e.reason.Hide()
}

// FocusGained implements fyne.Focusable.
func (e *priceEntry) FocusGained() {
	e.Entry.FocusGained()
	e.ring.Show()
	e.sheet.reveal(e)
}

// FocusLost implements fyne.Focusable: what was typed is committed.
func (e *priceEntry) FocusLost() {
	e.sheetEntry.FocusLost()
	e.flush()
}

// TypedKey implements fyne.Focusable.
func (e *priceEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		if e.Text != e.shown {
			e.reset()
			return
		}
		e.sheet.key(k.Name)
	case fyne.KeyReturn, fyne.KeyEnter:
		if e.flush() {
			e.next()
		}
	case fyne.KeyPageUp, fyne.KeyPageDown:
		e.sheet.move(k.Name)
	default:
		e.Entry.TypedKey(k)
	}
}

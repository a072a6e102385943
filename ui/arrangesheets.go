package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
)

// ask opens a sheet with rows and one verb; do returns why it cannot be done,
// "" when it is.
func (w *Window) ask(title, text, verb string, rows func(*sheet) []fyne.CanvasObject, do func() string) *sheet {
	w.properties.Flush()
	why := widget.NewLabel("")
	why.Importance = widget.DangerImportance
	why.Wrapping = fyne.TextWrapWord
	why.Hide()
	check := func() bool {
		text := do()
		if text == "" {
			return true
		}
		why.SetText(text)
		why.Show()
		return false
	}
	return w.openSheet(title, fyne.NewSize(sheetWidth, 0), func(s *sheet) fyne.CanvasObject {
		box := container.NewVBox(wrapped(text))
		for _, r := range rows(s) {
			box.Add(r)
		}
		box.Add(why)
		return box
	}, answer{text: "Cancel", cancel: true}, answer{text: verb, main: true, check: check})
}

// captionedRow is a caption with its entry or list.
func captionedRow(name string, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(captioned{long}, widget.NewLabel(name), o)
}

// done does the operation and returns why it was refused, "" when it was not.
func (w *Window) done(op edit.Operation) string {
	if err := w.desk.Commit(op); err != nil {
		return upperFirst(err.Error())
	}
	return ""
}

// number reads a plain number.
func number(text, what string) (float64, error) {
	v, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "°")), 64)
	if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("found %q, expected %s", text, what)
	}
	return v, nil
}

// spacing reads a length above zero; a bare number is in metres.
func spacing(text string) (geom.Length, error) {
	text = strings.TrimSpace(text)
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		text += " m"
	}
	v, err := q.ParseMetre(text)
	if err != nil || v < 0.001 || v > 1000 {
		return 0, fmt.Errorf("found %q, expected a distance such as 1.5 m or 600 mm", text)
	}
	return geom.Metres(float64(v)), nil
}

// rotateBy asks for an angle.
func (w *Window) rotateBy() {
	s, ids := w.desk.Frame().Scheme, w.plan.Selection()
	var by *sheetEntry
	sh := w.ask("Rotate by", "The selection turns about its middle. Above 0 is anticlockwise.", "Rotate", func(s *sheet) []fyne.CanvasObject {
		by = newSheetEntry(s, "45", "degrees")
		return []fyne.CanvasObject{captionedRow("Degrees", by.object())}
	}, func() string {
		v, err := number(by.Text, "degrees such as 45 or -30")
		if err != nil {
			return upperFirst(err.Error())
		}
		return w.done(edit.RotateHere(s, ids, v))
	})
	sh.focus(by)
}

// distributeAt asks along what the selection is spaced, and how far.
func (w *Window) distributeAt() {
	ids := w.plan.Selection()
	var how *sheetSelect
	var far *sheetEntry
	names := make([]string, len(edit.Spreads))
	for i, n := range edit.Spreads {
		names[i] = upperFirst(n)
	}
	sh := w.ask("Distribute at a spacing", "The first stays where it is. Without a spacing the last stays too, and the rest stand evenly between.", "Distribute",
		func(s *sheet) []fyne.CanvasObject {
			how = newSheetSelect(s, names, int(edit.SpreadChain), nil)
			far = newSheetEntry(s, "", "such as 1.5 m; empty for evenly")
			return []fyne.CanvasObject{captionedRow("How", how.object()), captionedRow("Spacing", far.object())}
		}, func() string {
			op := edit.Distribute{IDs: ids, How: edit.Spread(how.SelectedIndex())}
			if strings.TrimSpace(far.Text) != "" {
				l, err := spacing(far.Text)
				if err != nil {
					return upperFirst(err.Error())
				}
				op.Spacing = l
			}
			return w.done(op)
		})
	sh.focus(far)
}

// mostCopies is how many copies are made at once.
const mostCopies = 200

// repeat asks for copies of the selection in a row or around a point.
func (w *Window) repeat() {
	f := w.copied()
	if f == nil {
		return
	}
	var count, far, turn *sheetEntry
	sh := w.ask("Repeat the selection", "Copies go on in a row at the spacing, in the direction given in degrees clockwise from up the sheet.", "Repeat",
		func(s *sheet) []fyne.CanvasObject {
			count, far = newSheetEntry(s, "3", "number of copies"), newSheetEntry(s, "1 m", "such as 1.5 m")
			turn = newSheetEntry(s, "90°", "degrees; 90 is to the right")
			return []fyne.CanvasObject{captionedRow("Copies", count.object()), captionedRow("Spacing", far.object()), captionedRow("Direction", turn.object())}
		}, func() string {
			n, err := strconv.Atoi(strings.TrimSpace(count.Text))
			if err != nil || n < 1 || n > mostCopies {
				return fmt.Sprintf("Found %q, expected from 1 to %d copies", count.Text, mostCopies)
			}
			l, err := spacing(far.Text)
			if err != nil {
				return upperFirst(err.Error())
			}
			to, err := number(turn.Text, "degrees such as 90")
			if err != nil || math.Abs(to) > 360 {
				return fmt.Sprintf("Found %q, expected degrees such as 90", turn.Text)
			}
			return w.repeated(f, n, l, to)
		})
	sh.focus(count)
}

func (w *Window) repeated(f *doc.Fragment, n int, by geom.Length, bearing float64) string {
	op := edit.Copies{}
	for i := 1; i <= n; i++ {
		to := geom.Toward(geom.Point{}, bearing, geom.Length(i)*by)
		op.Pastes = append(op.Pastes, edit.NewPaste(f, to, doc.NewID))
	}
	if why := w.done(op); why != "" {
		return why
	}
	ids := w.plan.Selection()
	for _, p := range op.Pastes {
		ids = append(ids[:len(ids):len(ids)], p.Pasted()...)
	}
	w.plan.Select(ids...)
	return ""
}

// selectBy asks what to select: a kind, the lamps of a zone, a stock item.
func (w *Window) selectBy() {
	choices := tool.Choices(w.desk.Frame().Scheme)
	if len(choices) == 0 {
		w.refuse("There is nothing on the plan yet")
		return
	}
	names := make([]string, len(choices))
	for i, c := range choices {
		names[i] = fmt.Sprintf("%s, %d", c.Name, len(c.IDs))
	}
	var which *sheetSelect
	var more *sheetSelect
	sh := w.ask("Select", "Everything of one kind, in one zone or of one stock item.", "Select", func(s *sheet) []fyne.CanvasObject {
		which = newSheetSelect(s, names, 0, nil)
		more = newSheetSelect(s, []string{"Instead of what is selected", "As well as what is selected"}, 0, nil)
		return []fyne.CanvasObject{captionedRow("What", which.object()), captionedRow("How", more.object())}
	}, func() string {
		ids := choices[which.SelectedIndex()].IDs
		if more.SelectedIndex() == 1 {
			ids = tool.Union(w.plan.Selection(), ids)
		}
		w.choose(ids)
		return ""
	})
	sh.focus(which)
}

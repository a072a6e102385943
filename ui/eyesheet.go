package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// change asks for name and height of the eye point that is looked from, or takes
// it away.
func (s *standing) change() {
	e := s.eye
	_, kept := s.win.desk.Frame().Scheme.Eye(e.Tag)
	var name, high *sheetEntry
	wrong := wrapped("")
	wrong.Importance = widget.DangerImportance
	wrong.Hide()
	refuse := func(err error) bool {
		wrong.SetText(err.Error())
		wrong.Show()
		return false
	}
	save := func() bool {
		h, err := q.ParseMetre(high.Text)
		if err != nil {
			return refuse(err)
		}
		e.Name, e.Place.Height = name.Text, geom.Metres(float64(h))
		var op edit.Operation = edit.AddEye{Eye: e}
		if kept {
			op = edit.SetEye{Eye: e}
		}
		if err := s.win.desk.Commit(op); err != nil {
			return refuse(err)
		}
		return true
	}
	remove := func() {
		if !kept {
			return
		}
		if err := s.win.desk.Commit(edit.RemoveEye{Tag: e.Tag}); err != nil {
			s.win.status.SetHint(err.Error(), true)
		}
	}
	sh := s.win.openSheet("Eye point "+e.Tag, fyne.NewSize(360, 110), func(sh *sheet) fyne.CanvasObject {
		name, high = newSheetEntry(sh, e.Name, "Terrace door"), newSheetEntry(sh, doc.Written(e.Place.Height), "1.6 m")
		return container.NewVBox(container.New(layout.NewFormLayout(),
			widget.NewLabel("Name"), name.object(), widget.NewLabel("Eye above ground"), high.object()), wrong)
	}, answer{text: "Cancel", cancel: true}, answer{text: "Remove", then: remove}, answer{text: "OK", main: true, check: save})
	if !kept {
		sh.buttons[1].Disable()
	}
	sh.focus(name)
}

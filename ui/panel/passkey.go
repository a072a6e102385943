package panel

import (
	"unicode"

	"fyne.io/fyne/v2"
)

// windowKeys are the keys of the whole window. Fyne hands a key without Ctrl or
// Alt to what has the focus and to nobody else, so that what has it passes these
// on.
var windowKeys = map[fyne.KeyName]bool{
	fyne.KeyF1: true, fyne.KeyF6: true, fyne.KeyF7: true, fyne.KeyF8: true, fyne.KeyF9: true, fyne.KeyEscape: true,
}

// PassKey hands a key that an object has no use for to its window, and reports
// whether it is one of the window's.
func PassKey(o fyne.CanvasObject, e *fyne.KeyEvent) bool {
	app := fyne.CurrentApp()
	if !windowKeys[e.Name] || app == nil {
		return false
	}
	if c := app.Driver().CanvasForObject(o); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(e)
	}
	return true
}

// PassRune hands the question mark, which lists the keys, and the letters of the
// tools to the window: a list keeps the keyboard after something was chosen in it,
// and the plan is where the next key is meant.
func PassRune(o fyne.CanvasObject, r rune) {
	app := fyne.CurrentApp()
	if r != '?' && !unicode.IsLetter(r) || app == nil {
		return
	}
	if c := app.Driver().CanvasForObject(o); c != nil && c.OnTypedRune() != nil {
		c.OnTypedRune()(r)
	}
}

package panel

import (
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// A height that is not known is an empty field that says what is taken; a figure
// typed into it stands, and emptied it is not known again. The height of a deck is 0
// where it is 0.
func TestHeightNotKnown(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	area := func(id doc.ID) *doc.Area { a, _ := d.Frame().Scheme.Areas.Get(id); return a }
	for _, c := range []struct{ kind, text, hint string }{{"building", "", "not known: 5 m taken"}, {"deck", "0 m", ""}} {
		var one *doc.Area
		for _, a := range d.Frame().Scheme.Areas.All() {
			copied := *a
			copied.Kind, copied.Height, copied.DigDepth, copied.Use, copied.Low = c.kind, 0, 0, "", false
			one = &copied
			break
		}
		if err := d.Commit(edit.ChangeKind{ID: one.ID, Kind: c.kind}); err != nil {
			t.Fatal(err)
		}
		if err := d.Commit(put(one)); err != nil {
			t.Fatal(err)
		}
		p, w := properties(t, d, one.Tag)
		f := fieldOf(t, p, "Height")
		if f.Text != c.text || f.PlaceHolder != c.hint {
			t.Errorf("%s: shows %q with the hint %q, want %q and %q", c.kind, f.Text, f.PlaceHolder, c.text, c.hint)
		}
		for typed, want := range map[string]geom.Length{"2.4": 2400 * geom.Millimetre} {
			w.Canvas().Focus(f)
			f.SetText(typed)
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			if got := area(one.ID).Height; got != want {
				t.Errorf("%s: %q gives %v", c.kind, typed, got)
			}
		}
		if c.hint != "" {
			f.SetText("")
			f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			if got := area(one.ID).Height; got != 0 || f.Reason() != "" {
				t.Errorf("%s: emptied it is %v, %q", c.kind, got, f.Reason())
			}
		}
	}
}

package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"duskwire/assets"
	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// counted is a desk that counts how often a working was asked for.
type counted struct {
	*layout.Desk
	explained int
}

func (c *counted) Explain(id doc.ID) []finding.Finding {
	c.explained++
	return c.Desk.Explain(id)
}

// newDesk returns a desk with an example on it.
func newDesk(t *testing.T, example string) *counted {
	t.Helper()
	test.NewTempApp(t)
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	data, err := assets.FS.ReadFile("examples/" + example)
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme(example, data, stock)
	if err != nil {
		t.Fatal(err)
	}
	return &counted{Desk: layout.NewDesk(stock, rules, s, "")}
}

// properties shows the panel with the thing of the tag selected, in a window
// that follows the desk.
func properties(t *testing.T, d *counted, tag string) (*Properties, fyne.Window) {
	t.Helper()
	p := NewProperties(d)
	d.Subscribe(p.SetFrame)
	w := test.NewTempWindow(t, p.Object())
	w.Resize(fyne.NewSize(330, 600))
	if tag != "" {
		p.SetSelection([]doc.ID{doc.WithTag(d.Frame().Scheme, tag).Key()})
	}
	return p, w
}

// fieldOf returns the field with the caption.
func fieldOf(t *testing.T, p *Properties, caption string) *Field {
	t.Helper()
	for _, r := range p.now.rows {
		if x, ok := r.(*textRow); ok && x.box.Visible() && captionOf(x.box) == caption {
			return x.field
		}
	}
	t.Fatalf("no field %q", caption)
	return nil
}

func choiceOf(t *testing.T, p *Properties, caption string) *choiceRow {
	t.Helper()
	for _, r := range p.now.rows {
		if x, ok := r.(*choiceRow); ok && x.box.Visible() && captionOf(x.box) == caption {
			return x
		}
	}
	t.Fatalf("no choice %q", caption)
	return nil
}

func captionOf(box *fyne.Container) string {
	return strings.TrimSpace(box.Objects[0].(*widget.Label).Text)
}

// texts returns the visible labels below an object, a line each.
func texts(o fyne.CanvasObject) string {
	var out []string
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if o == nil || !o.Visible() {
			return
		}
		switch o := o.(type) {
		case *widget.Label:
			out = append(out, unkept(o.Text)) // wherever lines end
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case *container.Scroll:
			walk(o.Content)
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	walk(o)
	return strings.Join(out, "\n")
}

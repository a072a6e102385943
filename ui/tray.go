package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

const (
	trayWidth = 200
	nameWidth = trayWidth - 56 // what a list leaves for the name chosen
)

// tray is the narrow column left of the plan: the tools, and below them what
// the tool in hand will place.
type tray struct {
	set     *tool.Defaults
	series  tool.Series // as last shown
	round   bool        // likewise
	take    func(string)
	frame   *layout.Frame
	buttons map[string]*toolButton
	choices map[string]*choices
	below   *fyne.Container
	legend  *legend
	scroll  *container.Scroll
	box     *fyne.Container
	lean    lean
	resized func() // told when the tray wants another width
	// chosen is told when something else will be placed, and whether the mouse chose it.
	chosen func(pointed bool)
}

// choices are what one tool will place: rows that read and write the defaults.
type choices struct {
	box  *fyne.Container
	rows []func()
}

func newTray(f *layout.Frame, set *tool.Defaults, take func(string)) *tray {
	t := &tray{set: set, take: take, frame: f, buttons: map[string]*toolButton{}, below: container.NewStack(), legend: newLegend()}
	for _, name := range append(slices.Clone(toolOrder), groundOrder...) {
		b := newToolButton(name, toolKey(name), toolIcons[name], func() { take(name) })
		b.onFocus = t.bring
		t.buttons[name] = b
	}
	t.choices = map[string]*choices{
		tool.NameLamp:   t.stockChoice("Fitting", func() *string { return &set.Lamp }, doc.LampKind),
		tool.NameBox:    t.stockChoice("Box", func() *string { return &set.Box }, doc.BoxKind),
		tool.NameGear:   t.stockChoice("Gear", func() *string { return &set.Gear }, doc.GearKind),
		tool.NameSource: t.stockChoice("Source", func() *string { return &set.Source }, doc.SourceKind),
		tool.NameRun:    t.runChoices(),
		tool.NameSupply: t.supplyChoices(),
	}
	t.choices[tool.NameRow] = t.seriesChoices()
	t.choices[tool.NameArc] = t.choices[tool.NameRow]
	t.choices[tool.NameArea], t.choices[tool.NameLine] = t.areaChoices(), t.lineChoices()
	t.choices[tool.NameMark] = t.markChoices()
	t.lean.init(t)
	t.scroll = container.NewVScroll(container.NewPadded(t.lean.column))
	t.box = container.NewStack(panel.NewBackdrop(theme.ColorNameHeaderBackground), container.New(&t.lean, t.scroll))
	t.arrange()
	t.show(tool.NameSelect)
	return t
}

// setFrame follows the stock book.
func (t *tray) setFrame(f *layout.Frame) {
	t.legend.setFrame(f)
	changed := f.Stock != t.frame.Stock
	t.frame = f
	if changed {
		t.refresh()
	}
}

// refresh reads the defaults again.
func (t *tray) refresh() {
	for _, c := range t.choices {
		for _, r := range c.rows {
			r()
		}
	}
}

// show marks the tool in hand and shows its choices.
func (t *tray) show(name string) {
	for n, b := range t.buttons {
		b.setOn(n == name)
	}
	t.below.Objects = nil
	t.lean.offer(t.choices[name] != nil)
	if c := t.choices[name]; c != nil {
		t.below.Objects = []fyne.CanvasObject{c.box}
	}
	t.refresh()
	t.below.Refresh()
	t.reveal()
}

// reveal scrolls a low tray so that the choices of the tool in hand are seen.
func (t *tray) reveal() {
	if len(t.below.Objects) == 0 {
		return
	}
	bottom := t.below.Position().Y + t.below.MinSize().Height + theme.Padding()
	if hidden := bottom - t.scroll.Size().Height; hidden > t.scroll.Offset.Y {
		t.scroll.ScrollToOffset(fyne.NewPos(0, hidden))
	}
}

// item is one thing that can be chosen.
type item struct{ key, name string }

// items turns stock to choose from into rows of a list.
func items(list []doc.Choice) (out []item) {
	for _, c := range list {
		out = append(out, item{c.Key, c.Name})
	}
	return out
}

func cableNames(s *doc.Stock) []item {
	return items(s.CableChoices(func(c *network.Cable) bool { return c.Mains }))
}

func lowCableNames(s *doc.Stock) []item {
	return append([]item{{"", "The same cable"}}, items(s.Choices(doc.RunKind))...)
}

func (t *tray) stockChoice(name string, at func() *string, kind doc.Kind) *choices {
	c := &choices{box: container.NewVBox()}
	t.addPick(c, name, func() []item { return items(t.frame.Stock.Choices(kind)) }, func() string { return *at() }, func(key string) { *at() = key })
	return c
}

// addPick adds a caption with a list to choose from. The hook is off while the
// list is filled.
func (t *tray) addPick(c *choices, name string, list func() []item, read func() string, write func(string)) {
	pick := panel.NewPick()
	pick.OnFocus = t.bring
	whole := small("") // the name in full when it is too long for the tray
	whole.Wrapping = fyne.TextWrapWord
	below := panel.Kept(whole)
	c.box.Add(small(name))
	c.box.Add(pick.Object())
	c.box.Add(below)
	c.rows = append(c.rows, func() {
		pick.OnChanged = nil
		from, at := list(), -1
		var names []string
		for i, it := range from {
			names = append(names, it.name)
			if it.key == read() {
				at = i
			}
		}
		pick.SetOptions(names)
		if at >= 0 {
			pick.SetSelectedIndex(at)
		} else {
			pick.ClearSelected()
		}
		whole.SetText(pick.Selected)
		if fyne.MeasureText(pick.Selected, theme.Size(theme.SizeNameText), fyne.TextStyle{}).Width > nameWidth {
			below.Show()
		} else {
			below.Hide()
		}
		pick.OnChanged = func(string) {
			if i := pick.SelectedIndex(); i >= 0 && i < len(from) {
				write(from[i].key)
				t.refresh()
				if t.chosen != nil {
					t.chosen(pick.Pointed())
				}
			}
		}
	})
}

func (t *tray) runChoices() *choices {
	c := &choices{box: container.NewVBox()}
	set := t.set
	t.addPick(c, "Cable at mains", func() []item { return cableNames(t.frame.Stock) },
		func() string { return set.Cable }, func(k string) { set.Cable = k })
	t.addPick(c, "Cable after a source", func() []item { return lowCableNames(t.frame.Stock) },
		func() string { return set.LowCable }, func(k string) { set.LowCable = k })
	t.addPick(c, "Carried", supportItems, func() string { return panel.SupportName(set.Support) },
		func(name string) { set.Support, _ = panel.SupportOf(name) })
	deep := func() bool { return set.Support == network.Buried || set.Support == network.InDuct }
	t.addLength(c, func() string {
		if deep() {
			return "Depth"
		}
		return "Height"
	}, func() *geom.Length {
		if deep() {
			return &set.Depth
		}
		return &set.Height
	})
	return c
}

func supportItems() (out []item) {
	for _, name := range panel.SupportNames() {
		out = append(out, item{name, name})
	}
	return out
}

// addLength adds a field for a length of the defaults.
func (t *tray) addLength(c *choices, name func() string, at func() *geom.Length) {
	caption := small("")
	field := panel.NewField("", func(text string) error {
		m, err := q.ParseMetre(text)
		if err == nil {
			*at() = geom.Metres(float64(m))
			t.refresh()
		}
		return err
	})
	field.SetUnit("m")
	c.box.Add(caption)
	c.box.Add(field.Object())
	c.rows = append(c.rows, func() {
		caption.SetText(name())
		field.Reset(panel.LengthText(*at()))
	})
}

func (t *tray) supplyChoices() *choices {
	c := &choices{box: container.NewVBox()}
	p := &t.set.Supply
	t.addPick(c, "Takes power from", func() []item {
		return []item{{"spur", "A fused spur"}, {"own", "Its own way"}}
	}, func() string {
		if p.Spur {
			return "spur"
		}
		return "own"
	}, func(k string) {
		if p.Spur = k == "spur"; p.Spur {
			p.Fuse = tool.NewDefaults().Supply.Fuse
		} else {
			p.Fuse = ""
		}
	})
	t.addPick(c, "Earthing", func() (out []item) {
		for _, e := range earthings {
			out = append(out, item{e.String(), earthingName(e)})
		}
		return out
	}, func() string { return p.Earthing.String() }, func(k string) {
		for _, e := range earthings {
			if e.String() == k {
				p.Earthing = e
			}
		}
	})
	note := small("The survey's other figures go into Properties once it stands on the plan.")
	note.Wrapping = fyne.TextWrapWord
	c.box.Add(note)
	return c
}

func small(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.SizeName = theme.SizeNameCaptionText
	return l
}

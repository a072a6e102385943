package panel

import (
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"duskwire/layout"
	"duskwire/layout/doc"
)

// Properties shows what is selected and lets it be changed. With nothing
// selected it shows the scheme.
type Properties struct {
	// OnOpen is called when someone wants the properties of another entity, such
	// as the zone of a lamp; without it the panel shows it by itself.
	OnOpen func(doc.ID)
	// OnPicture gets the buttons of the picture under the plan.
	OnPicture func(PictureAct)
	// OnLight is called to look at the light of the fitting that is shown.
	OnLight func()

	on      subject
	title   *widget.Label
	many    *widget.Label
	body    *fyne.Container
	scroll  *container.Scroll
	forms   map[doc.Kind]*form
	make    map[doc.Kind]func(*subject) *form
	several *form // what several things have in common
	now     *form // the form shown
	picked  []doc.ID
	marked  *widget.Label // caption of what a finding asks for
}

// NewProperties returns the panel, showing the desk's frame.
func NewProperties(desk Desk) *Properties {
	p := &Properties{
		on: subject{desk: desk, frame: desk.Frame()}, title: heading(""), many: quiet(""),
		forms: map[doc.Kind]*form{},
		make: map[doc.Kind]func(*subject) *form{
			doc.NoKind: schemeForm, doc.SupplyKind: supplyForm, doc.BoxKind: boxForm, doc.LampKind: lampForm,
			doc.GearKind: gearForm, doc.SourceKind: sourceForm, doc.RunKind: runForm,
			doc.ZoneKind: zoneForm, doc.AreaKind: areaForm, doc.LineKind: lineForm, doc.MarkKind: markForm,
			doc.DimensionKind: dimensionForm,
		},
	}
	p.title.Wrapping = fyne.TextWrapWord // people give long names
	p.body = container.NewVBox()
	p.scroll = container.NewVScroll(container.New(inset{}, p.body))
	p.on.wheel = p.scroll.Scrolled
	p.on.show = p.open
	p.on.seen = func(o fyne.CanvasObject) { bring(p.scroll, o) }
	p.on.picture = func(a PictureAct) {
		if p.OnPicture != nil {
			p.OnPicture(a)
		}
	}
	p.on.light = func() {
		if p.OnLight != nil {
			p.OnLight()
		}
	}
	p.choose()
	return p
}

// Object returns the panel for a container.
func (p *Properties) Object() fyne.CanvasObject { return p.scroll }

// SetTips lets figures show their working.
func (p *Properties) SetTips(t *Tips) { p.on.tips = t }

// Take says that there is another frame, which SetFrame is to show a little later:
// what is selected and entered meanwhile is about that one.
func (p *Properties) Take(f *layout.Frame) { p.on.frame = f }

// SetFrame shows another frame; what is being typed stays.
func (p *Properties) SetFrame(f *layout.Frame) {
	p.on.frame = f
	if !p.stillThere() {
		p.choose()
		return
	}
	p.retitle()
	p.now.show()
}

// SetSelection shows other entities; what was typed for the old ones is
// committed first.
func (p *Properties) SetSelection(ids []doc.ID) {
	if sameIDs(ids, p.picked) {
		return
	}
	p.Flush()
	p.picked = append(p.picked[:0:0], ids...)
	p.choose()
	p.scroll.ScrollToTop()
}

// open shows the properties of another entity.
func (p *Properties) open(id doc.ID) {
	if p.OnOpen != nil {
		p.OnOpen(id)
		return
	}
	p.SetSelection([]doc.ID{id})
}

// Flush commits what is being typed, before a file is saved for instance.
func (p *Properties) Flush() {
	if p.now != nil && p.stillThere() {
		p.now.flush()
	}
}

// there returns what is selected and in the frame.
func (p *Properties) there() (out []doc.ID) {
	for _, id := range p.picked {
		if doc.KindOf(p.on.frame.Scheme, id) != doc.NoKind {
			out = append(out, id)
		}
	}
	return out
}

// stillThere reports whether what is shown is in the frame; of several things
// whether they are still the same ones.
func (p *Properties) stillThere() bool {
	if len(p.on.ids) > 0 {
		return sameIDs(p.there(), p.on.ids)
	}
	if p.on.id == "" {
		return true
	}
	return doc.KindOf(p.on.frame.Scheme, p.on.id) != doc.NoKind
}

// choose picks the form for the selection and fills it in.
func (p *Properties) choose() {
	p.unmark()
	p.on.id, p.on.ids = "", nil
	switch there := p.there(); len(there) {
	case 0, 1:
		if len(there) == 1 {
			p.on.id = there[0]
		}
		p.now = p.formOf(doc.KindOf(p.on.frame.Scheme, p.on.id))
		p.body.Objects = []fyne.CanvasObject{p.title, p.now.box}
	default:
		if p.several == nil {
			p.several = manyForm(&p.on)
		}
		p.on.ids, p.now = there, p.several
		p.body.Objects = []fyne.CanvasObject{p.title, p.now.box, p.many}
	}
	p.now.reset()
	p.retitle()
	p.body.Refresh()
}

func (p *Properties) formOf(kind doc.Kind) *form {
	if f := p.forms[kind]; f != nil {
		return f
	}
	f := p.make[kind](&p.on)
	if kind != doc.NoKind {
		lockRow(f)
	}
	p.forms[kind] = f
	return f
}

func (p *Properties) retitle() {
	title, many := "Nothing selected", ""
	switch {
	case p.on.id != "":
		e, kind := doc.Find(p.on.frame.Scheme, p.on.id)
		title = capital(kind.String()) + " " + e.Label()
	case len(p.on.ids) > 0:
		title = strconv.Itoa(len(p.on.ids)) + " things selected"
		many = p.on.mixed() + "What is set here is set for all of them, and undone as one step. Drag one to move them all, press Delete to take them out, or click one to see its properties. The Arrange menu lines them up, spaces, mirrors and turns them."
	}
	if p.title.Text != title {
		p.title.SetText(title)
	}
	if p.many.Text != many {
		p.many.SetText(many)
	}
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

func sameIDs(a, b []doc.ID) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

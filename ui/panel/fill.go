package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
)

// rowsATurn is how many rows that cannot be seen are written in one turn of the
// loop.
const rowsATurn = 6

// fill writes the rows from p.written on: at once as far down as can be seen and
// to the open one, the rest in later turns. A row that is not written yet says
// what it did.
func (p *Findings) fill(moved bool) {
	bottom, changed := p.scroll.Offset.Y+p.scroll.Size().Height, 0
	for ; p.written < p.listed; p.written++ {
		r, f := p.rows[p.written], &p.shown[p.written]
		open, stamp := keyOf(f) == p.open, uint64(0)
		if open {
			stamp = p.cures.stamp()
		}
		if p.Later != nil && changed >= rowsATurn && p.written > p.openAt && r.Position().Y+p.list.Position().Y > bottom {
			if !p.waits {
				p.waits = true
				p.Later(func() {
					p.waits = false
					p.fill(false)
				})
			}
			break
		}
		news := r.set(f, open, stamp)
		if !r.Visible() {
			r.Show()
			news = true
		}
		if news {
			changed++
		}
	}
	if moved || changed > 0 {
		stand(p.list, p.scroll)
	}
}

// stand lays out a list whose rows have changed, and what it is scrolled in. To
// refresh either would write every row anew.
func stand(list *fyne.Container, in *container.Scroll) {
	list.Layout.Layout(list.Objects, list.Size())
	canvas.Refresh(list)
	at := in.Offset
	in.Offset.Y-- // so that it has somewhere to go, which brings its bars along
	in.ScrollToOffset(at)
	if c, ok := in.Content.(*fyne.Container); ok {
		relay(c)
	}
}

// relay lays out a container and the containers in it, and writes nothing.
func relay(c *fyne.Container) {
	if c.Layout != nil {
		c.Layout.Layout(c.Objects, c.Size())
	}
	for _, o := range c.Objects {
		if inner, ok := o.(*fyne.Container); ok {
			relay(inner)
		}
	}
}

package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	lay "duskwire/layout"
)

// answer is the ways out of the open finding, tried on the scheme of one frame.
// On the next frame they are asked for again: what they would do belongs to the
// scheme they were tried on.
type answer struct {
	key  findingKey
	seq  uint64 // of the frame; 0 when nothing was asked
	done bool
	list []lay.Cure
}

// stamp changes whenever the answer does.
func (a *answer) stamp() uint64 {
	n := 2 * a.seq
	if a.done {
		n++
	}
	return n
}

// askCures asks for the ways out of the open finding, once a frame and not
// while something is being dragged.
func (p *Findings) askCures() {
	f := p.desk.Frame()
	fd := p.openFinding()
	if fd == nil || p.OnCures == nil || f.Preview || fd.Overruled != nil || !lay.Curable(fd) {
		p.cures = answer{}
		return
	}
	key := keyOf(fd)
	if p.cures.key == key && p.cures.seq == f.Seq {
		return
	}
	p.cures = answer{key: key, seq: f.Seq}
	p.OnCures(*fd, func(list []lay.Cure) {
		if p.cures.key != key || p.cures.seq != f.Seq {
			return // something else is open, or the scheme has changed
		}
		p.cures.list, p.cures.done = list, true
		p.refill()
	})
}

func (p *Findings) openFinding() *finding.Finding {
	for i := range p.shown {
		if keyOf(&p.shown[i]) == p.open {
			return &p.shown[i]
		}
	}
	return nil
}

// waysOut shows the remedies of an open finding: those that were tried with
// what they would read, or what the rule itself advises. An overruled one has
// none: nothing was tried for it, and an estimate beside it would be another figure
// than the one that was read when it was decided.
func (p *Findings) waysOut(f *finding.Finding) []fyne.CanvasObject {
	if f.Overruled != nil {
		return nil
	}
	var out []fyne.CanvasObject
	mine := p.cures.seq != 0 && p.cures.key == keyOf(f)
	if mine && !p.cures.done {
		out = append(out, quiet("Working out what each way out would read…"))
	}
	var tried []lay.Cure
	if mine && p.cures.done {
		tried = p.cures.list
	}
	for i := range tried {
		out = append(out, p.cureLine(&tried[i]))
	}
	for _, r := range lay.Untried(f, tried) {
		out = append(out, p.remedyLine(r))
	}
	if why := lay.NoEdit(f.Code); why != "" {
		out = append(out, quiet("No change of the plan leads out of this: "+why))
	}
	return out
}

// cureLine shows one way out: what, what it would read, what cable it takes and
// what follows, and the button that does it.
func (p *Findings) cureLine(c *lay.Cure) fyne.CanvasObject {
	text := "→ " + capital(c.Text)
	if c.Figure != "" {
		text += ": " + c.Figure
	}
	head := widget.NewLabel(text)
	head.Wrapping = fyne.TextWrapWord
	more := capital(c.Cost())
	if !c.Holds {
		more = "Not enough. " + more
	}
	if c.Then != "" {
		more += ". It " + c.Then
	}
	box := container.New(tight{}, head, quiet(more))
	if c.Operation == nil {
		return box
	}
	seq, op := p.cures.seq, c.Operation
	b := p.button("Apply", func() {
		if p.desk.Frame().Seq != seq {
			return // tried on another scheme
		}
		if err := p.desk.Commit(op); err != nil && p.OnRefused != nil {
			p.OnRefused(err)
		}
	})
	return container.NewBorder(nil, nil, nil, container.NewVBox(b, layout.NewSpacer()), box)
}

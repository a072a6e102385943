package panel

import (
	"strconv"

	"fyne.io/fyne/v2"

	"duskwire/calc/finding"
)

// fold decides whether the notes stand under a fold of their own and returns
// how many findings are to be listed. Notes alone, or one of them, need none.
func (p *Findings) fold() int {
	p.worse = len(p.shown)
	for i := range p.shown {
		if p.shown[i].Level <= finding.Note {
			p.worse = i
			break
		}
	}
	if !p.folds() {
		p.worse = len(p.shown)
		p.noted.Hide()
		return len(p.shown)
	}
	f := p.openFinding()
	open := p.opened || f != nil && f.Level <= finding.Note
	showFold(p.notes, strconv.Itoa(len(p.shown)-p.worse)+" Notes", open)
	p.noted.Show()
	if open {
		return len(p.shown)
	}
	return p.worse
}

// folds reports whether there is something worse above more than one note.
func (p *Findings) folds() bool { return p.worse > 0 && len(p.shown)-p.worse > 1 }

// foldNotes shows the notes or puts them away.
func (p *Findings) foldNotes() {
	f := p.openFinding()
	note := f != nil && f.Level <= finding.Note
	p.opened = !(p.opened || note)
	if note {
		p.open = findingKey{}
	}
	p.refill()
}

// stack puts the rows and the fold into the list and reports whether anything
// has moved.
func (p *Findings) stack() bool {
	at := min(p.worse, len(p.rows))
	if o := p.list.Objects; len(o) == len(p.rows)+1 && o[at] == p.noted {
		return false
	}
	p.list.Objects = p.list.Objects[:0:0]
	for i, r := range p.rows {
		if i == at {
			p.list.Objects = append(p.list.Objects, p.noted)
		}
		p.list.Objects = append(p.list.Objects, fyne.CanvasObject(r))
	}
	if at == len(p.rows) {
		p.list.Objects = append(p.list.Objects, p.noted)
	}
	return true
}

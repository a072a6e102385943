package layout

import (
	"fmt"
	"math"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// wattSlack is how far the watts of a photometric file and of the stock book may be
// apart (common practice, no source).
const wattSlack = 0.1

// lightNotes are LIT-02 about figures of the stock book that do not agree, and LIT-03
// about photometric files that are used and yet ask for a word.
func lightNotes(f *Frame) (out []finding.Finding) {
	for i := range f.Stock.Lamps {
		item := &f.Stock.Lamps[i]
		l := f.Lights.Of(item.Key)
		sheet := item.Makes > 0 && !l.Good()
		u, filed := filedUse(l, item)
		filed = filed && l.Good()
		if !sheet && !filed {
			continue
		}
		lamps := lampsOf(f.Scheme, item.Key)
		if len(lamps) == 0 {
			continue
		}
		if sheet {
			out = append(out, check.LightSheet(check.SheetUse{Fitting: item.Name, Lamps: lamps, Flux: item.Flux, Peak: item.Peak, Beam: beamText(item), Gives: item.Makes}))
		}
		if u.Lamps = lamps; filed {
			out = append(out, check.LightFiled(u))
		}
	}
	return out
}

// filedUse returns what is to be said of the photometric file of a fitting.
func filedUse(l *Light, item *doc.LampStock) (u check.FiledUse, any bool) {
	if l == nil || l.Table == nil || l.Err != nil {
		return u, false
	}
	u = check.FiledUse{Fitting: item.Name, File: l.Of.Name()}
	if w := l.Table.Watts; w.Known && w.Value > 0 && item.Load.Power > 0 && math.Abs(float64(w.Value/item.Load.Power)-1) > wattSlack {
		u.Watts, u.Sure = w.Value, item.Load.Power
	}
	if l.TiltErr != nil {
		u.Tilt = l.TiltErr.Error()
	}
	return u, u.Watts > 0 || u.Tilt != ""
}

// lampsOf returns the lamps of a fitting in the order of the plan.
func lampsOf(s *doc.Scheme, fitting string) (out []finding.Subject) {
	for _, l := range s.Lamps.All() {
		if l.Stock == fitting {
			out = append(out, finding.Subject{ID: string(l.ID), Label: l.Tag})
		}
	}
	return out
}

// beamText writes the beam of the stock book.
func beamText(item *doc.LampStock) string {
	s := fmt.Sprintf("%g°", item.Beam)
	if item.Across > 0 {
		s += fmt.Sprintf(" by %g°", item.Across)
	}
	return s
}

// made returns the flux that peak and beam of a fitting make where that is not the
// one that the stock book says; 0 otherwise.
func made(item *doc.LampStock) q.Lumen {
	m := item.Model()
	if m.Peak == 0 || m.Flux == 0 {
		return 0
	}
	if d, agree, err := m.Table(); err == nil && !agree {
		return d.Flux()
	}
	return 0
}

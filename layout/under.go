package layout

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/picture"
)

// Under is what became of the picture under the plan when its file was read.
// It is immutable.
type Under struct {
	File    string           // as the scheme names it
	Picture *picture.Picture // nil when it could not be read
	Err     error            // why, in words; nil when it was
}

// Missing reports whether there is no such file.
func (u *Under) Missing() bool { return errors.Is(u.Err, fs.ErrNotExist) }

// ReadUnder reads the picture that a scheme lies over, from a worker. path is
// the file of the scheme, for a picture that is named from its folder. It
// returns nil for a scheme without one.
func ReadUnder(ctx context.Context, cache *picture.Cache, path string, s *doc.Scheme) *Under {
	name := s.Plan.Underlay.File
	if name == "" {
		return nil
	}
	full := filepath.FromSlash(name)
	if !filepath.IsAbs(full) {
		full = filepath.Join(filepath.Dir(path), full)
	}
	p, err := cache.Read(ctx, full)
	return &Under{File: name, Picture: p, Err: err}
}

// SetUnder tells the desk what became of the picture under the plan; nil says
// that it was not read yet.
func (d *Desk) SetUnder(u *Under) {
	if d.under != u {
		d.under = u
		d.publish()
	}
}

// underOf returns what is known of the picture of a scheme, nil when that is
// of another file.
func (d *Desk) underOf(s *doc.Scheme) *Under {
	if u := d.under; u != nil && s.Plan.Underlay.Present() && u.File == s.Plan.Underlay.File {
		return u
	}
	return nil
}

// underFindings are CIR-10 about its scale and PIC-01 about its file.
func underFindings(p doc.Plan, u *Under) []finding.Finding {
	if !p.Underlay.Present() {
		return nil
	}
	lay := p.Underlay
	use := check.ScaleUse{Name: lay.Name(), Scaled: lay.Known.Given(), ByHand: p.Checked, Checked: lay.Check.Given()}
	if use.Checked {
		use.Drawn, use.True = q.Metre(lay.Measured(lay.Check).Metres()), q.Metre(lay.Check.Length.Metres())
	}
	out := check.Scale(use)
	switch {
	case u == nil: // not read yet
	case u.Err != nil:
		out = append(out, check.PictureGone(lay.Name(), u.Err.Error(), false))
	case u.Picture.Sum != lay.Sum:
		out = append(out, check.PictureGone(lay.Name(),
			"its checksum begins "+short(u.Picture.Sum)+", in the scheme it begins "+short(lay.Sum), true))
	}
	return out
}

// short returns as much of a checksum as people compare.
func short(sum string) string { return sum[:min(8, len(sum))] }

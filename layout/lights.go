package layout

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"sync"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/light"
	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// Light is what became of the photometric file of a fitting. It is immutable.
type Light struct {
	Of    doc.LightFile // as the scheme names it
	Sum   string        // of the file that was found, "" without one
	Table *light.Photometry
	// Dist and Opening are those of Table, mirrored and turned.
	Dist    *light.Distribution
	Opening light.Opening
	Edge    *light.Edge // of Dist
	Upward  bool        // more of it goes up than down as it was measured
	Err     error       // why there is no Table; nil otherwise
	TiltErr error       // why the file that TILT= names was not taken in; nil otherwise
}

// Changed reports whether the file is not the one that the scheme took in.
func (l *Light) Changed() bool { return l.Sum != "" && l.Sum != l.Of.Sum }

// Good reports whether the light of the fitting comes from the file.
func (l *Light) Good() bool { return l != nil && l.Dist != nil && l.Err == nil && !l.Changed() }

// Lights are the photometric files of a scheme as they were read. They are
// immutable; nil has none.
type Lights struct{ list []*Light }

// Of returns the light of a fitting, nil when no file was read for it.
func (l *Lights) Of(lamp string) *Light {
	if l == nil {
		return nil
	}
	i := slices.IndexFunc(l.list, func(one *Light) bool { return one.Of.Lamp == lamp })
	if i < 0 {
		return nil
	}
	return l.list[i]
}

// Covers reports whether every photometric file of the scheme was looked at.
func (l *Lights) Covers(s *doc.Scheme) bool {
	for _, want := range s.Lights {
		if got := l.Of(want.Lamp); got == nil || got.Of != want {
			return false
		}
	}
	return true
}

// of returns the lights that the scheme still asks for; l itself when it asks
// for all of them, nil for none.
func (l *Lights) of(s *doc.Scheme) *Lights {
	if l == nil || len(s.Lights) == 0 {
		return nil
	}
	if len(l.list) == len(s.Lights) && l.Covers(s) {
		return l
	}
	n := &Lights{}
	for _, want := range s.Lights {
		if got := l.Of(want.Lamp); got != nil && got.Of == want {
			n.list = append(n.list, got)
		}
	}
	return n
}

// ReadLights reads the photometric files of a scheme, from a worker. path is the
// file of the scheme, for what is named from its folder. A file that is missing,
// broken or changed is no error but said of its Light; err is that of ctx alone.
// It returns nil for a scheme without any.
func ReadLights(ctx context.Context, cache *LightCache, path string, s *doc.Scheme) (*Lights, error) {
	if len(s.Lights) == 0 {
		return nil, nil
	}
	out := &Lights{}
	room := mostIntensities
	for _, of := range s.Lights {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		l := cache.Read(path, of)
		if l.Dist != nil {
			if room -= sizeOf(l.Dist); room < 0 {
				l = &Light{Of: of, Sum: l.Sum, Err: fmt.Errorf("%s: found more than %d million intensities in all files together, expected at most that", l.Of.Name(), mostIntensities/1_000_000)}
			}
		}
		out.list = append(out.list, l)
	}
	return out, nil
}

// SetLights tells the desk what became of the photometric files; nil says that
// they were not read yet.
func (d *Desk) SetLights(l *Lights) {
	if d.lights != l {
		d.lights = l
		d.publish()
	}
}

const (
	// mostIntensities is how many figures the tables of a scheme and those of a
	// cache may have; 8 bytes each, twice that while one is turned.
	mostIntensities = 8_000_000
	mostTablesHeld  = 200
)

func sizeOf(d *light.Distribution) int {
	c, gamma := d.Angles()
	return len(c) * len(gamma)
}

// LightCache remembers tables by the checksum of their file and by how they were
// mirrored and turned, so that a table keeps its place in memory as long as its
// file stays. It may be used from several goroutines; the zero cache is empty.
type LightCache struct {
	mu   sync.Mutex
	list []*heldLight // the last used first
}

// heldLight is one table with one mirroring and turn.
type heldLight struct {
	sum     string
	tilt    string // checksum of the file that TILT= names, "" for none
	ending  string
	set     int
	mirror  bool
	turn    float64
	table   *light.Photometry
	dist    *light.Distribution
	edge    *light.Edge
	opening light.Opening
	upward  bool
	err     error
	tiltErr error // what the file that TILT= names holds cannot be used
}

// sameTable reports whether two are of one table, laid otherwise perhaps.
func (h *heldLight) sameTable(k *heldLight) bool {
	return h.sum == k.sum && h.tilt == k.tilt && h.ending == k.ending && h.set == k.set
}

// Read reads one file, but works out only what is not held. The file itself is
// always read, since it may have changed.
func (c *LightCache) Read(path string, of doc.LightFile) *Light {
	full := filepath.FromSlash(of.File)
	if !filepath.IsAbs(full) {
		full = filepath.Join(filepath.Dir(path), full)
	}
	data, err := file.ReadLight(full)
	if err != nil {
		return &Light{Of: of, Err: err}
	}
	key := heldLight{sum: sumOf(data), ending: filepath.Ext(full), set: of.Set, mirror: of.Mirror, turn: of.Turn}
	var tilt []byte
	var tiltErr error
	if name := light.TiltNamed(data); name != "" {
		if tilt, tiltErr = file.ReadTilt(full, name); tiltErr == nil {
			key.tilt = sumOf(tilt)
		}
	}
	h := c.held(data, tilt, key)
	l := &Light{Of: of, Sum: h.sum, Table: h.table, Dist: h.dist, Edge: h.edge, Opening: h.opening, Upward: h.upward}
	switch {
	case h.err != nil:
		l.Err = fmt.Errorf("%s: %w", of.Name(), h.err)
	case tiltErr != nil:
		l.TiltErr = tiltErr
	case h.tiltErr != nil:
		l.TiltErr = fmt.Errorf("%s: %w", doc.Short(h.table.TiltFile), h.tiltErr)
	}
	return l
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// held returns what the cache has of a key, made now if it has nothing.
func (c *LightCache) held(data, tilt []byte, key heldLight) *heldLight {
	c.mu.Lock()
	defer c.mu.Unlock()
	var same *heldLight // the same file, turned otherwise
	for i, h := range c.list {
		if !h.sameTable(&key) {
			continue
		}
		if h.mirror == key.mirror && h.turn == key.turn {
			copy(c.list[1:i+1], c.list[:i])
			c.list[0] = h
			return h
		}
		same = h
	}
	if same != nil {
		key.table, key.err, key.tiltErr = same.table, same.err, same.tiltErr
	} else {
		key.table, key.err = light.Read(data, light.How{Ending: key.ending, Set: key.set})
		if key.err == nil && key.table.TiltFile != "" && key.tilt != "" {
			with, err := key.table.WithTilt(tilt)
			if key.tiltErr = err; err == nil {
				key.table = with
			}
		}
	}
	if key.err == nil {
		key.dist, key.opening = placed(key.table, key.mirror, key.turn)
		key.upward, key.edge = key.dist.DownwardShare() < 0.5, key.dist.Edge()
	}
	h := &key
	c.list = append([]*heldLight{h}, c.list...)
	size := 0
	for i, h := range c.list {
		if h.dist != nil {
			size += sizeOf(h.dist)
		}
		if i > 0 && (i >= mostTablesHeld || size > mostIntensities) {
			c.list = c.list[:i:i]
			break
		}
	}
	return h
}

// placed mirrors a table and then turns it. The box of the opening turns with it
// to the nearest quarter.
func placed(p *light.Photometry, mirror bool, turn float64) (*light.Distribution, light.Opening) {
	d, o := p.Dist, p.Opening
	if mirror {
		d = d.Mirrored()
	}
	if turn != 0 {
		d = d.Turned(turn)
	}
	if q := quarters(turn); q%2 == 1 {
		o.X, o.Y = o.Y, o.X
	}
	return d, o
}

// quarters returns the nearest number of quarter turns, 0 to 3.
func quarters(turn float64) int {
	n := int(turn/90+720.5) % 4 // turns lie within ±720°
	return n
}

// errNoLight is told of a file that was not looked at.
var errNoLight = errors.New("not read yet")

// lightFindings are LIT-01 about the photometric files that lamps ask for.
func lightFindings(f *Frame) []finding.Finding {
	var out []finding.Finding
	for _, of := range f.Scheme.Lights {
		l := f.Lights.Of(of.Lamp)
		if l == nil || l.Good() { // not read yet, or nothing to say
			continue
		}
		item, _ := f.Stock.Lamp(of.Lamp)
		u := check.LightUse{Fitting: item.Name, Changed: l.Err == nil && l.Changed(), Dark: !item.Lit()}
		for _, lamp := range f.Scheme.Lamps.All() {
			if lamp.Stock == of.Lamp {
				u.Lamps = append(u.Lamps, finding.Subject{ID: string(lamp.ID), Label: lamp.Tag})
			}
		}
		if len(u.Lamps) == 0 {
			continue
		}
		u.Found = l.Found().Error()
		out = append(out, check.LightGone(u))
	}
	return out
}

// Found says in one line why the file of the fitting is not used: what was found
// and what was expected; nil when it is.
func (l *Light) Found() error {
	switch {
	case l.Err != nil:
		return l.Err
	case l.Changed():
		return fmt.Errorf("%s: found a file whose checksum begins %s, expected %s as taken in", l.Of.Name(), short(l.Sum), short(l.Of.Sum))
	case l.Dist == nil:
		return errNoLight
	}
	return nil
}

// Package packs makes the papers that come out of the drawing: the client pack,
// the site pack and the test pack. A pack is an ordered list of pages, each a
// display list in millimetres, made from a published frame. Nothing is computed
// twice: figures come from the frame, and what a pack adds are counts of what
// is drawn.
package packs

import (
	"context"
	"fmt"
	"io"
	"time"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/output"
	"duskwire/layout/scene"
)

// Input is what packs are made from.
type Input struct {
	Frame *layout.Frame
	Rules *check.Rules
	// Date is printed as it stands; "" leaves a blank to be filled in. The packs
	// never ask the clock, so that the same scheme gives the same bytes.
	Date string
	// Paper of the drawings is "A4" or "A3"; "" picks the smallest that shows
	// them well. Lists are on A4; the night pages count as drawings.
	Paper string
	// Other is a second scheme that the client pack puts beside this one; nil for
	// none.
	Other *Input
}

// Pack is one set of papers.
type Pack struct {
	Key   string // "site"; file names start with it
	Title string // "Site pack"
	Pages []Page
	of    string // title of the scheme
}

// Page is one sheet of a pack.
type Page struct {
	Title string
	List  *scene.List
}

// PDF writes the pack as one file.
func (p *Pack) PDF(w io.Writer) error {
	lists := make([]*scene.List, len(p.Pages))
	for i := range p.Pages {
		lists[i] = p.Pages[i].List
	}
	if err := output.WritePDF(w, lists, p.Title+": "+p.of); err != nil {
		return fmt.Errorf("%s: %w", p.Key, err)
	}
	return nil
}

// Keys are the packs there are, in the order in which they are handed out.
var Keys = []string{"client", "site", "test"}

// Report is told how far the work is, 0 to 1, and what is made.
type Report func(done float64, step string)

// Make returns the packs with the keys given, all of them for none. It stops
// between two parts when the context ends. report may be nil.
func Make(ctx context.Context, in Input, report Report, keys ...string) ([]*Pack, error) {
	if in.Date != "" {
		if _, err := time.Parse(time.DateOnly, in.Date); err != nil {
			return nil, fmt.Errorf("date: found %q, expected year-month-day such as 2026-11-25", in.Date)
		}
	}
	if len(keys) == 0 {
		keys = Keys
	}
	b := newBook(in)
	var out []*Pack
	for i, key := range keys {
		make, ok := makers[key]
		if !ok {
			return nil, fmt.Errorf("pack: found %q, expected client, site or test", key)
		}
		d := &draft{book: b, ctx: ctx, report: func(step string) {
			if report != nil {
				report(float64(i)/float64(len(keys)), step)
			}
		}}
		title := make(d)
		p, err := d.finish(key, title)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// makers put the parts of each pack together and return its title.
var makers = map[string]func(*draft) string{"client": client, "site": site, "test": test}

// part is some pages of a pack: lists that lack only their frame, or a drawing
// that makes its own and is always one page.
type part struct {
	title string
	flow  []*scene.List
	draw  func(s output.Sheet) (*scene.List, error)
	cover func(*flow) // of the list of contents, which is filled in last
}

// draft is a pack in the making.
type draft struct {
	*book
	ctx    context.Context
	report func(step string)
	parts  []part
}

// list adds a part that flows over as many pages as it needs.
func (d *draft) list(title string, landscape bool, fill func(*flow)) {
	d.listOn(title, paper{across: landscape}, fill)
}

// listOn is list on any paper.
func (d *draft) listOn(title string, on paper, fill func(*flow)) {
	if d.ctx.Err() != nil {
		return
	}
	d.report(title)
	f := newSheet(d.book, on)
	f.title(title)
	fill(f)
	d.parts = append(d.parts, part{title: title, flow: f.pages})
}

// drawing adds a page that is drawn to scale.
func (d *draft) drawing(title string, draw func(s output.Sheet) (*scene.List, error)) {
	d.parts = append(d.parts, part{title: title, draw: draw})
}

// finish numbers the pages and puts the frames around them.
func (d *draft) finish(key, title string) (*Pack, error) {
	p := &Pack{Key: key, Title: title, of: d.scheme.Title}
	count := 0
	for i := range d.parts {
		if d.parts[i].cover != nil {
			f := newFlow(d.book, false)
			f.title(title)
			d.parts[i].cover(f)
			d.parts[i].flow = f.pages
		}
		count += max(1, len(d.parts[i].flow))
	}
	contents := d.contents()
	n := 0
	for i := range d.parts {
		if err := d.ctx.Err(); err != nil {
			return nil, err
		}
		part := &d.parts[i]
		if part.draw != nil {
			n++
			d.report(part.title)
			l, err := part.draw(output.Sheet{Part: title + ": " + part.title, Number: n, Of: count,
				Date: d.Date, Rules: d.Rules.Name, Amendment: d.Rules.Amendment, Paper: d.Paper})
			if err != nil {
				return nil, fmt.Errorf("%s, %s: %w", key, part.title, err)
			}
			p.Pages = append(p.Pages, Page{part.title, l})
			continue
		}
		for _, l := range part.flow {
			n++
			d.frame(l, title+": "+part.title, n, count)
			p.Pages = append(p.Pages, Page{part.title, l})
		}
	}
	if len(contents) > 0 {
		d.fillContents(p.Pages[0].List, contents)
	}
	return p, d.ctx.Err()
}

package packs

import (
	"context"
	"image"
	"sync"

	"duskwire/layout/scene"
)

// Painter draws pages for the screen: the same list that PDF writes, so that
// what is seen is what is printed. It may be used from several goroutines, which
// then wait for each other; it keeps its letters from one page to the next.
type Painter struct {
	mu sync.Mutex
	r  *scene.Rasteriser
}

// Part draws the part of a page that lies in a rectangle of it in pixels, at k
// pixels a millimetre with (0, 0) in the page's upper left corner. Outside the
// page it is paper too. It returns the context's error when that has ended before
// the drawing begins.
func (p *Painter) Part(ctx context.Context, page *Page, k float64, part image.Rectangle) (*image.RGBA, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if p.r == nil {
		p.r = scene.NewRasteriser()
	}
	img := image.NewRGBA(image.Rect(0, 0, part.Dx(), part.Dy()))
	p.r.Draw(img, moved(page.List, -float64(part.Min.X)/k, -float64(part.Min.Y)/k), k)
	return img, nil
}

// moved returns a list with everything on it moved; the list itself stays.
func moved(l *scene.List, dx, dy float64) *scene.List {
	if dx == 0 && dy == 0 {
		return l
	}
	out := *l
	out.Items = make([]scene.Item, len(l.Items))
	n := 0
	for i := range l.Items {
		n += len(l.Items[i].Points)
	}
	all := make([]scene.XY, 0, n)
	for i := range l.Items {
		from := len(all)
		for _, p := range l.Items[i].Points {
			all = append(all, scene.XY{X: p.X + dx, Y: p.Y + dy})
		}
		out.Items[i] = l.Items[i]
		out.Items[i].Points = all[from:len(all):len(all)]
	}
	return &out
}

package ui

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2/test"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// BenchmarkPut is what the window waits for when a file of 1,000 lamps, worked
// out in a worker, comes onto the desk: panels, tray and plan take it up; the
// picture itself is drawn later, by the toolkit.
func BenchmarkPut(b *testing.B) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		b.Fatal(err)
	}
	s := doc.New("uk-18")
	var lamps []*doc.Lamp
	for i := range 1000 {
		id := doc.ID(fmt.Sprintf("L%d", i+1))
		lamps = append(lamps, &doc.Lamp{ID: id, Tag: string(id), Stock: "brick-3w", Place: doc.Place{At: geom.Pt(float64(i%40), float64(i/40))}})
	}
	s.Lamps = doc.NewSet(lamps...)
	desk := layout.NewDesk(stock, rules, doc.New("uk-18"), "")
	w := New(Config{App: test.NewTempApp(b), Desk: desk, Post: func(func()) {}})
	w.Fyne().Show()
	for b.Loop() {
		b.StopTimer()
		w.put(doc.New("uk-18"), "")
		p := desk.Preparer()(s, "")
		b.StartTimer()
		w.putPrepared(p)
	}
}

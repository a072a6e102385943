package board

import (
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// errand is a worker that a test sends when it likes.
type errand struct{ take func() (work, done func()) }

func (e *errand) ask(take func() (work, done func())) { e.take = take }

// begin has the work done and returns what hands its result over; nil when nobody
// asked, or there was nothing to do.
func (e *errand) begin() (done func()) {
	take := e.take
	if e.take = nil; take == nil {
		return nil
	}
	work, done := take()
	if work != nil {
		work()
	}
	return done
}

// TestLargeDiagramIsDrawnInAWorker: the last drawing stands until the next comes, a
// gesture is followed, and of what has changed meanwhile nothing is left out.
func TestLargeDiagramIsDrawnInAWorker(t *testing.T) {
	stock, rules, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	desk := layout.NewDesk(stock, rules, largeCircuit(260), "")
	test.NewTempApp(t)
	var e errand
	d := NewDiagram(DiagramConfig{Work: e.ask})
	w := test.NewTempWindow(t, d)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(600, 400))
	desk.Subscribe(d.SetFrame)
	d.SetFrame(desk.Frame())
	d.SetActive(true)
	first := d.Drawing()
	if first == nil || e.take != nil {
		t.Fatal("the first drawing is not there at once")
	}
	has := func(id doc.ID) bool { _, ok := d.Drawing().Symbol(id); return ok }
	gone := func(ids ...doc.ID) edit.Operation { return edit.Delete{IDs: ids} }
	if !has("l250") || !has("l260") {
		t.Fatal("lamps are missing")
	}
	if err := desk.Preview(gone("l260")); err != nil {
		t.Fatal(err)
	}
	if d.Drawing() != first {
		t.Error("the drawing did not stand")
	}
	done := e.begin()
	if done == nil {
		t.Fatal("a gesture is not followed")
	}
	if err := desk.Commit(gone("l250")); err != nil { // while the worker draws
		t.Fatal(err)
	}
	done()
	if has("l260") || !has("l250") {
		t.Error("the gesture was not shown")
	}
	if done = e.begin(); done == nil {
		t.Fatal("nobody draws what has changed meanwhile")
	}
	done()
	if !has("l260") || has("l250") {
		t.Error("the end of the gesture is not shown")
	}
	if e.take != nil {
		t.Error("drawn again for nothing")
	}
	// Another scheme while the worker draws: what it brings is dropped.
	desk.Undo()
	done = e.begin()
	d.Fresh()
	desk.Load(largeCircuit(5), "")
	now := d.Drawing()
	done()
	if d.Drawing() != now || has("l250") || !has("l5") {
		t.Error("the drawing of the scheme before came over the next one")
	}
}

// largeCircuit is a supply point with lamps in a chain.
func largeCircuit(lamps int) *doc.Scheme {
	s := doc.New("uk-18")
	s.Supplies = doc.NewSet(&doc.Supply{ID: "sp", Tag: "SP1", Place: doc.Place{At: geom.Pt(0, 0)}})
	var ls []*doc.Lamp
	var rs []*doc.Run
	from := doc.ID("sp")
	for i := range lamps {
		id := doc.ID("l" + strconv.Itoa(i+1))
		ls = append(ls, &doc.Lamp{ID: id, Tag: "L" + strconv.Itoa(i+1), Stock: "lamp", Place: doc.Place{At: geom.Pt(float64(i+1), 0)}})
		rs = append(rs, &doc.Run{ID: doc.ID("r" + strconv.Itoa(i+1)), Tag: "R" + strconv.Itoa(i+1), From: doc.End{On: from}, To: doc.End{On: id}, Legs: []doc.Leg{{}}})
		from = id
	}
	s.Lamps, s.Runs = doc.NewSet(ls...), doc.NewSet(rs...)
	return s
}

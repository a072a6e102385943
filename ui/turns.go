package ui

// turnsFrom is how many lamps and runs a plan has from which its panels follow an
// edit one after the other, each in a turn of its own, so that none of the turns
// takes long.
const turnsFrom = 250

// The turns of the panels, what is looked at most first.
const (
	turnFindings = iota
	turnProperties
	turnOthers
	turnCount
)

// panelTurns returns what is done in each turn.
func (w *Window) panelTurns() [turnCount]func() {
	return [turnCount]func(){
		turnFindings: func() {
			f := w.desk.Frame()
			w.findings.SetFrame(f)
			w.status.SetFrame(f)
		},
		turnProperties: func() { w.properties.SetFrame(w.desk.Frame()) },
		turnOthers: func() {
			f := w.desk.Frame()
			w.workings.SetFrame(f)
			w.lengths.SetFrame(f)
			w.measured.SetFrame(f)
			w.history.SetFrame(f)
		},
	}
}

// turns does things one after the other in turns of their own. What is asked for
// again before its turn came is done once, at its first place, so that nothing
// waits for ever.
type turns struct {
	later func(func()) // does something in a later turn of the loop; nil: nothing waits
	show  [turnCount]func()
	queue []int
	due   bool // a turn is on its way
}

// all does everything at once.
func (t *turns) all() {
	t.queue = nil
	for _, f := range t.show {
		f()
	}
}

// do has things done in later turns.
func (t *turns) do(list ...int) {
	for _, i := range list {
		if t.later == nil {
			t.show[i]()
			continue
		}
		waits := false
		for _, j := range t.queue {
			waits = waits || i == j
		}
		if !waits {
			t.queue = append(t.queue, i)
		}
	}
	t.ask()
}

func (t *turns) ask() {
	if len(t.queue) == 0 || t.due {
		return
	}
	t.due = true
	t.later(func() {
		t.due = false
		if len(t.queue) == 0 {
			return
		}
		i := t.queue[0]
		t.queue = t.queue[1:]
		t.ask()
		t.show[i]()
	})
}

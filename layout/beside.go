package layout

import (
	"runtime"
	"sync"
	"sync/atomic"

	"duskwire/layout/derive"
)

// sideBySide is the number of runs from which work is shared out: below it, that
// takes longer than it saves.
const sideBySide = 512

// beside does two things at the same time when there are many. They must not
// touch the same values.
func beside(n int, f, g func()) {
	if n < sideBySide {
		f()
		g()
		return
	}
	var wait sync.WaitGroup
	wait.Go(f)
	g()
	wait.Wait()
}

// each calls f for every circuit, for several at the same time when they have
// many runs. The calls must not touch the same values.
func each(circuits []derive.Circuit, f func(i int)) {
	n := 0
	for i := range circuits {
		n += len(circuits[i].Input.Net.Branches)
	}
	if n < sideBySide {
		for i := range circuits {
			f(i)
		}
		return
	}
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.NumCPU(), len(circuits)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(circuits); i = int(next.Add(1)) - 1 {
				f(i)
			}
		})
	}
	wait.Wait()
}

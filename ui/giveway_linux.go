package ui

import (
	"os"
	"strconv"
	"time"

	"golang.org/x/sys/unix"
)

// How much less is left to threads other than the window's, while it and others want
// all processors: ten steps of niceness are a tenth (weights of the scheduler,
// sched(7)). Less would let a program of others that takes every core stop our
// figures. The slice is for how long such a thread goes on before one that matters
// more gets its turn; without it that is some 3 ms, again and again in a frame.
// Kernels before 6.12 take no slice and leave it at the niceness.
const (
	nicer, nicest = 10, 19
	slice         = 100 * time.Microsecond
)

// behind lowers the priority of every thread but the main one. Threads made later
// take it from the one that makes them: the main thread is locked to its goroutine,
// and the runtime then never makes one from it, so that only what the graphics
// library starts there stays before the others. What can't be lowered stays as it is.
func behind() {
	mine, err := unix.SchedGetAttr(os.Getpid(), 0)
	if err != nil {
		return
	}
	tasks, err := os.ReadDir("/proc/self/task")
	if err != nil {
		return
	}
	nice := min(mine.Nice+nicer, nicest)
	for _, t := range tasks {
		id, err := strconv.Atoi(t.Name())
		if err != nil || id == os.Getpid() {
			continue
		}
		attr := unix.SchedAttr{Policy: mine.Policy, Nice: nice, Runtime: uint64(slice)}
		if unix.SchedSetAttr(id, &attr, 0) != nil {
			_ = unix.Setpriority(unix.PRIO_PROCESS, id, int(nice))
		}
	}
}

package main

import (
	"fmt"
	"os"
	"strings"
	"syscall"
	"time"

	"fyne.io/fyne/v2"
)

// frames is how many frames of a gesture are measured, after warm ones that
// are not.
const (
	frames = 240
	warm   = 20
)

// meter measures frames. The toolkit ticks animations after it has polled the
// input and before it draws; what is posted there runs when the frame is done.
type meter struct {
	step  func(i int) // what happens in frame i
	i     int
	open  bool
	asked bool // the end of a frame is on its way
	start time.Time
	begun time.Time
	cpu   time.Duration
	list  []time.Duration
	done  chan row
	name  string
	anim  *fyne.Animation
}

// measure does step once a frame and returns the figures; it is called from
// outside the UI goroutine.
func measure(name string, step func(i int)) row {
	m := &meter{name: name, step: step, done: make(chan row, 1)}
	fyne.Do(func() {
		m.anim = &fyne.Animation{Duration: time.Second, RepeatCount: fyne.AnimationRepeatForever, Tick: m.tick}
		m.anim.Start()
	})
	return <-m.done
}

func (m *meter) tick(float32) {
	if m.i > warm+frames {
		return
	}
	now := time.Now()
	m.close(now) // the end of the last frame is still under way
	if m.i == warm {
		m.begun, m.cpu, m.list = now, spent(), nil
	}
	if m.i == warm+frames {
		m.i++
		m.anim.Stop()
		m.done <- summary(m.name, m.list, now.Sub(m.begun), spent()-m.cpu)
		return
	}
	m.start, m.open = now, true
	m.step(m.i)
	m.i++
	if m.asked { // the toolkit takes about one thing a frame: never more than one of ours
		return
	}
	m.asked = true
	fyne.Do(func() {
		m.asked = false
		m.close(time.Now()) // of the frame that was drawn before this turn
	})
}

func (m *meter) close(now time.Time) {
	if m.open {
		m.open = false
		m.list = append(m.list, now.Sub(m.start))
	}
}

// onUI does f on the UI goroutine and waits for it.
func onUI(f func()) { fyne.DoAndWait(f) }

// spent is the processor time of the process so far, all threads.
func spent() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// ofThread is the processor time of the calling thread so far; the UI goroutine
// never changes its thread.
func ofThread() time.Duration {
	const thread = 1 // RUSAGE_THREAD of Linux
	var u syscall.Rusage
	if syscall.Getrusage(thread, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// idle is what the window takes while nothing happens.
func idle() row {
	time.Sleep(2 * time.Second)
	const while = 5 * time.Second
	before := spent()
	time.Sleep(while)
	return row{Name: "  idle", Text: fmt.Sprintf("%.1f %% of a core", 100*(spent()-before).Seconds()/while.Seconds())}
}

// memory is what the process holds now and has held at most.
func memory() row {
	data, _ := os.ReadFile("/proc/self/status")
	held := map[string]string{}
	for _, line := range strings.Split(string(data), "\n") {
		if name, value, ok := strings.Cut(line, ":"); ok {
			held[name] = strings.TrimSpace(value)
		}
	}
	mb := func(key string) string {
		var kb int
		if _, err := fmt.Sscanf(held[key], "%d kB", &kb); err != nil {
			return "?"
		}
		return fmt.Sprintf("%d MB", kb/1024)
	}
	return row{Name: "  memory", Text: mb("VmRSS") + " held, " + mb("VmHWM") + " at most"}
}

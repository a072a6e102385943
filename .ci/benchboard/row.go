package main

import (
	"encoding/json"
	"fmt"
	"os"
	"slices"
	"time"
)

// lastRow says that a window has nothing more to tell.
const lastRow = "end"

// row is one line of the table. Times are milliseconds.
type row struct {
	Name    string
	Text    string  `json:",omitempty"` // instead of figures
	Frames  int     `json:",omitempty"`
	P50     float64 `json:",omitempty"`
	P95     float64 `json:",omitempty"`
	Longest float64 `json:",omitempty"`
	Rate    float64 `json:",omitempty"` // frames a second
	CPU     float64 `json:",omitempty"` // a frame
	Hold    float64 `json:",omitempty"` // of a single act: longest time without an answer
	Act     float64 `json:",omitempty"` // of a single act: what it took itself
	Thread  float64 `json:",omitempty"` // of a single act: what the window's thread worked from then on
}

func head(size [2]int) {
	fmt.Printf("\n%-46s %7s %8s %8s %8s %8s %8s\n", fmt.Sprintf("window of %dx%d", size[0], size[1]),
		"frames", "p50 ms", "p95 ms", "longest", "a second", "cpu ms")
}

func (r row) print() {
	switch {
	case r.Text != "":
		fmt.Printf("%-46s %s\n", r.Name, r.Text)
	case r.Frames > 0:
		fmt.Printf("%-46s %7d %8.1f %8.1f %8.1f %8.1f %8.1f\n", r.Name, r.Frames, r.P50, r.P95, r.Longest, r.Rate, r.CPU)
	default:
		fmt.Printf("%-46s hold %4.0f ms, the act itself %5.1f ms, work of the thread %4.0f ms\n", r.Name, r.Hold, r.Act, r.Thread)
	}
}

// tell hands a row to the process that prints.
func tell(r row) {
	data, err := json.Marshal(r)
	if err != nil {
		panic(err)
	}
	fmt.Fprintln(os.Stdout, string(data))
}

func ms(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }

// summary works out the figures of a list of frames that took all together.
func summary(name string, frames []time.Duration, all, cpu time.Duration) row {
	s := slices.Clone(frames)
	slices.Sort(s)
	at := func(p float64) float64 { return ms(s[min(int(p*float64(len(s))), len(s)-1)]) }
	return row{Name: name, Frames: len(s), P50: at(0.5), P95: at(0.95), Longest: ms(s[len(s)-1]),
		Rate: float64(len(s)) / all.Seconds(), CPU: ms(cpu) / float64(len(s))}
}

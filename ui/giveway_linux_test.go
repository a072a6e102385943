package ui

import (
	"fmt"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"sync"
	"testing"

	"golang.org/x/sys/unix"
)

// giveWayChild says that this process is the one that TestGiveWay started.
const giveWayChild = "GIVE_WAY_CHILD"

func init() {
	if os.Getenv(giveWayChild) == "" {
		return
	}
	runtime.LockOSThread() // as the toolkit does
	nice := func() int {
		attr, err := unix.SchedGetAttr(0, 0)
		if err != nil {
			panic(err)
		}
		return int(attr.Nice)
	}
	before := nice()
	GiveWay()
	others := make(chan int)
	var wait sync.WaitGroup
	for range 8 { // more than there are threads, so that new ones are made
		wait.Go(func() {
			runtime.LockOSThread()
			others <- nice()
			select {}
		})
	}
	fmt.Print(nice()-before, " of 0")
	for range 8 {
		fmt.Print(", ", <-others-before, " of ", min(10, 19-before))
	}
	os.Exit(0)
}

// TestGiveWay: the main thread keeps its priority, what else runs has less of it,
// threads made later as well. It runs in a process of its own, as priority that was
// given away does not come back.
func TestGiveWay(t *testing.T) {
	child := exec.Command(os.Args[0])
	child.Env = append(os.Environ(), giveWayChild+"=1")
	out, err := child.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	for _, got := range strings.Split(string(out), ", ") {
		if is, want, _ := strings.Cut(got, " of "); is != want {
			t.Errorf("niceness lowered for the main thread and for eight others, by so much of what is expected: %s", out)
		}
	}
}

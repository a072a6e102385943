package ui

import (
	"os"
	"syscall"
	"testing"
)

// TestMain makes the toolkit keep what it has made for as long as tests run. By
// itself it throws away after a minute what no window has painted, and its test
// window does not say what it still shows; under the race detector, or on a busy
// machine, a test takes longer than that and finds parts made anew. The toolkit
// reads how long from its environment before a test could set it, so the tests
// start themselves once more.
func TestMain(m *testing.M) {
	const variable = "FYNE_CACHE"
	if os.Getenv(variable) == "" {
		if self, err := os.Executable(); err == nil {
			_ = syscall.Exec(self, os.Args, append(os.Environ(), variable+"=24h"))
		}
	}
	os.Exit(m.Run()) // also where a process cannot be replaced
}

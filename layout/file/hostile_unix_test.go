//go:build unix

package file

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"duskwire/layout/doc"
)

// A stock book or rule set of one's own is read as carefully as a scheme: a
// pipe or a folder is no file, and the words say so.
func TestOwnFilesMustBeFiles(t *testing.T) {
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skip("no pipes here")
	}
	for _, path := range []string{dir, pipe, filepath.Join(dir, "none\nthere")} {
		done := make(chan [3]error, 1)
		go func() {
			_, _, stock := Shipped(path, "")
			_, _, rules := Shipped("", path)
			_, scheme := LoadScheme(path, doc.Stock{})
			done <- [3]error{stock, rules, scheme}
		}()
		select {
		case errs := <-done:
			for _, err := range errs {
				if err == nil || !strings.HasPrefix(err.Error(), "cannot open ") || strings.Contains(err.Error(), "\n") {
					t.Errorf("%q: error %v", path, err)
				}
			}
		case <-time.After(time.Minute):
			t.Fatalf("%q: still waiting", path)
		}
	}
}

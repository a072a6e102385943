//go:build !(linux || darwin || freebsd || netbsd || openbsd || dragonfly)

package journal

import (
	"errors"
	"io/fs"
	"os"
)

// tryLock takes the lock or says errHeld at once. Where there is no flock, a
// file that somebody has open cannot be taken away (from memory: so it is on
// Windows, as files are opened here), and that is the lock.
func tryLock(path string) (*os.File, error) {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, errHeld
	}
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return nil, errHeld
	}
	return f, err
}

//go:build linux || darwin || freebsd || netbsd || openbsd || dragonfly

package journal

import (
	"errors"
	"os"
	"syscall"
)

// tryLock takes the lock or says errHeld at once. The system lets go of it when
// the file is closed, also by the end of the process.
func tryLock(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, err
	}
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		f.Close()
		if errors.Is(err, syscall.EWOULDBLOCK) {
			return nil, errHeld
		}
		return nil, &os.PathError{Op: "lock", Path: path, Err: err}
	}
	// Whoever held it may have taken the file away in between.
	mine, err := f.Stat()
	now, err2 := os.Stat(path)
	if err != nil || err2 != nil || !os.SameFile(mine, now) {
		f.Close()
		return nil, errHeld
	}
	return f, nil
}

package journal

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// Names inside the state folder.
const (
	sessions = "journal" // folder of session folders
	lockName = "lock"
	workName = "work"
	tornName = "work.torn"
)

// errHeld means that a running process holds the lock.
var errHeld = errors.New("another window holds it")

// session is the folder of one running window. It is ours as long as lock is
// open.
type session struct {
	folder string
	lock   *os.File
}

// newSession makes a folder that nobody else has and locks it.
func newSession(state string) (*session, error) {
	base := filepath.Join(state, sessions)
	if err := os.MkdirAll(base, 0o700); err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp(base, strconv.Itoa(os.Getpid())+"-")
	if err != nil {
		return nil, err
	}
	lock, err := tryLock(filepath.Join(folder, lockName))
	if err != nil {
		_ = os.Remove(folder)
		return nil, err
	}
	return &session{folder, lock}, nil
}

func (s *session) work() string { return filepath.Join(s.folder, workName) }

// clear takes the work away and keeps the session.
func (s *session) clear() error {
	if err := os.Remove(s.work()); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}

// ours reports whether a file of a session folder may go with it: the lock, and
// what a write that was cut off has left. Torn work stays, and so does what
// somebody else has put there.
func ours(name string) bool {
	return name == workName || name == lockName || strings.HasPrefix(name, "."+workName+".")
}

// end takes the session away. The work goes first, so that nothing is offered
// should the rest fail; the lock is let go of last.
func (s *session) end() {
	_ = s.clear()
	if entries, err := os.ReadDir(s.folder); err == nil {
		for _, e := range entries {
			if ours(e.Name()) {
				_ = os.Remove(filepath.Join(s.folder, e.Name()))
			}
		}
	}
	_ = os.Remove(s.folder) // fails while something worth keeping is in it
	s.lock.Close()
	_ = os.Remove(filepath.Join(s.folder, lockName)) // where an open file cannot go
	_ = os.Remove(s.folder)
}

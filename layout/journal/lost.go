package journal

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"sort"
	"time"
)

// Lost is work of a process that ended without saving it. It is held for this
// process, so that no other window offers it too, until Discard or Later.
type Lost struct {
	Entry
	Text    []byte // the scheme as a file has it
	session *session
}

// Discard takes the work away for good.
func (l *Lost) Discard() { l.session.end() }

// Later leaves the work for another start.
func (l *Lost) Later() { l.session.lock.Close() }

// emptyAge is how old an empty session is before it counts as left over: a
// window that has just made its folder has not locked it yet.
const emptyAge = time.Hour

// Find returns the work that no running process holds, newest first. What
// cannot be read is put aside and told in skipped; it never stands in the way.
func Find(state string) (lost []*Lost, skipped []error) {
	base := filepath.Join(state, sessions)
	entries, err := os.ReadDir(base)
	if err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			skipped = append(skipped, err)
		}
		return nil, skipped
	}
	folders := newestFirst(base, entries)
	for i, folder := range folders {
		if len(lost) == mostLost {
			skipped = append(skipped, fmt.Errorf("%d older sessions are left for a later start", len(folders)-i))
			break
		}
		l, err := claim(folder)
		if err != nil {
			skipped = append(skipped, err)
		} else if l != nil {
			lost = append(lost, l)
		}
	}
	if n := len(skipped) - mostTold; n > 0 {
		skipped = append(skipped[:mostTold:mostTold], fmt.Errorf("%d more could not be read or are left for a later start", n))
	}
	sort.SliceStable(lost, func(i, j int) bool { return lost[i].Time.After(lost[j].Time) })
	return lost, skipped
}

// mostLost is how much lost work is held at once: each holds an open file and
// its whole text. mostTold is how many failures are told one by one.
const (
	mostLost = 20
	mostTold = 5
)

// newestFirst returns the session folders, those whose work was written last
// first.
func newestFirst(base string, entries []fs.DirEntry) []string {
	var folders []string
	at := map[string]time.Time{}
	for _, e := range entries {
		if !e.IsDir() {
			continue
		}
		folder := filepath.Join(base, e.Name())
		if info, err := os.Lstat(filepath.Join(folder, workName)); err == nil {
			at[folder] = info.ModTime()
		}
		folders = append(folders, folder)
	}
	sort.SliceStable(folders, func(i, j int) bool { return at[folders[i]].After(at[folders[j]]) })
	return folders
}

// claim takes hold of one session's work; both results are nil when there is
// none, or when somebody has it.
func claim(folder string) (*Lost, error) {
	s := &session{folder: folder}
	info, err := os.Lstat(s.work())
	if errors.Is(err, fs.ErrNotExist) {
		sweep(folder)
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	if s.lock, err = tryLock(filepath.Join(folder, lockName)); err != nil {
		if errors.Is(err, errHeld) {
			return nil, nil
		}
		return nil, err
	}
	data, err := readWork(s.work(), info)
	if errors.Is(err, fs.ErrNotExist) { // saved while we looked
		s.lock.Close()
		return nil, nil
	}
	l := &Lost{session: s}
	if err == nil {
		l.Entry, l.Text, err = decode(data)
	}
	if err == nil {
		return l, nil
	}
	defer s.lock.Close()
	aside := filepath.Join(folder, tornName)
	if err2 := os.Rename(s.work(), aside); err2 != nil {
		aside = s.work()
	}
	return nil, fmt.Errorf("unsaved work could not be read: %w; it was put aside as %s", err, aside)
}

func readWork(path string, info fs.FileInfo) ([]byte, error) {
	if !info.Mode().IsRegular() {
		return nil, errors.New("it is not a file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, mostBytes+1))
}

// sweep takes away a session that holds nothing and has no process.
func sweep(folder string) {
	info, err := os.Stat(folder)
	if err != nil || time.Since(info.ModTime()) < emptyAge {
		return
	}
	if _, err := os.Lstat(filepath.Join(folder, tornName)); err == nil {
		return
	}
	lock, err := tryLock(filepath.Join(folder, lockName))
	if err != nil {
		return
	}
	(&session{folder, lock}).end()
}

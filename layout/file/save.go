package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"duskwire/calc/check"
	"duskwire/layout/doc"
)

// LoadScheme reads the scheme file at the path; stock and rules as for
// ReadScheme. The picture under the plan has its full path then.
func LoadScheme(path string, stock doc.Stock, rules ...string) (*doc.Scheme, error) {
	text, err := readText(path)
	if err != nil {
		return nil, told("open", path, err)
	}
	return loaded(path, text, func() (doc.Stock, []string) { return stock, rules })
}

func loaded(path, text string, lib library) (*doc.Scheme, error) {
	s, err := readScheme(filepath.Base(path), text, lib)
	if err != nil {
		return nil, err
	}
	return absolute(path, s)
}

// Open is Shipped and then LoadScheme, with the rule sets known, but reads the
// scheme and what is shipped at the same time.
func Open(path, stockPath, rulesPath string) (s *doc.Scheme, stock doc.Stock, rules []*check.Rules, err error) {
	var bad error
	ready := make(chan struct{})
	go func() {
		stock, rules, bad = Shipped(stockPath, rulesPath)
		close(ready)
	}()
	text, err := readText(path)
	if err != nil {
		err = told("open", path, err)
	} else {
		s, err = loaded(path, text, func() (doc.Stock, []string) { <-ready; return stock, Keys(rules) })
	}
	if <-ready; bad != nil {
		err = bad
	}
	if err != nil {
		return nil, doc.Stock{}, nil, err
	}
	return s, stock, rules, nil
}

// readLimited is readText for those who need bytes.
func readLimited(path string) ([]byte, error) {
	text, err := readText(path)
	return []byte(text), err
}

// readText reads a file but no more than one byte over the limit, which the
// reader then refuses. It looks before it opens, because to open a pipe is to
// wait for somebody who writes into it. A large file is in memory once only.
func readText(path string) (string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return "", err
	}
	if !info.Mode().IsRegular() {
		return "", errNotAFile
	}
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	var text strings.Builder
	text.Grow(int(min(info.Size(), maxBytes+1)))
	_, err = io.Copy(&text, io.LimitReader(f, maxBytes+1))
	return text.String(), err
}

var errNotAFile = errors.New("it is not a file")

// told puts a failure of the file system into one line of words.
func told(what, path string, err error) error {
	reason := err
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		reason = fmt.Errorf("there is no such file or folder%w", quiet{err})
	case errors.Is(err, fs.ErrPermission):
		reason = fmt.Errorf("you may not do that here%w", quiet{err})
	case errors.As(err, &p):
		reason = p.Err
	case errors.As(err, &l):
		reason = l.Err
	}
	return fmt.Errorf("cannot %s %s: %w", what, oneLine(path), reason)
}

// quiet keeps an error for errors.Is without its text.
type quiet struct{ err error }

func (quiet) Error() string   { return "" }
func (q quiet) Unwrap() error { return q.err }

// SaveScheme writes the scheme to the path so that at every moment there is a
// whole file there, the old one or the new. The version before is kept beside
// it with .bak added to the name. A link is followed, and the new file has
// the permissions of the old. The picture under the plan is named from the
// folder of the file.
func SaveScheme(path string, s *doc.Scheme) error {
	data, err := SchemeText(path, s)
	if err != nil {
		return err
	}
	if err := replaceFile(path, data, true); err != nil {
		return told("save", path, err)
	}
	return nil
}

// SchemeText returns what SaveScheme writes to the path. It differs from
// WriteScheme in the name of the picture under the plan.
func SchemeText(path string, s *doc.Scheme) ([]byte, error) {
	s, err := relative(path, s)
	if err != nil {
		return nil, told("save", path, err)
	}
	return WriteScheme(s)
}

// KeepCopy writes data, which is what the file at the path holds, to the name
// as, with the permissions of the file.
func KeepCopy(path, as string, data []byte) error {
	_, mode, _, err := targetOf(path)
	if err != nil {
		return told("keep", path, err)
	}
	name, err := writeTemporary(filepath.Dir(as), filepath.Base(as), data, mode)
	if err != nil {
		return told("keep", as, err)
	}
	if err := os.Rename(name, as); err != nil {
		os.Remove(name)
		return told("keep", as, err)
	}
	return syncFolder(filepath.Dir(as))
}

// WriteFile puts data into the file at the path as SaveScheme does, but keeps
// no version before: it is for what can be made again, such as a picture.
func WriteFile(path string, data []byte) error {
	if err := replaceFile(path, data, false); err != nil {
		return told("write", path, err)
	}
	return nil
}

func replaceFile(path string, data []byte, backup bool) error {
	target, mode, exists, err := targetOf(path)
	if err != nil {
		return err
	}
	folder := filepath.Dir(target)
	name, err := writeTemporary(folder, filepath.Base(target), data, mode)
	if err != nil {
		return err
	}
	defer os.Remove(name) // gone already when all went well
	if exists && backup {
		if err := keepBackup(target, mode); err != nil {
			return err
		}
	}
	if err := os.Rename(name, target); err != nil {
		return err
	}
	return syncFolder(folder)
}

// targetOf returns the file that the path leads to through links, and its
// permissions if it exists.
func targetOf(path string) (target string, mode fs.FileMode, exists bool, err error) {
	target = path
	for range 40 {
		link, err := os.Readlink(target)
		if err != nil {
			break
		}
		if !filepath.IsAbs(link) {
			link = filepath.Join(filepath.Dir(target), link)
		}
		target = link
	}
	info, err := os.Stat(target)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return target, 0, false, nil
	case err != nil:
		return "", 0, false, err
	case !info.Mode().IsRegular():
		return "", 0, false, errNotAFile
	}
	return target, info.Mode().Perm(), true, nil
}

// writeTemporary writes the data beside the target and forces it to the disk.
// Mode 0 gives the file the permissions that any new file gets here.
func writeTemporary(folder, base string, data []byte, mode fs.FileMode) (name string, err error) {
	name = filepath.Join(folder, "."+base+"."+strconv.Itoa(os.Getpid())+".new")
	os.Remove(name) // left over from a crash
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return "", err
	}
	_, err = f.Write(data)
	if mode != 0 {
		err = errors.Join(err, f.Chmod(mode))
	}
	err = errors.Join(err, f.Sync(), f.Close())
	if err != nil {
		os.Remove(name)
		return "", err
	}
	return name, nil
}

// keepBackup makes path.bak the same file as path, which stays where it is: a
// second name (hard link) is made and renamed, or, where the file system has
// no links, a copy.
func keepBackup(path string, mode fs.FileMode) error {
	folder, base := filepath.Split(path)
	next := filepath.Join(folder, "."+base+".bak.new")
	os.Remove(next) // left over from a crash
	if err := os.Link(path, next); err != nil {
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if next, err = writeTemporary(filepath.Dir(path), base+".bak", data, mode); err != nil {
			return err
		}
	}
	if err := os.Rename(next, path+".bak"); err != nil {
		os.Remove(next)
		return err
	}
	// Renaming one name of a file onto another name of it does nothing and
	// leaves both, so the spare name may still be there.
	os.Remove(next)
	return nil
}

// syncFolder forces the names in the folder to the disk. Some file systems
// cannot; the data itself is on the disk by then.
func syncFolder(folder string) error {
	d, err := os.Open(folder)
	if err != nil {
		return nil
	}
	d.Sync()
	return d.Close()
}

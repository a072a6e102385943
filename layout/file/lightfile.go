package file

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"duskwire/layout/doc"
)

// lights reads the fittings whose light comes from a photometric file.
func (r *reader) lights(list []node) []doc.LightFile {
	if len(list) > doc.MostLights {
		list[doc.MostLights].fail(strconv.Itoa(len(list))+" files", "at most "+strconv.Itoa(doc.MostLights))
		return nil
	}
	var out []doc.LightFile
	for i, n := range list {
		name := "photometry " + strconv.Itoa(i+1)
		o := n.within(name).object()
		out = append(out, doc.LightFile{
			Lamp:   o.needText("lamp"),
			File:   o.needText("file"),
			Sum:    o.needText("sha256"),
			Mirror: o.flag("mirror"),
			Turn:   o.angle("turn"),
			Set:    lampSet(o),
		})
		r.spots[spot{part: name}] = o.node
		o.done()
	}
	return out
}

// lampSet reads the lamp set of a photometric file to use.
func lampSet(o *object) int {
	if n := o.get("set"); n.present() {
		return n.whole(1, doc.MostSets)
	}
	return 0
}

// lights writes the photometric files.
func (w *writer) lights(list []doc.LightFile) {
	if len(list) > 0 {
		w.line(0, "photometry", "")
	}
	for _, l := range list {
		w.dash = true
		w.line(2, "lamp", written(l.Lamp))
		w.line(2, "file", written(l.File))
		w.line(2, "sha256", strconv.Quote(l.Sum))
		if l.Mirror {
			w.line(2, "mirror", "true")
		}
		w.angle("turn", l.Turn)
		if l.Set > 0 {
			w.line(2, "set", strconv.Itoa(l.Set))
		}
	}
}

// absolute returns the scheme with the full paths of its picture and its
// photometric files, which the file at the path names as seen from its own folder.
func absolute(path string, s *doc.Scheme) (*doc.Scheme, error) {
	return named(s, func(_, name string) (string, error) {
		if name = filepath.FromSlash(name); filepath.IsAbs(name) {
			return name, nil
		}
		return filepath.Abs(filepath.Join(filepath.Dir(path), name))
	})
}

// relative returns the scheme as the file at the path holds it: picture and
// photometric files are named from the folder of the file, with ".." where they
// lie elsewhere, so that a folder can be moved or handed on as a whole. One that
// cannot be reached that way is refused.
func relative(path string, s *doc.Scheme) (*doc.Scheme, error) {
	folder, err := filepath.Abs(filepath.Dir(path))
	if err != nil {
		return nil, err
	}
	return named(s, func(what, name string) (string, error) {
		if !filepath.IsAbs(name) {
			return name, nil
		}
		short, err := filepath.Rel(folder, name)
		if err != nil {
			return "", fmt.Errorf("%s: file: found %q, expected a file that can be reached from the folder of the scheme; copy it there and choose it again", what, name)
		}
		return filepath.ToSlash(short), nil
	})
}

// named returns the scheme with other names for the files that it refers to.
func named(s *doc.Scheme, name func(what, file string) (string, error)) (*doc.Scheme, error) {
	n := *s
	var err error
	if file := s.Plan.Underlay.File; file != "" {
		if n.Plan.Underlay.File, err = name("picture", file); err != nil {
			return nil, err
		}
	}
	for i, l := range s.Lights {
		file, err := name("photometry "+strconv.Itoa(i+1), l.File)
		if err != nil {
			return nil, err
		}
		if file == l.File {
			continue
		}
		if len(n.Lights) > 0 && &n.Lights[0] == &s.Lights[0] {
			n.Lights = slices.Clone(s.Lights)
		}
		n.Lights[i].File = file
	}
	if n.Plan.Underlay.File == s.Plan.Underlay.File && (len(s.Lights) == 0 || &n.Lights[0] == &s.Lights[0]) {
		return s, nil
	}
	return &n, nil
}

// MostLightBytes is the size up to which a photometric file is read.
const MostLightBytes = 8 << 20

// LightEndings are those of photometric files, lower case. What a file is gets
// decided by its content.
var LightEndings = []string{".ies", ".ldt"}

// mostTiltBytes is the size up to which a file that TILT= names is read.
const mostTiltBytes = 1 << 20

// ReadTilt reads the file that TILT= of the photometric file at path names, which
// lies in the same folder: name is that of a file, without any folder, and nothing
// that leads out of the folder is followed. Where no file has it letter by letter, one
// that has it but for capitals is taken. The error is one line.
func ReadTilt(path, name string) ([]byte, error) {
	shown := oneLine(doc.Short(name))
	if name == "" || name == "." || name == ".." || strings.ContainsAny(name, `/\:`) || strings.ContainsRune(name, 0) {
		return nil, fmt.Errorf("TILT=%s: expected the name of a file in the folder of the photometric file", shown)
	}
	root, err := os.OpenRoot(filepath.Dir(path))
	if err != nil {
		return nil, told("read", shown, err)
	}
	defer root.Close()
	info, err := root.Stat(name)
	if errors.Is(err, fs.ErrNotExist) {
		for _, other := range beside(root, name) {
			if info, err = root.Stat(other); err == nil {
				name = other
				break
			}
		}
	}
	switch {
	case err != nil:
		return nil, told("read", shown, err)
	case !info.Mode().IsRegular():
		return nil, told("read", shown, errNotAFile)
	case info.Size() > mostTiltBytes:
		return nil, fmt.Errorf("%s: found %d MB, expected at most %d MB", shown, (info.Size()+1<<20-1)>>20, mostTiltBytes>>20)
	}
	f, err := root.Open(name)
	if err != nil {
		return nil, told("read", shown, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostTiltBytes+1))
	switch {
	case err != nil:
		return nil, told("read", shown, err)
	case len(data) > mostTiltBytes:
		return nil, fmt.Errorf("%s: found a file that grows, expected at most %d MB", shown, mostTiltBytes>>20)
	}
	return data, nil
}

// beside returns the files of a folder whose name is this one but for capitals, by
// name; of a folder with very many files only among the first.
func beside(root *os.Root, name string) (out []string) {
	dir, err := root.Open(".")
	if err != nil {
		return nil
	}
	defer dir.Close()
	all, _ := dir.Readdirnames(10_000) // what it could not list is not found
	for _, other := range all {
		if strings.EqualFold(other, name) {
			out = append(out, other)
		}
	}
	slices.Sort(out)
	return out
}

// ReadLight reads the bytes of a photometric file. It looks before it opens,
// because to open a pipe is to wait for somebody who writes into it, and refuses
// what is too large before it makes room. The error names the file without its
// folder and is one line.
func ReadLight(path string) ([]byte, error) {
	base := filepath.Base(path)
	info, err := os.Stat(path)
	if err != nil {
		return nil, told("read", base, err)
	}
	if !info.Mode().IsRegular() {
		return nil, told("read", base, errNotAFile)
	}
	if info.Size() > MostLightBytes {
		return nil, fmt.Errorf("%s: found %d MB, expected at most %d MB", oneLine(base), (info.Size()+1<<20-1)>>20, MostLightBytes>>20)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, told("read", base, err)
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, MostLightBytes+1))
	if err != nil {
		return nil, told("read", base, err)
	}
	if len(data) > MostLightBytes { // it grew
		return nil, fmt.Errorf("%s: found a file that grows, expected at most %d MB", oneLine(base), MostLightBytes>>20)
	}
	return data, nil
}

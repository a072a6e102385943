package doc

import (
	"path"
	"slices"
	"strconv"
	"strings"
)

// LightFile says that the light of a fitting is taken from a photometric file
// instead of the lumens and the beam of the stock book.
type LightFile struct {
	Lamp string // stock key of the fitting
	// File names the photometric file. In memory it is a full path; a scheme file
	// holds it relative to the folder that the scheme file lies in.
	File string
	// Sum is the SHA-256 of the file as it was taken in, hexadecimal.
	Sum string
	// Mirror lets C run the other way round; then Turn turns C0 so many degrees
	// anticlockwise, seen from above the lamp aimed down.
	Mirror bool
	Turn   float64
	// Set is the lamp set of the file to use, counted from 1; 0 the first.
	Set int
}

// MostSets is how many lamp sets a photometric file may have.
const MostSets = 20

// MostLights is how many fittings of a scheme may have a photometric file.
const MostLights = 500

// Name returns the name of the file without its folder.
func (l LightFile) Name() string { return path.Base(strings.ReplaceAll(l.File, `\`, "/")) }

// LightOf returns the photometric file of a fitting.
func (s *Scheme) LightOf(lamp string) (LightFile, bool) {
	i := slices.IndexFunc(s.Lights, func(l LightFile) bool { return l.Lamp == lamp })
	if i < 0 {
		return LightFile{}, false
	}
	return s.Lights[i], true
}

// lights checks the photometric files; that the fittings are in the stock book
// is for CheckStock.
func (r *report) lights(list []LightFile) {
	if len(list) > MostLights {
		r.name = "photometry"
		r.add("", strconv.Itoa(len(list))+" files", "at most "+strconv.Itoa(MostLights))
		return
	}
	seen := map[string]bool{}
	for i, l := range list {
		r.name = lightEntry(i)
		r.word("lamp", l.Lamp)
		if seen[l.Lamp] {
			r.add("lamp", strconv.Quote(l.Lamp)+" a second time", "every fitting once")
		}
		seen[l.Lamp] = true
		r.needText("file", l.File)
		if strings.Contains(l.File, "\n") {
			r.add("file", "a line end", "one line")
		}
		if !isSum(l.Sum) {
			r.add("sha256", strconv.Quote(l.Sum), "a checksum of 64 digits from 0 to f")
		}
		r.degrees("turn", l.Turn)
		if l.Set < 0 || l.Set > MostSets {
			r.add("set", strconv.Itoa(l.Set), "a lamp set from 1 to "+strconv.Itoa(MostSets))
		}
	}
}

// lightEntry names an entry of the photometric files in messages.
func lightEntry(i int) string { return "photometry " + strconv.Itoa(i+1) }

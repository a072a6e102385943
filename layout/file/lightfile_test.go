package file

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
)

func litByFiles() *doc.Scheme {
	s := doc.New("uk-18")
	s.Lights = []doc.LightFile{
		{Lamp: "pillar-10w", File: "light/spot.ies", Sum: strings.Repeat("0a", 32), Mirror: true, Turn: 90},
		{Lamp: "brick-3w", File: "wide.ldt", Sum: strings.Repeat("1b", 32), Set: 2},
	}
	return s
}

func TestLightsInFile(t *testing.T) {
	data, err := WriteScheme(litByFiles())
	if err != nil {
		t.Fatal(err)
	}
	const want = `photometry:
  - lamp: pillar-10w
    file: light/spot.ies
    sha256: "0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a0a"
    mirror: true
    turn: 90 deg
  - lamp: brick-3w
    file: wide.ldt
    sha256: "1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b1b"
    set: 2
`
	if !strings.Contains(string(data), want) {
		t.Errorf("found\n%s\nwant\n%s", data, want)
	}
	if _, ok := quickScheme("a.yaml", string(data), func() (doc.Stock, []string) { return book(), nil }); !ok {
		t.Error("not read the quick way")
	}
	many := "photometry:\n" + strings.Repeat("  - {lamp: a, file: b, sha256: c}\n", doc.MostLights+1)
	for _, c := range []struct{ old, new, want string }{
		{"lamp: brick-3w", "lamp: brick-4w", `photometry 2: lamp: found "brick-4w", expected a lamp of the stock book (did you mean "brick-3w"?)`},
		{"lamp: brick-3w", "lamp: pillar-10w", `photometry 2: lamp: found "pillar-10w" a second time, expected every fitting once`},
		{"    file: wide.ldt\n", "", "photometry 2: file: found nothing"},
		{`file: wide.ldt`, `file: "a\nb"`, "photometry 2: file: found a line end"},
		{`sha256: "1b`, `sha256: "1g`, "photometry 2: sha256: found"},
		{"turn: 90 deg", "turn: 90", "photometry 1: turn: found"},
		{"turn: 90 deg", "turn: nan deg", "photometry 1: turn: found"},
		{"turn: 90 deg", "turn: 1e9 deg", "photometry 1: turn: found"},
		{"mirror: true", "mirror: yes please", "photometry 1: mirror: found"},
		{"set: 2", "set: 0", `photometry 2: set: found "0"`},
		{"set: 2", "set: 21", `photometry 2: set: found "21"`},
		{"set: 2", "set: 1.5", `photometry 2: set: found "1.5"`},
		{"mirror: true", "mirrored: true", `the unknown field "mirrored"`},
		{want, "photometry: 7\n", `photometry: found "7", expected a list`},
		{want, many, "found 501 files, expected at most 500"},
	} {
		_, err := ReadScheme("a.yaml", []byte(strings.Replace(string(data), c.old, c.new, 1)), book())
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "a.yaml:") || strings.Contains(err.Error(), "\n") {
			t.Errorf("%.60q: %v, want %q", c.new, err, c.want)
		}
	}
}

// Whatever photometric files a scheme may have read back the same, the quick way
// and the slow one.
func TestLightsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := litByFiles()
		for i := range s.Lights {
			l := &s.Lights[i]
			l.File = rapid.StringMatching(`[\p{L} '#:&{}\[\]0-9.-]{1,30}\.ies`).Draw(t, "file")
			l.Turn = rapid.Float64Range(-360, 360).Draw(t, "turn")
			l.Mirror = rapid.Bool().Draw(t, "mirror")
			l.Set = rapid.IntRange(0, doc.MostSets).Draw(t, "set")
		}
		data, err := WriteScheme(s)
		if err != nil {
			t.Fatal(err)
		}
		back, err := ReadScheme("a.yaml", data, book())
		if err != nil || !slices.Equal(back.Lights, s.Lights) {
			t.Fatalf("%v\n%+v\n%+v", err, back, s.Lights)
		}
		slow, err := slowScheme("a.yaml", data, func() (doc.Stock, []string) { return book(), nil })
		if err != nil || !slices.Equal(slow.Lights, s.Lights) {
			t.Fatalf("slow: %v\n%+v\n%+v", err, slow, s.Lights)
		}
	})
}

// A file names its photometric files from its own folder, never by a full path;
// loaded, the scheme has the full path. Saving changes nothing of the scheme.
func TestLightsAreRelative(t *testing.T) {
	top := t.TempDir()
	s := litByFiles()
	s.Lights[0].File = filepath.Join(top, "light", "spot.ies")
	s.Lights[1].File = filepath.Join(top, "a", "wide.ldt")
	before := slices.Clone(s.Lights)
	path := filepath.Join(top, "a", "x.yaml")
	if err := os.Mkdir(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	mustSave(t, path, s)
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if text := string(data); !strings.Contains(text, "../light/spot.ies") || !strings.Contains(text, "file: wide.ldt\n") || strings.Contains(text, top) {
		t.Errorf("found\n%s", text)
	}
	back, err := LoadScheme(path, book())
	if err != nil || !slices.Equal(back.Lights, before) || !slices.Equal(s.Lights, before) {
		t.Errorf("%v\n%+v\n%+v\n%+v", err, back.Lights, s.Lights, before)
	}
}

// ReadLight refuses in one line and names the file without its folder.
func TestReadLight(t *testing.T) {
	folder := t.TempDir()
	large := filepath.Join(folder, "large.ies")
	f, err := os.Create(large)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Truncate(MostLightBytes + 1); err != nil { // a hole: it takes no room
		t.Fatal(err)
	}
	f.Close()
	for path, want := range map[string]string{
		large:                                "large.ies: found " + strconv.Itoa(MostLightBytes>>20+1) + " MB, expected at most " + strconv.Itoa(MostLightBytes>>20) + " MB",
		folder:                               "it is not a file",
		filepath.Join(folder, "no\nway.ies"): "cannot read no way.ies: there is no such file or folder",
	} {
		_, err := ReadLight(path)
		if err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), "\n") || path != folder && strings.Contains(err.Error(), folder) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

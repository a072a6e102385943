package layout_test

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

const lightSamples = "../calc/light/testdata/"

// lampNamed returns a lamp of the scheme by its tag.
func lampNamed(t *testing.T, s *doc.Scheme, tag string) *doc.Lamp {
	t.Helper()
	for _, l := range s.Lamps.All() {
		if l.Tag == tag {
			return l
		}
	}
	t.Fatalf("no lamp %s", tag)
	return nil
}

// give takes the light of L7's fitting from a file that holds data, and reads it.
func give(t *testing.T, d *layout.Desk, cache *layout.LightCache, data []byte, change func(*doc.LightFile)) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "spot.ies")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(data)
	of := doc.LightFile{Lamp: lampNamed(t, d.Frame().Scheme, "L7").Stock, File: path, Sum: hex.EncodeToString(sum[:])}
	if change != nil {
		change(&of)
	}
	if err := d.Commit(edit.SetLight{Light: of}); err != nil {
		t.Fatal(err)
	}
	reread(t, d, cache)
	return path
}

func reread(t *testing.T, d *layout.Desk, cache *layout.LightCache) {
	t.Helper()
	l, err := layout.ReadLights(context.Background(), cache, "", d.Frame().Scheme)
	if err != nil {
		t.Fatal(err)
	}
	d.SetLights(l)
}

func sampleLight(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(lightSamples + name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func nightNow(t *testing.T, d *layout.Desk) *layout.Night {
	t.Helper()
	n, err := layout.NightOf(d.Frame())
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// TestLightFromFile: the spot of 24° and 500 lm has 2576.054 cd in its middle
// (checks.md 9, derived), and all lamps of the fitting take it; the others keep
// their model. Undo gives the stock book's light back, and redo the file's.
func TestLightFromFile(t *testing.T) {
	d, cache := nightDesk(t), &layout.LightCache{}
	before := nightNow(t, d)
	give(t, d, cache, sampleLight(t, "synthetic_cosn_24deg_500lm.ies"), nil)
	n := nightNow(t, d)
	key := lampNamed(t, d.Frame().Scheme, "L7").Stock
	for i, l := range n.Lamps {
		lamp := n.Scene.Lamp(i)
		if (l.Stock == key) != (n.Files[i] != nil) {
			t.Errorf("%s of %s: file %v", l.Tag, l.Stock, n.Files[i])
		}
		if was := before.Scene.Lamp(i); l.Stock != key && lamp.Dist.Flux() != was.Dist.Flux() {
			t.Errorf("%s has another light than before", l.Tag)
		}
	}
	lamp := nightLamp(t, n, "L7")
	if got := float64(lamp.Toward(light.Vec{Z: -1})); math.Abs(got-2576.054*lamp.Share) > 0.01 {
		t.Errorf("L7 sends %g cd down, expected 2576.054 times %g", got, lamp.Share)
	}
	if noted(d.Frame(), "LIT-01") != nil {
		t.Error("LIT-01 about a file that is right")
	}
	d.Undo()
	if got := nightLamp(t, nightNow(t, d), "L7").Dist.Flux(); math.Abs(float64(got)-400) > 0.01 {
		t.Errorf("after undo L7 has %g lm, expected the 400 lm of its stock item", float64(got))
	}
	d.Redo()
	if again := nightLamp(t, nightNow(t, d), "L7"); again.Dist != lamp.Dist {
		t.Error("after redo L7 has another table")
	}
}

// TestLightGone: whatever is wrong with the file, the lamp falls back to 400 lm and
// its beam, one Note says in a line what was found and what was expected, and
// nothing else of the findings changes. It is no failure.
func TestLightGone(t *testing.T) {
	good := string(sampleLight(t, "synthetic_cosn_24deg_500lm.ies"))
	const head = "IESNA:LM-63-2002\n[TEST] x\nTILT=NONE\n"
	for _, c := range []struct {
		name, data string
		after      func(t *testing.T, path string)
		want       string
	}{
		{"missing", good, func(t *testing.T, path string) { must(t, os.Remove(path)) }, "cannot read spot.ies: there is no such file or folder"},
		{"changed", good, func(t *testing.T, path string) { must(t, os.WriteFile(path, []byte(good+"\n"), 0o644)) }, "spot.ies: found a file whose checksum begins "},
		{"a folder", good, func(t *testing.T, path string) { must(t, os.Remove(path)); must(t, os.Mkdir(path, 0o755)) }, "cannot read spot.ies: it is not a file"},
		{"huge", good, func(t *testing.T, path string) { must(t, os.Truncate(path, 1<<40)) }, "spot.ies: found 1048576 MB, expected at most 8 MB"},
		{"cut off", head + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 50", nil, "found 2 numbers before the end of the file, expected 3"},
		{"wrong angles", head + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 95 90 0 100 5 3", nil, "found 90° after 95°, expected rising angles"},
		{"no number", head + "1 -1 1 3 1 1 2 0 0 0 1 1 10 0 45 90 0 100 nan 3", nil, `found "nan" as number 2 of 3`},
		{"endless planes", head + "1 -1 1 3 1000000000 1 2 0 0 0 1 1 10", nil, "found 1e+09, expected a whole number from 1 to 2000"},
		{"empty", "", nil, "found no line TILT="},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, cache := nightDesk(t), &layout.LightCache{}
			rest := len(d.Frame().Findings)
			path := give(t, d, cache, []byte(c.data), nil)
			if c.after != nil {
				c.after(t, path)
				reread(t, d, cache)
			}
			f := noted(d.Frame(), "LIT-01")
			if f == nil || f.Level != finding.Note || !strings.Contains(f.Text, c.want) || strings.Contains(f.Text, "\n") || strings.Contains(f.Text, filepath.Dir(path)) {
				t.Fatalf("LIT-01: %+v, want %q", f, c.want)
			}
			if len(d.Frame().Findings) != rest+1 {
				t.Errorf("%d findings, expected %d", len(d.Frame().Findings), rest+1)
			}
			n := nightNow(t, d)
			if got := float64(nightLamp(t, n, "L7").Dist.Flux()); math.Abs(got-400) > 0.01 {
				t.Errorf("L7 has %g lm, expected the 400 lm of its stock item", got)
			}
			if !strings.Contains(strings.Join(n.Assumed, "\n"), "photometric file spot.ies not to be used") {
				t.Errorf("assumed %q", n.Assumed)
			}
			// Read again after the file was put right, all is well.
			must(t, os.RemoveAll(path))
			must(t, os.WriteFile(path, []byte(c.data), 0o644))
			if reread(t, d, cache); c.data == good && noted(d.Frame(), "LIT-01") != nil {
				t.Error("LIT-01 after the file was put back")
			}
		})
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// TestLightTurned: turn and mirror move the light of the file as they say: the
// intensity at C is that of C - turn, mirrored that of turn - C; the opening goes
// along by quarters. The flux stays.
func TestLightTurned(t *testing.T) {
	data := sampleLight(t, "synthetic_same_full_0-360.ies")
	plain, err := light.Read(data, light.How{})
	must(t, err)
	for _, c := range []struct {
		mirror bool
		turn   float64
	}{{false, 0}, {false, 90}, {true, 0}, {true, 90}, {false, -90}, {true, 37}, {false, 540}} {
		d := nightDesk(t)
		give(t, d, &layout.LightCache{}, data, func(l *doc.LightFile) { l.Mirror, l.Turn = c.mirror, c.turn })
		got := nightLamp(t, nightNow(t, d), "L7").Dist
		for at := 0.0; at < 360; at += 15 {
			from := at - c.turn
			if c.mirror {
				from = -from
			}
			for _, g := range []float64{10, 45, 80} {
				if a, b := float64(got.Intensity(at, g)), float64(plain.Dist.Intensity(math.Mod(from+1440, 360), g)); math.Abs(a-b) > 1e-6 {
					t.Fatalf("mirror %v, turn %g: C%g γ%g has %g cd, expected %g", c.mirror, c.turn, at, g, a, b)
				}
			}
		}
		if a, b := float64(got.Flux()), float64(plain.Dist.Flux()); math.Abs(a-b) > 1e-6*b {
			t.Errorf("mirror %v, turn %g: %g lm, expected %g", c.mirror, c.turn, a, b)
		}
	}
	long := []byte("IESNA:LM-63-2002\n[TEST] x\nTILT=NONE\n1 -1 1 3 1 1 2 0.1 0.6 0 1 1 10 0 45 90 0 100 50 0")
	for turn, x := range map[float64]float64{0: 0.6, 90: 0.1, 180: 0.6, -90: 0.1, 44: 0.6, 46: 0.1, -720: 0.6} {
		d := nightDesk(t)
		give(t, d, &layout.LightCache{}, long, func(l *doc.LightFile) { l.Turn = turn })
		if o := nightLamp(t, nightNow(t, d), "L7").Opening; math.Abs(o.X-x) > 1e-12 {
			t.Errorf("turned by %g the opening is %+v, expected %g m along x", turn, o, x)
		}
	}
}

// TestLightCache: a table keeps its place while its file stays, and the cache has
// an end.
func TestLightCache(t *testing.T) {
	cache := &layout.LightCache{}
	path := filepath.Join(t.TempDir(), "a.ies")
	data := sampleLight(t, "synthetic_same_full_0-360.ies")
	must(t, os.WriteFile(path, data, 0o644))
	of := doc.LightFile{Lamp: "a", File: path}
	one := cache.Read("", of)
	of.Turn = 90
	two := cache.Read("", of)
	if one.Table != two.Table || one.Dist == two.Dist {
		t.Error("a turn reads the file anew, or turns nothing")
	}
	of.Turn = 0
	if again := cache.Read("", of); again.Dist != one.Dist {
		t.Error("the same file gives another table")
	}
	if l := cache.Read(filepath.Join(filepath.Dir(path), "x.yaml"), doc.LightFile{Lamp: "a", File: "a.ies"}); l.Dist != one.Dist {
		t.Errorf("a name from the folder of the scheme: %v", l.Err)
	}
	for i := range 300 {
		of.Turn = float64(i+200) / 2
		cache.Read("", of)
	}
	of.Turn = 90
	if cache.Read("", of).Dist == two.Dist {
		t.Error("three hundred tables are held")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	s := doc.New("uk-18")
	s.Lights = []doc.LightFile{of}
	if _, err := layout.ReadLights(ctx, cache, "", s); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}

// TestLightsHaveABound: files that are too much all together are refused one by
// one, before they fill the memory.
func TestLightsHaveABound(t *testing.T) {
	var b strings.Builder
	b.WriteString("IESNA:LM-63-2002\n[TEST] x\nTILT=NONE\n1 -1 1 500 721 1 2 0 0 0 1 1 10\n")
	for i := range 500 {
		b.WriteString(" " + strconv.FormatFloat(float64(i)*180/499, 'f', 4, 64))
	}
	for i := range 721 {
		b.WriteString(" " + strconv.FormatFloat(float64(i)/2, 'f', 1, 64))
	}
	b.WriteString(strings.Repeat(" 1", 500*721))
	path := filepath.Join(t.TempDir(), "a.ies")
	must(t, os.WriteFile(path, []byte(b.String()), 0o644))
	s := doc.New("uk-18")
	for i := range 30 {
		s.Lights = append(s.Lights, doc.LightFile{Lamp: string(rune('a' + i)), File: path})
	}
	lights, err := layout.ReadLights(context.Background(), &layout.LightCache{}, "", s)
	must(t, err)
	first, last := lights.Of("a"), lights.Of(string(rune('a'+29)))
	if first.Err != nil || last.Err == nil || !strings.Contains(last.Err.Error(), "expected at most that") {
		t.Errorf("first %v, last %v", first.Err, last.Err)
	}
}

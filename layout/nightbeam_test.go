package layout_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/calc/finding"
	"duskwire/calc/light"
	q "duskwire/calc/quantity"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/output"
	"duskwire/layout/tool"
)

// changed opens the example with another item in the place of the fitting of L7.
func changed(t *testing.T, change func(*doc.LampStock)) *layout.Desk {
	t.Helper()
	scheme, stock, rules, err := file.Open("../assets/examples/townhouse.yaml", "", "")
	must(t, err)
	item, ok := stock.Lamp(lampNamed(t, scheme, "L7").Stock)
	if !ok {
		t.Fatal("no fitting of L7")
	}
	change(&item)
	return layout.NewDesk(stock.Over(doc.Stock{Lamps: []doc.LampStock{item}}), rules, scheme, "")
}

// alone sets where the lamp L7 stands and points.
func alone(t *testing.T, d *layout.Desk, change func(*doc.Lamp)) {
	t.Helper()
	l := *lampNamed(t, d.Frame().Scheme, "L7")
	change(&l)
	must(t, d.Commit(edit.SetLamp{Lamp: &l}))
}

// TestSheetFigures: lumens, beam, the beam across and the peak of the stock book are
// those of the lamp as it is placed: the peak along the axis, half of it where the
// beam ends on either side (less what the spill adds), the flux in all.
func TestSheetFigures(t *testing.T) {
	for _, c := range []struct {
		name              string
		change            func(*doc.LampStock)
		flux, peak        float64
		upright, sideways float64 // of the intensity 10° up and 10° aside, over the peak
		tol               float64
	}{
		// n of a beam of 40° is ln ½/ln cos 20° = 11.142; cos¹¹·¹⁴² 10° = 0.8431 (derived).
		{"lumens and beam", func(i *doc.LampStock) { i.Flux, i.Beam, i.Across, i.Peak = 400, 40, 0, 0 }, 400, 400 * 12.142 / (2 * math.Pi), 0.8431, 0.8431, 5e-4},
		// Half at 10° upright; n of 60° is 4.819: cos⁴·⁸¹⁹ 10° = 0.9289 aside.
		{"two beams", func(i *doc.LampStock) { i.Flux, i.Beam, i.Across, i.Peak = 400, 20, 60, 0 }, 400, 0, 0.5, 0.9289, 2e-3},
		// 1218 lm, 32.5° and 2226 cd agree with a spill (formulas page, evidence).
		{"peak", func(i *doc.LampStock) { i.Flux, i.Beam, i.Across, i.Peak = 1218, 32.5, 0, 2226 }, 1218, 2226, 0, 0, 0},
		{"peak alone", func(i *doc.LampStock) { i.Flux, i.Beam, i.Across, i.Peak = 0, 40, 0, 773 }, 2 * math.Pi * 773 / 12.142, 773, 0.8431, 0.8431, 5e-4},
		{"two beams and a peak", func(i *doc.LampStock) { i.Flux, i.Beam, i.Across, i.Peak = 1000, 20, 60, 1500 }, 1000, 1500, 0, 0, 0},
	} {
		d := changed(t, c.change)
		alone(t, d, func(l *doc.Lamp) { l.Aim, l.Tilt, l.Spin = 90, 0, 0 }) // along x
		lamp := nightLamp(t, nightNow(t, d), "L7")
		at := func(v light.Vec) float64 { return float64(lamp.Toward(v)) / lamp.Share }
		axis := at(light.Vec{X: 1})
		if got := float64(lamp.Dist.Flux()); math.Abs(got-c.flux) > 2e-3*c.flux {
			t.Errorf("%s: %.1f lm, want %.1f", c.name, got, c.flux)
		}
		if c.peak > 0 && math.Abs(axis-c.peak) > 2e-3*c.peak {
			t.Errorf("%s: %.1f cd along the axis, want %.1f", c.name, axis, c.peak)
		}
		s, k := math.Sincos(10 * math.Pi / 180)
		if up := at(light.Vec{X: k, Z: s}) / axis; c.upright > 0 && math.Abs(up-c.upright) > c.tol {
			t.Errorf("%s: %.4f of the peak 10° up, want %.4f", c.name, up, c.upright)
		}
		if side := at(light.Vec{X: k, Y: s}) / axis; c.sideways > 0 && math.Abs(side-c.sideways) > c.tol {
			t.Errorf("%s: %.4f of the peak 10° aside, want %.4f", c.name, side, c.sideways)
		}
		if f := noted(d.Frame(), "LIT-02"); f != nil {
			t.Errorf("%s: %s", c.name, f.Text)
		}
	}
}

// TestSheetDisagrees: a peak that the flux cannot make is a Note that states both;
// peak and beam are drawn. A good photometric file silences it.
func TestSheetDisagrees(t *testing.T) {
	d := changed(t, func(i *doc.LampStock) { i.Flux, i.Beam, i.Peak = 400, 24, 9000 })
	f := noted(d.Frame(), "LIT-02")
	if f == nil || f.Level != finding.Note {
		t.Fatalf("LIT-02: %+v", f)
	}
	// 2π·9000/(n+1), n of 24° 31.372 (formulas page, table): 1747 lm.
	for _, want := range []string{"9000 cd in a beam of 24° makes 1747 lm", "the stock book says 400 lm", "drawn by peak and beam"} {
		if !strings.Contains(f.Text, want) {
			t.Errorf("%q lacks %q", f.Text, want)
		}
	}
	lamp := nightLamp(t, nightNow(t, d), "L7")
	if peak, _, _ := lamp.Dist.Peak(); math.Abs(float64(peak)-9000) > 1 || math.Abs(float64(lamp.Dist.Flux())-1747) > 2 {
		t.Errorf("%v cd, %v lm, want 9000 and 1747", peak, lamp.Dist.Flux())
	}
	give(t, d, &layout.LightCache{}, sampleLight(t, "synthetic_cosn_24deg_500lm.ies"), nil)
	if f := noted(d.Frame(), "LIT-02"); f != nil {
		t.Errorf("with a file: %s", f.Text)
	}
}

const tiltHead = "IESNA:LM-63-1995\n[TEST] x\n"
const tiltTail = "1 -1 1 3 1 1 2 0 0 0 1 1 5 0 45 90 0 1000 500 0"

// tilted gives L7 the light of a file and looks how much of it is left at a tilt of
// deg from straight down.
func tilted(t *testing.T, data string, put func(folder string), deg float64) (share float64, d *layout.Desk) {
	t.Helper()
	d = nightDesk(t)
	alone(t, d, func(l *doc.Lamp) { l.Aim, l.Tilt = 90, deg-90 })
	full := nightLamp(t, nightNow(t, d), "L7").Share
	cache := &layout.LightCache{}
	path := give(t, d, cache, []byte(data), nil)
	if put != nil {
		put(filepath.Dir(path))
		reread(t, d, cache)
	}
	return nightLamp(t, nightNow(t, d), "L7").Share / full, d
}

// TestTiltOfPlacedLamp: TILT=INCLUDE and TILT=<file> multiply the output of the lamp
// as it is placed, linear between the angles.
func TestTiltOfPlacedLamp(t *testing.T) {
	const table = "1\n3\n0 45 90\n1 .9 .7\n"
	beside := func(name string) func(string) {
		return func(folder string) { must(t, os.WriteFile(filepath.Join(folder, name), []byte(table), 0o644)) }
	}
	for _, c := range []struct {
		name, tilt string
		put        func(string)
		deg, want  float64
	}{
		{"included, at an angle", "TILT=INCLUDE\n" + table, nil, 45, 0.9},
		{"included, between", "TILT=INCLUDE\n" + table, nil, 67.5, 0.8},
		{"included, level", "TILT=INCLUDE\n" + table, nil, 90, 0.7},
		{"included, beyond", "TILT=INCLUDE\n" + table, nil, 140, 0.7},
		{"none", "TILT=NONE\n", nil, 67.5, 1},
		{"file", "TILT=lamp.tlt\n", beside("lamp.tlt"), 67.5, 0.8},
		{"file in capitals", "TILT=LAMP.TLT\n", beside("lamp.tlt"), 67.5, 0.8},
	} {
		got, d := tilted(t, tiltHead+c.tilt+tiltTail, c.put, c.deg)
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g of the light, want %g", c.name, got, c.want)
		}
		if f := noted(d.Frame(), "LIT-03"); f != nil {
			t.Errorf("%s: %s", c.name, f.Text)
		}
	}
}

// TestTiltFileMissing: without the file, with one that leads out of the folder, or a
// bad one, the output is whole at any tilt, the guess says so and a Note why.
func TestTiltFileMissing(t *testing.T) {
	elsewhere := filepath.Join(t.TempDir(), "out.tlt")
	must(t, os.WriteFile(elsewhere, []byte("1 2 0 90 1 0.5"), 0o644))
	for _, c := range []struct {
		name, tilt string
		put        func(string)
		want       string
	}{
		{"missing", "lamp.tlt", nil, "cannot read lamp.tlt: there is no such file or folder"},
		{"a path", "../lamp.tlt", nil, "TILT=../lamp.tlt: expected the name of a file in the folder"},
		{"an absolute path", elsewhere, nil, "expected the name of a file in the folder"},
		{"a drive", `C:\x\lamp.tlt`, nil, "expected the name of a file in the folder"},
		{"the folder above", "..", nil, "expected the name of a file in the folder"},
		{"a link out of the folder", "lamp.tlt", func(f string) { must(t, os.Symlink(elsewhere, filepath.Join(f, "lamp.tlt"))) }, "cannot read lamp.tlt"},
		{"a folder", "lamp.tlt", func(f string) { must(t, os.Mkdir(filepath.Join(f, "lamp.tlt"), 0o755)) }, "it is not a file"},
		{"huge", "lamp.tlt", func(f string) {
			must(t, os.WriteFile(filepath.Join(f, "lamp.tlt"), nil, 0o644))
			must(t, os.Truncate(filepath.Join(f, "lamp.tlt"), 1<<30))
		}, "lamp.tlt: found 1024 MB, expected at most 1 MB"},
		{"cut off", "lamp.tlt", func(f string) { must(t, os.WriteFile(filepath.Join(f, "lamp.tlt"), []byte("1 3 0 45 90 1"), 0o644)) }, "lamp.tlt: factors of TILT: found 1 numbers before the end of the file, expected 3"},
	} {
		got, d := tilted(t, tiltHead+"TILT="+c.tilt+"\n"+tiltTail, c.put, 90)
		if got != 1 {
			t.Errorf("%s: %g of the light, want all", c.name, got)
		}
		f := noted(d.Frame(), "LIT-03")
		if f == nil || f.Level != finding.Note || !strings.Contains(f.Text, c.want) || strings.Contains(f.Text, "\n") {
			t.Errorf("%s: LIT-03 %+v, want %q", c.name, f, c.want)
		}
		l := d.Frame().Lights.Of(lampNamed(t, d.Frame().Scheme, "L7").Stock)
		if g := l.GuessText(); !strings.Contains(g, "was not read") || !strings.Contains(g, c.want) {
			t.Errorf("%s: left open %q", c.name, g)
		}
	}
}

// TestWattsOfFile: watts more than 10 % off those of the stock book are a Note.
func TestWattsOfFile(t *testing.T) {
	item, _ := nightDesk(t).Frame().Stock.Lamp(lampNamed(t, nightDesk(t).Frame().Scheme, "L7").Stock)
	for factor, told := range map[float64]bool{1: false, 1.09: false, 0.91: false, 1.11: true, 0.89: true, 3: true} {
		d := nightDesk(t)
		give(t, d, &layout.LightCache{}, []byte(fmt.Sprintf(tiltHead+"TILT=NONE\n1 -1 1 3 1 1 2 0 0 0 1 1 %g 0 45 90 0 1000 500 0", factor*float64(item.Load.Power))), nil)
		f := noted(d.Frame(), "LIT-03")
		if (f != nil) != told {
			t.Errorf("%g times the watts: %+v", factor, f)
		}
		if f != nil && !strings.Contains(f.Text, "the stock book says "+item.Load.Power.String()) {
			t.Errorf("%g times the watts: %s", factor, f.Text)
		}
	}
}

// TestLampFlux: a file of relative photometry is brought to the lamps of the stock
// book, one of absolute photometry is not.
func TestLampFlux(t *testing.T) {
	relative := "IESNA:LM-63-1995\nTILT=NONE\n2 500 1 3 1 1 2 0 0 0 1 1 5 0 45 90 0 1000 500 0"
	for _, c := range []struct {
		name, data string
		flux, want float64
	}{
		{"not said", relative, 0, 1000},
		{"the same", relative, 1000, 1000},
		{"other lamps", relative, 800, 800},
		{"absolute", strings.Replace(strings.Replace(relative, "2 500", "2 -1", 1), "TILT", "[_ABSOLUTELUMENS] 1000\nTILT", 1), 800, 1000},
	} {
		d := changed(t, func(i *doc.LampStock) { i.LampFlux = q.Lumen(c.flux) })
		give(t, d, &layout.LightCache{}, []byte(c.data), nil)
		n := nightNow(t, d)
		lamp := nightLamp(t, n, "L7")
		if peak, _, _ := lamp.Dist.Peak(); math.Abs(float64(peak)-c.want) > 1e-6 {
			t.Errorf("%s: peak %v, want %g cd", c.name, peak, c.want)
		}
		item, _ := d.Frame().Stock.Lamp(lampNamed(t, d.Frame().Scheme, "L7").Stock)
		if item.Filed == nil || math.Abs(float64(item.Filed.Peak)-c.want) > 1e-6 {
			t.Errorf("%s: the fitting has %+v", c.name, item.Filed)
		}
		if told := strings.Contains(strings.Join(n.Assumed, "\n"), "made with lamps of 1000 lm, its light brought to the 800 lm"); told != (c.want == 800) {
			t.Errorf("%s: assumed %q", c.name, n.Assumed)
		}
	}
}

// TestLampSetOfFile: the lamp set that the scheme names is used, kept in the file and
// told without a screen; one that is not there is LIT-01.
func TestLampSetOfFile(t *testing.T) {
	raw := strings.Split(strings.ReplaceAll(string(sampleLight(t, "synthetic_same_isym3.ldt")), "\r", ""), "\n")
	two := append([]string{}, raw[:25]...)
	two = append(two, "2")
	two = append(two, raw[26:32]...)
	two = append(two, "1", "other", "628.3185", "4000K", "80", "5")
	two = append(two, raw[32:]...)
	data := []byte(strings.Join(two, "\n"))
	for set, want := range map[int]float64{0: 314.16, 1: 314.16, 2: 628.32} {
		d := nightDesk(t)
		give(t, d, &layout.LightCache{}, data, func(l *doc.LightFile) { l.Set = set })
		lamp := nightLamp(t, nightNow(t, d), "L7")
		if got := float64(lamp.Dist.Flux()); math.Abs(got-want) > 2e-3*want {
			t.Errorf("set %d: %g lm, want %g", set, got, want)
		}
		r, err := output.LuxOf(d.Frame(), d.Rules()[0], light.Vec{})
		must(t, err)
		for _, l := range r.Light {
			if l.Tag == "L7" && l.Set != max(set, 1) {
				t.Errorf("set %d: %+v", set, l)
			}
		}
	}
	d := nightDesk(t)
	give(t, d, &layout.LightCache{}, data, func(l *doc.LightFile) { l.Set = 3 })
	if f := noted(d.Frame(), "LIT-01"); f == nil || !strings.Contains(f.Text, "lamp set: found 3 asked for, expected 1 to 2") {
		t.Errorf("set 3: %+v", f)
	}
	if err := d.Commit(edit.SetLight{Light: doc.LightFile{Lamp: "a", File: "a.ldt", Sum: strings.Repeat("0a", 32), Set: 21}}); err == nil {
		t.Error("lamp set 21 was taken")
	}
}

// TestBeamOfFile: with a good file the beam of a fitting is the file's, for the aim
// handle and for GLR-01; it goes with the file.
func TestBeamOfFile(t *testing.T) {
	d := changed(t, func(i *doc.LampStock) { i.Beam = 0 })
	id := lampNamed(t, d.Frame().Scheme, "L7").ID
	mark := func() bool {
		_, ok := tool.AimMarkOf(d.Frame().Scheme, d.Frame().Stock, id, 80*geom.Millimetre)
		return ok
	}
	// A seat right in front of the lamp, 2 m away and as high as it: 10° off the axis.
	lamp := lampNamed(t, d.Frame().Scheme, "L7")
	seat := &doc.Mark{ID: "seat-x", Tag: "M99", Kind: "seat", Place: doc.Place{At: geom.Pt(lamp.Place.At.X.Metres()+2, lamp.Place.At.Y.Metres())}}
	s := *d.Frame().Scheme
	s.Marks = s.Marks.With(seat)
	d.Load(&s, "")
	alone(t, d, func(l *doc.Lamp) { l.Aim, l.Tilt, l.Place.Height = 90, -10, 1200*geom.Millimetre })
	glare := func() *finding.Finding {
		for _, f := range d.Frame().Findings {
			if f.Code == "GLR-01" && (f.Subject.ID == string(id) || f.Subject.ID == "seat-x") {
				return &f
			}
		}
		return nil
	}
	if mark() || glare() != nil {
		t.Errorf("without a beam: handle %v, %+v", mark(), glare())
	}
	give(t, d, &layout.LightCache{}, sampleLight(t, "synthetic_cosn_24deg_500lm.ies"), nil)
	if f := glare(); !mark() || f == nil || !strings.Contains(f.Limit, "more than 12°") {
		t.Errorf("with a file of 24°: handle %v, %+v", mark(), glare())
	}
	alone(t, d, func(l *doc.Lamp) { l.Tilt = -13 })
	if f := glare(); f != nil {
		t.Errorf("13° off: %s", f.Text)
	}
	d.Undo()
	must(t, d.Commit(edit.RemoveLight{Lamp: lamp.Stock}))
	if mark() || glare() != nil {
		t.Error("the beam stays without its file")
	}
	// Not the file's where that cannot be used.
	d.Undo()
	reread(t, d, &layout.LightCache{})
	if !mark() {
		t.Error("no beam after undo")
	}
	path := d.Frame().Scheme.Lights[0].File
	must(t, os.WriteFile(path, []byte("x"), 0o644))
	reread(t, d, &layout.LightCache{})
	if mark() {
		t.Error("a handle by a file that is broken")
	}
}

// TestAgesOfScheme: the factor for age and dirt is the scheme's: 0.8, 0.7 in the
// ground (formulas page, 6), or what the survey says; figures are told maintained and
// new, and the factor is printed.
func TestAgesOfScheme(t *testing.T) {
	some := func(v float64) q.Maybe[doc.Ratio] { return q.Some(doc.Ratio(v)) }
	for _, c := range []struct {
		name           string
		lamps, ground  q.Maybe[doc.Ratio]
		wall, recessed float64
	}{
		{"left out", q.Maybe[doc.Ratio]{}, q.Maybe[doc.Ratio]{}, 0.8, 0.7},
		{"said", some(0.9), q.Maybe[doc.Ratio]{}, 0.9, 0.7},
		{"low", some(0.6), q.Maybe[doc.Ratio]{}, 0.6, 0.6},
		{"both", some(0.85), some(0.75), 0.85, 0.75},
	} {
		d := changed(t, func(i *doc.LampStock) { i.Kind = "recessed" })
		alone(t, d, func(l *doc.Lamp) { l.Aim, l.Tilt, l.Place.Height = 0, 0, 0 })
		v := d.Frame().Scheme.Survey
		v.Maintenance, v.MaintenanceGround = c.lamps, c.ground
		must(t, d.Commit(edit.SetSurvey{Survey: v}))
		n := nightNow(t, d)
		for i, l := range n.Lamps {
			want := c.wall
			if l.Stock == lampNamed(t, d.Frame().Scheme, "L7").Stock && l.Place.Height == 0 {
				want = c.recessed
			}
			if got := n.Scene.Lamp(i).Maintained; got != want && l.Tag == "L7" || got != c.wall && got != c.recessed {
				t.Errorf("%s: %s has %g, want %g", c.name, l.Tag, got, want)
			}
		}
		if text := n.Ages(); !strings.HasPrefix(text, fmt.Sprint(c.wall)) || strings.Contains(text, "L7") != (c.wall != c.recessed) {
			t.Errorf("%s: printed %q", c.name, text)
		}
		at := lampNamed(t, d.Frame().Scheme, "L7").Place.At
		beside := geom.Pt(at.X.Metres()+1, at.Y.Metres()+1)
		p := n.Probe(beside)
		sum := q.Lux(0)
		for _, s := range p.From {
			for i, l := range n.Lamps {
				if l == s.Lamp {
					sum += s.Lux / q.Lux(n.Scene.Lamp(i).Maintained)
				}
			}
		}
		r, err := output.LuxOf(d.Frame(), d.Rules()[0], light.Vec{X: beside.X.Metres(), Y: beside.Y.Metres(), Z: n.GroundAt(beside)})
		must(t, err)
		if math.Abs(r.New-float64(p.New)) > 1e-3 || math.Abs(r.Horizontal-float64(p.Lux)) > 1e-3 || r.Maintenance != c.wall {
			t.Errorf("%s: without a screen %g and %g new, want %g and %g", c.name, r.Horizontal, r.New, float64(p.Lux), float64(p.New))
		}
		if p.Lux <= 0 || math.Abs(float64(p.New-sum)) > 1e-9 || p.New <= p.Lux {
			t.Errorf("%s: %v maintained, %v new, want %v", c.name, p.Lux, p.New, sum)
		}
		if c.name == "both" {
			d.Undo()
			if got := nightNow(t, d).Maintenance; got != 0.8 {
				t.Errorf("undone: %g", got)
			}
		}
	}
	d := nightDesk(t)
	for _, bad := range []float64{0, 0.05, 1.01, -1, math.NaN()} {
		v := d.Frame().Scheme.Survey
		v.Maintenance = some(bad)
		if d.Commit(edit.SetSurvey{Survey: v}) == nil {
			t.Errorf("a factor of %g was taken", bad)
		}
	}
}

// TestNearIsTold: at a point nearer to a lamp than five times the size of what shines
// the probe and the figures say so; farther off they do not. So does a file that
// says NEARFIELD.
func TestNearIsTold(t *testing.T) {
	d := nightDesk(t)
	data := "IESNA:LM-63-1995\n[NEARFIELD] 1 1 1\nTILT=NONE\n1 -1 1 3 1 1 2 0.1 0.6 0 1 1 5 0 45 90 0 1000 500 0"
	alone(t, d, func(l *doc.Lamp) { l.Aim, l.Tilt, l.Place.Height = 90, -90, 1000*geom.Millimetre })
	give(t, d, &layout.LightCache{}, []byte(data), nil)
	n := nightNow(t, d)
	if s := strings.Join(n.Assumed, "\n"); !strings.Contains(s, "says NEARFIELD: its table is meant for its own distances only") {
		t.Errorf("assumed %q", s)
	}
	at := lampNamed(t, d.Frame().Scheme, "L7").Place.At
	for off, near := range map[float64]bool{0.2: true, 2: true, 4: false} { // 5 · 0.6 m = 3 m
		p := n.Probe(geom.Pt(at.X.Metres()+off, at.Y.Metres()))
		if got := strings.Contains(p.Near, "L7") && strings.Contains(p.Near, "nearer than five times the size"); got != near {
			t.Errorf("%g m aside: %q", off, p.Near)
		}
		r, err := output.LuxOf(d.Frame(), d.Rules()[0], light.Vec{X: at.X.Metres() + off, Y: at.Y.Metres()})
		must(t, err)
		if got := strings.Contains(strings.Join(r.Remarks, "\n"), "L7"); got != near {
			t.Errorf("%g m aside: remarks %q", off, r.Remarks)
		}
	}
}

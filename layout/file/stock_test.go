package file

import (
	"errors"
	"io/fs"
	"math"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"duskwire/assets"
	"duskwire/calc/cable"
	"duskwire/calc/network"
	"duskwire/calc/protect"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

func shippedStock(t testing.TB) doc.Stock {
	t.Helper()
	s, err := Stock(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Keys that schemes may name: taking one away would break files.
const stockKeys = `b6 b10 b16 b20 b25 b32 b40 c6 c10 c16 c20 c25 c32 c40 d6 d10 d16 d20 d25 d32 d40
b6-rcbo-30 b10-rcbo-30 b16-rcbo-30 b20-rcbo-30 b25-rcbo-30 b32-rcbo-30 b40-rcbo-30
c6-rcbo-30 c10-rcbo-30 c16-rcbo-30 c20-rcbo-30 c25-rcbo-30 c32-rcbo-30 c40-rcbo-30
d6-rcbo-30 d10-rcbo-30 d16-rcbo-30 d20-rcbo-30 d25-rcbo-30 d32-rcbo-30 d40-rcbo-30
b6-rcbo-30-f b10-rcbo-30-f b16-rcbo-30-f b20-rcbo-30-f b32-rcbo-30-f
b6-rcbo-30-ac b10-rcbo-30-ac b16-rcbo-30-ac b20-rcbo-30-ac b32-rcbo-30-ac
rcd-10 rcd-30 rcd-30-ac rcd-30-f rcd-100 rcd-100-ac rcd-100-s rcd-300 rcd-300-s
fuse-1 fuse-2 fuse-3 fuse-5 fuse-7 fuse-10 fuse-13
hbc-5 hbc-16 hbc-20 hbc-32 rewire-5 rewire-15 rewire-20 rewire-30
swa-5x1.5 swa-5x2.5 swa-5x4 swa-5x6
swa70-2x1.5 swa70-2x2.5 swa70-2x4 swa70-2x6 swa70-2x10 swa70-2x16
swa70-3x1.5 swa70-3x2.5 swa70-3x4 swa70-3x6 swa70-3x10 swa70-3x16
swa70-4x1.5 swa70-4x2.5 swa70-4x4 swa70-4x6 swa70-4x10 swa70-4x16
swa70-5x1.5 swa70-5x2.5 swa70-5x4 swa70-5x6
nyy-3x1.5 nyy-3x2.5 nyy-3x4 nyy-3x6 nyy-3x10 nyy-3x16
nyy-5x1.5 nyy-5x2.5 nyy-5x4 nyy-5x6 nyy-5x10 nyy-5x16
te-10 te-16 flex-3x4
swa-2x1.5 swa-2x2.5 swa-2x4 swa-2x6 swa-2x10 swa-2x16
swa-3x1.5 swa-3x2.5 swa-3x4 swa-3x6 swa-3x10 swa-3x16
swa-4x1.5 swa-4x2.5 swa-4x4 swa-4x6 swa-4x10 swa-4x16
te-1.0 te-1.5 te-2.5 te-4 te-6 flex-3x0.75 flex-3x1.0 flex-3x1.5 flex-3x2.5
elv-2x1.5 elv-2x2.5 elv-2x4 elv-2x6
brick-3w pillar-10w pillar-12w bollard-9w updown-6w spot-5w-230 spike-5w-12 spike-5w-12-cc
step-1w-12 deck-1w-12 pond-6w-12 strip-5w-12 halogen-20w-12
spike-5w-24 step-1w-24 deck-1w-24 pond-6w-24 halogen-20w-24
strip-10w-m-12 strip-10w-m-24 spike-5w-wide deck-350ma spike-700ma
box-85 box-110 box-150 box-metal-120 box-gel
src-12dc-30 src-12dc-60 src-12dc-100 src-24dc-60 src-24dc-100 src-12ac-60 src-12ac-105 src-12ac-150
src-24ac-60 src-24ac-105 src-24ac-150
src-12ac-20 src-12el-60 src-cc350-42 src-cc700-42
isolator-20 fcu-3 fcu-13 rcd-box-30 receiver-5 photocell timeswitch sensor dimmer-100`

func keysOf(s doc.Stock) map[string]bool {
	keys := map[string]bool{}
	for _, i := range s.Lamps {
		keys[i.Key] = i.Source != ""
	}
	for _, i := range s.Boxes {
		keys[i.Key] = i.Source != ""
	}
	for _, i := range s.Sources {
		keys[i.Key] = i.Source != ""
	}
	for _, i := range s.Gear {
		keys[i.Key] = i.Source != ""
	}
	for _, i := range s.Devices {
		keys[i.Key] = i.Source != ""
	}
	for _, c := range s.Cables {
		keys[c.Key] = c.RSource.Standard != "" && c.DropSource.Standard != ""
	}
	return keys
}

func TestShippedStockIsComplete(t *testing.T) {
	keys := keysOf(shippedStock(t))
	want := strings.Fields(stockKeys)
	for _, key := range want {
		sourced, ok := keys[key]
		if !ok {
			t.Errorf("no stock item %s", key)
		} else if !sourced {
			t.Errorf("%s has no source", key)
		}
	}
	if len(keys) != len(want) {
		t.Errorf("%d stock items, want %d: extend the list", len(keys), len(want))
	}
}

// What the rule set has to know about every cable and device that is shipped.
func TestShippedStockFitsTheRules(t *testing.T) {
	r, s := shippedRules(t), shippedStock(t)
	site := network.Site{Air: q.Celsius(30), Ground: q.Celsius(20), Soil: 2.5}
	for _, c := range s.Cables {
		if cable.Hot(c.Insulation, &r.Cable).Key != c.Insulation {
			t.Errorf("%s: no operating multiplier for %s", c.Key, c.Insulation)
		}
		if _, _, ok := protect.K("core", c.Insulation, &r.Protect); !ok {
			t.Errorf("%s: no k for %s", c.Key, c.Insulation)
		}
		if c.Earth == network.EarthArmour && (c.ArmourR20 <= 0 || c.ArmourArea <= 0) {
			t.Errorf("%s: armour as protective conductor without values", c.Key)
		}
		if c.Earth == network.EarthCore && (c.EarthR20 <= 0 || c.EarthSize <= 0) {
			t.Errorf("%s: protective core without values", c.Key)
		}
		for _, leg := range []network.Leg{{Support: network.Clipped, Method: "C"}, {Support: network.InTree, Method: "E"}} {
			if strings.HasPrefix(c.Key, "te-") && leg.Method == "E" {
				continue // an indoor cable
			}
			if got := cable.LegCapacity(c, leg, site, &r.Cable, false); !got.Known {
				t.Errorf("%s method %s: missing %s", c.Key, leg.Method, got.Missing)
			}
		}
		buried := cable.LegCapacity(c, network.Leg{Support: network.Buried, Method: "D", Depth: 0.5}, site, &r.Cable, false)
		if buried.Known != c.Buriable {
			t.Errorf("%s: rated in the ground %v, buriable %v", c.Key, buried.Known, c.Buriable)
		}
		duct := cable.LegCapacity(c, network.Leg{Support: network.InDuct, Method: "D", Depth: 0.5}, site, &r.Cable, false)
		if want := c.Buriable || c.Family == "nyy-3" || c.Family == "nyy-5"; duct.Known != want {
			t.Errorf("%s: rated in a duct in the ground %v, want %v", c.Key, duct.Known, want)
		}
	}
	for _, d := range s.Devices {
		if _, _, ok := protect.MaxLoop(d.Device, 0.4, 230, &r.Protect); ok != d.Device.Overcurrent() {
			t.Errorf("%s: maximum loop %v", d.Key, ok)
		}
	}
}

// Spot values through the whole chain of stock, construction and table.
// Sources: BS 7671 Tables 4E4A, 4E4B, 4D4A, 4D5, 4F3A; IEC 60228; BS 5467.
func TestCablesTakeTheirValuesFromTables(t *testing.T) {
	s := shippedStock(t)
	for _, tt := range []struct {
		key             string
		r20, earth      float64
		drop            float64
		method          string
		iz, iz70        q.Ampere
		armour, mm, cpc float64
	}{
		{"swa-3x2.5", 7.41, 7.41, 19, "D", 33, 29, 8.2, 2.5, 2.5},
		{"swa-2x6", 3.08, 0, 7.9, "C", 62, 49, 7.0, 6, 0},
		{"swa-4x10", 1.83, 1.83, 4.7, "E", 90, 72, 3.7, 10, 10},
		{"te-1.0", 18.1, 18.1, 44, "100", 13, 0, 0, 1, 1},
		{"te-2.5", 7.41, 12.1, 18, "103", 13.5, 0, 0, 2.5, 1.5},
		{"flex-3x1.5", 13.7, 13.7, 32, "C", 16, 0, 0, 1.5, 1.5},
		{"elv-2x4", 4.61, 0, 11, "D", 37, 0, 0, 4, 0},
		{"swa-5x4", 4.61, 4.61, 12, "D", 43, 37, 6.8, 4, 4},
		{"swa70-3x2.5", 7.41, 7.41, 18, "E", 31, 0, 8.3, 2.5, 2.5},
		{"swa70-2x16", 1.15, 0, 2.8, "C", 89, 0, 3.4, 16, 0},
		{"nyy-3x2.5", 7.41, 7.41, 18, "C", 27, 0, 0, 2.5, 2.5},
		{"nyy-5x6", 3.08, 3.08, 7.3, "D", 46, 0, 0, 6, 6},
		{"te-16", 1.15, 3.08, 2.8, "100", 57, 0, 0, 16, 6},
	} {
		c, ok := s.Cable(tt.key)
		if !ok {
			t.Errorf("no %s", tt.key)
			continue
		}
		rating, _ := c.Rating(tt.method, false)
		seventy, _ := c.Rating(tt.method, true)
		got := []float64{float64(c.R20) * 1e3, float64(c.EarthR20) * 1e3, float64(c.Drop) * 1e3, float64(rating.Iz), float64(seventy.Iz), float64(c.ArmourR20) * 1e3, c.Size.SquareMillimetres(), c.EarthSize.SquareMillimetres()}
		want := []float64{tt.r20, tt.earth, tt.drop, float64(tt.iz), float64(tt.iz70), tt.armour, tt.mm, tt.cpc}
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-9 {
				t.Errorf("%s: %v, want %v", tt.key, got, want)
				break
			}
		}
	}
	for _, c := range s.Cables {
		if want := !strings.HasPrefix(c.Key, "elv-"); c.Mains != want || (c.Earth != network.NoEarth) != want {
			t.Errorf("%s: mains %v, earth %v", c.Key, c.Mains, c.Earth)
		}
	}
	if c, _ := s.Cable("swa-2x10"); c.ArmSource.Evidence != "from memory" {
		t.Errorf("armour of swa-2x10 from %v, want its own evidence", c.ArmSource)
	}
}

const goodStock = `lamps:
  - {key: own-7w, name: Own lamp, kind: spike, current: AC, voltage: 230 V, law: constant power,
     power: 7 W, power_factor: 0.6, class: II, ip: IP65, source: maker's sheet}
devices:
  - {key: b4, name: B4 breaker, kind: breaker, rating: 4 A, curve: B, source: maker's sheet}
gear:
  - {key: own-box, name: Own box, kind: isolator, devices: [b4, fuse-3], ip: IP65, source: practice}
cables:
  - {key: own-3x4, name: Own cable, family: own, construction: armoured 90C, cores: 3, size: 4 mm², earth: core, waste: 5 %, source: maker's sheet}
`

func TestReadStock(t *testing.T) {
	s, err := ReadStock("own.yaml", []byte(goodStock), assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	lamp, _ := s.Lamp("own-7w")
	if lamp.Load.Power != 7 || lamp.Load.PowerFactor != 0.6 || lamp.Class != network.ClassII || lamp.Load.Law != network.ConstantPower {
		t.Errorf("lamp %+v", lamp)
	}
	if c, _ := s.Cable("own-3x4"); c.R20 != q.MilliohmPerMetre(4.61) {
		t.Errorf("cable %+v", c)
	}
	if len(s.Gear) != 1 || len(s.Gear[0].Devices) != 2 {
		t.Errorf("gear %+v", s.Gear)
	}
}

// Each bad file gives one line with file, line and what was expected.
func TestReadStockErrors(t *testing.T) {
	for _, tt := range []struct{ old, new, want string }{
		{"power: 7 W", "power: 7", `own.yaml:3: lamp own-7w: power: found "7", expected a power with one of the units W, mW, kW`},
		{"power: 7 W", "power: 7 A", `found "7 A", expected a power`},
		{"power: 7 W", "power: 0 W", `lamp own-7w: power: found "0 W", expected a value above zero`},
		{"power: 7 W,", "", `lamp own-7w: power: found nothing, expected a power`},
		{"power: 7 W", "powr: 7 W", `lamp own-7w`},
		{"power: 7 W", "power: 7 W, colour: red", `lamp own-7w: found the unknown field "colour", expected one of`},
		{"law: constant power", "law: constant pwer", `did you mean "constant power"?`},
		{"voltage: 230 V", "voltage: 230 V, dropout: 240 V", `dropout: found "240 V", expected a voltage not above the nominal 230 V`},
		{"law: constant power", "law: filament, dropout: 200 V", `dropout: found "200 V", expected no drop-out voltage for the law filament`},
		{"law: constant power", "law: resistor strip", `forward: found nothing, expected the forward voltage`},
		{"law: constant power", "law: resistor strip, forward: 230 V", `forward: found "230 V", expected a voltage above 0 V and below the nominal 230 V`},
		{"law: constant power", "law: constant power, forward: 9 V", `forward: found "9 V", expected no forward voltage for the law constant power`},
		{"law: constant power", "law: constant power, length: 5 m", `length: found "5 m", expected nothing: only lamps of the kind strip have it`},
		{"kind: spike", "kind: strip, tracks: 100 mohm/m", `tracks: found "100 mohm/m", expected the length of the strip besides`},
		{"kind: spike", "kind: strip, length: 0 m", `length`},
		{"kind: spike", "kind: rocket", `lamp own-7w: kind: found "rocket", expected "wall"`},
		{"class: II", "class: 2", `lamp own-7w: class: found "2", expected "I", "II" or "III"`},
		{"ip: IP65, source: maker", "ip: 65, source: maker", `lamp own-7w: ip: found "65", expected an IP code such as IP65`},
		{"power_factor: 0.6", "power_factor: 1.6", `power_factor: found "1.6", expected a number from 0.1 to 1`},
		{"voltage: 230 V", "voltage: 230 V, minimum: 240 V", `minimum: found "240 V", expected a voltage not above the nominal 230 V`},
		{"key: b4,", "key: own-7w,", `own.yaml:5: device own-7w: key: found the key own-7w a second time`},
		{"curve: B, ", "", `device b4: curve: found nothing, expected "B", "C" or "D"`},
		{"kind: breaker", "kind: RCD", `device b4`},
		{"[b4, fuse-3]", "[b4, fuse-4]", `own.yaml:7: gear own-box: devices[2]: found "fuse-4", expected a device of the stock book (did you mean`},
		{"construction: armoured 90C", "construction: armored 90C", `own.yaml:9: cable own-3x4: construction: found "armored 90C", expected a construction of the tables (did you mean "armoured 90C"?)`},
		{"size: 4 mm²", "size: 5 mm²", `cable own-3x4: size: found 5 mm², expected a size of the resistance table of armoured 90C`},
		{"size: 4 mm²", "size: 4 mm", `cable own-3x4: size: found "4 mm", expected an area`},
		{"cores: 3", "cores: 7", `cable own-3x4: size: found 7 cores of 4 mm², expected a row of the armour table`},
		{"lamps:", "lights:", `own.yaml:1: found the unknown field "lights"`},
	} {
		text := strings.Replace(goodStock, tt.old, tt.new, 1)
		if text == goodStock {
			t.Fatalf("%q is not in the file", tt.old)
		}
		_, err := ReadStock("own.yaml", []byte(text), assets.FS)
		checkLine(t, err, tt.want)
	}
}

var inLine = regexp.MustCompile(`^[a-z/0-9-]+\.yaml:\d+: `)

// checkLine wants an error of this package: one line that starts with file and
// line and holds want.
func checkLine(t *testing.T, err error, want string) {
	t.Helper()
	var e *Error
	if !errors.As(err, &e) {
		t.Errorf("got %v, want a file error with %q", err, want)
		return
	}
	text := err.Error()
	if !inLine.MatchString(text) || strings.Contains(text, "\n") || !strings.Contains(text, want) {
		t.Errorf("got  %s\nwant %s", text, want)
	}
}

// altered returns the shipped assets with one text of one file changed.
func altered(t *testing.T, name, old, new string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	err := fs.WalkDir(assets.FS, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".yaml") {
			return err
		}
		data, err := fs.ReadFile(assets.FS, path)
		if path == name {
			text := strings.Replace(string(data), old, new, 1)
			if text == string(data) {
				t.Fatalf("%q is not in %s", old, name)
			}
			data = []byte(text)
		}
		out[path] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// FuzzReadStock: no text makes the reader panic, and an error is one line.
func FuzzReadStock(f *testing.F) {
	set, err := loadTables(assets.FS)
	if err != nil {
		f.Fatal(err)
	}
	shipped := shippedStock(f)
	f.Add([]byte(goodStock))
	f.Add([]byte("lamps: []\nboxes: {}\n"))
	f.Add([]byte("cables:\n  - {key: x, size: -1 mm², ratings: [~]}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		top, err := parseYAML("fuzz.yaml", data)
		if err == nil {
			o := top.object()
			book := &stockBook{tables: set}
			gear := book.read(o)
			o.done()
			if err = top.log.first(); err == nil {
				err = book.settleGear(gear, shipped)
			}
		}
		if err != nil && strings.Contains(err.Error(), "\n") {
			t.Errorf("error of several lines: %q", err)
		}
	})
}

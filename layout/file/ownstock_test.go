package file

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"duskwire/assets"
	"duskwire/layout/doc"
)

const ownStockFile = `duskwire: 1
rules: uk-18
lamps:
  - {id: L1, at: [1 m, 1 m], stock: my-lamp}
gear:
  - {id: G1, at: [0 m, 0 m], stock: my-box}
# A lamp that the client bought.
stock:
  lamps:
    - {key: my-lamp, name: "Brass \"bell\" 4 W", kind: wall, current: AC, voltage: 230 V, law: constant power, power: 4 W,
       power_factor: 0.5, class: I, ip: IP44, source: from the label}
  gear:
    - key: my-box
      name: Fused unit
      kind: fused unit
      ip: IP56
      devices: [fuse-3, my-fuse]
      source: '1234'
  devices:
    - {key: my-fuse, name: 5 A fuse, kind: BS 1362, rating: 5 A, source: label}
`

// The stock section comes back whole from a save, and the same text every time.
func TestOwnStockIsKept(t *testing.T) {
	s, err := ReadScheme("own.yaml", []byte(ownStockFile), book())
	if err != nil {
		t.Fatal(err)
	}
	if l, ok := s.Stock.Lamp("my-lamp"); !ok || l.Name != `Brass "bell" 4 W` {
		t.Errorf("lamp %+v", l)
	}
	if g, ok := s.Stock.GearItem("my-box"); !ok || len(g.Devices) != 2 || g.Source != "1234" {
		t.Errorf("gear %+v", g)
	}
	first, err := WriteScheme(s)
	if err != nil {
		t.Fatal(err)
	}
	back, err := ReadScheme("own.yaml", first, book())
	if err != nil {
		t.Fatalf("%v\n%s", err, first)
	}
	if d := equal(s, back); d != "" {
		t.Errorf("read back differs:\n%s\n%s", d, first)
	}
	second, err := WriteScheme(back)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(first), string(second)); d != "" {
		t.Errorf("written again differs:\n%s", d)
	}
	if !strings.Contains(string(first), `      source: "1234"`) {
		t.Errorf("a text that looks like a number lost its quotes:\n%s", first)
	}
}

func TestOwnStockIsStrict(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{"my-fuse]", "my-fusee]", `own.yaml:17: gear my-box: devices[2]: found "my-fusee", expected a device of the stock book (did you mean "my-fuse"?)`},
		{"ip: IP56", "ip: 56", `own.yaml:16: gear my-box: ip: found "56", expected an IP code such as IP65`},
		{"stock: my-lamp", "stock: my-lump", `own.yaml:4: lamp L1: stock: found "my-lump", expected a lamp of the stock book (did you mean "my-lamp"?)`},
	} {
		text := strings.Replace(ownStockFile, "kind: BS 1362", "kind: "+deviceWords[1], 1)
		_, err := ReadScheme("own.yaml", []byte(strings.Replace(text, c.old, c.new, 1)), book())
		if err == nil || err.Error() != c.want {
			t.Errorf("error %v\nwant  %s", err, c.want)
		}
	}
}

// The shipped examples read, and reading what is written of them gives the
// same scheme.
func TestExamplesRoundTrip(t *testing.T) {
	stock, err := Stock(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"townhouse.yaml", "townhouse-mistakes.yaml"} {
		data, err := assets.FS.ReadFile("examples/" + name)
		if err != nil {
			t.Fatal(err)
		}
		s := mustRead(t, name, data, stock)
		text, err := WriteScheme(s)
		if err != nil {
			t.Fatal(err)
		}
		if d := equal(s, mustRead(t, name, text, stock)); d != "" {
			t.Errorf("%s read back differs:\n%s", name, d)
		}
	}
}

func mustRead(t *testing.T, name string, data []byte, stock doc.Stock) *doc.Scheme {
	t.Helper()
	s, err := ReadScheme(name, data, stock)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

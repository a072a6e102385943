package file

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/layout/doc"

	"pgregory.net/rapid"
)

// The outside that the scanner is checked against is the YAML library: it
// either declines or gives the tree that the library gives, and it never takes
// what the library refuses.

// agrees compares the scanner with the library; took says that the scanner took
// the text.
func agrees(data []byte) (took bool, err error) {
	if checkBytes("x.yaml", data) != nil {
		return false, nil // refused before either is asked
	}
	got, ok := scan(string(data), false)
	if !ok {
		return false, nil
	}
	want, err := parseAll(node{log: &problems{file: "x.yaml"}}, data)
	if err != nil {
		return true, fmt.Errorf("scanned what the library refuses: %w", err)
	}
	return true, sameTree(&got, want.y, "")
}

func sameTree(a, b *tree, at string) error {
	if a.shape != b.shape || a.line != b.line || a.text != b.text || a.isNull() != b.isNull() || a.isText() != b.isText() || len(a.items) != len(b.items) {
		return fmt.Errorf("at %q: scanned %d %q of line %d with %d, the library has %d %q of line %d with %d", at,
			a.shape, a.text, a.line, len(a.items), b.shape, b.text, b.line, len(b.items))
	}
	for i := range a.items {
		if err := sameTree(&a.items[i], &b.items[i], fmt.Sprint(at, "/", i)); err != nil {
			return err
		}
	}
	return nil
}

// seeds are all files of ours, broken ones too.
func seeds(t testing.TB) map[string][]byte {
	out := map[string][]byte{}
	for _, root := range []string{"../../testdata", "testdata"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err == nil && strings.HasSuffix(path, ".yaml") {
				out[path], err = os.ReadFile(path)
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	err := fs.WalkDir(assets.FS, ".", func(path string, d fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".yaml") {
			out[path], err = fs.ReadFile(assets.FS, path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestScannerAgrees: on every file there is, and it takes most of them.
func TestScannerAgrees(t *testing.T) {
	files, taken := seeds(t), 0
	for name, data := range files {
		took, err := agrees(data)
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if took {
			taken++
		}
		if strings.HasPrefix(name, "examples/") && !took {
			t.Errorf("%s is not scanned", name)
		}
	}
	if taken < len(files)/2 {
		t.Errorf("%d of %d files are scanned", taken, len(files))
	}
}

// Small texts of which each is a trap of its own.
func TestScannerTraps(t *testing.T) {
	for _, text := range []string{
		"a: b\n c\n", "a: b\n# c\n d\n", "a: b #c\n", "a: b#c\n", "a: \"b\"#c\n", "a: 'b''c'\n", "a: \"b\\\n  c\"\n",
		"a:\n- b\n- c\nd: e\n", "a:\n- b\n-c\n", "a:\n  - b\n - c\n", "- a\n- b: c\n  d: e\n", "- - a\n", "a: - b\n",
		"a: {b: c, d: [e, f]}\n", "a: {b: c,}\n", "a: {b:c}\n", "a: {b : c}\n", "a: [b: c]\n", "a: [a,b]\n", "a: [1:2, 3]\n", "a: [a:]\n",
		"a: {b: c} d\n", "a: {b: c\n  }\n", "{a: b}\n", "a: ~\n", "a: null\n", "null: a\n", "a:\nb: c\n", "a: # c\n  b: d\n",
		"a: b: c\n", "a: b:\n", "a: http://x\n", "a: -b\n", "a: - b\n", "a: -\n", "a: -5 m\n", "a: .5\n", "a: +1\n", "a: 0x1F\n", "a: 1_000\n",
		"a: !!str b\n", "a: &x b\nc: *x\n", "a: |\n  b\n", "a: >-\n  b\n", "? a\n: b\n", "%YAML 1.1\n---\na: b\n", "---\na: b\n", "a: b\n...\n",
		"a: b\n---\nc: d\n", " a: b\n", "a: b\n c: d\n", "a:\n   b: c\n  d: e\n", "a:\n  b: c\n   d: e\n", "<<: a\n", "a: <<\n",
		"a: yes\n", "a: 2026-05-01\n", "a: \"\\u00e9\\n\\t\\\"\\\\\"\n", "a: b\u0085c\n", "a: b\u2028c\n", "# c\u2028a: b\na: b\n", "a: \u00a0b\n", "a: b\u00a0\n",
		"a: b\r\nc: d\r\n", "a: \x01\n", "a: 'b\n", "a: [b\n", "a: b, c\n", "a: b] c\n", "a: [b? c]\n", "a: [b ?c]\n", "a: [b#c, d #e]\n", "a: {}\nb: []\n",
		"a: @b\n", "a: `b\n", "a: %b\n", "a: b %\n", "a: é\n", "é: a\n", "a: \ufeffb\n", "a:b\n", "a :b\n", "a : b\n", "\"a\": b\n", "- a\nb: c\n", "a: b\n- c\n",
		"a: b\n\n\n  # c\n\nd: e\n", "a:\n  # c\n  - b\n# d\n  - e\n", "a:\n  b: c\n # d\n  e: f\n", "a: b   \n", "a: b\n   \n", "a: b", "a:", "- ", "-", "", "a",
		"a: " + strings.Repeat("x", 3000) + "\n", strings.Repeat("k", 3000) + ": a\n", "a: [" + strings.Repeat("x, ", 2000) + "x]\n", "a: \"" + strings.Repeat("x", 3000) + "\"\n",
		"a: " + strings.Repeat("[", 40) + strings.Repeat("]", 40) + "\n", "a: 1:2:3\n", "a: ''\n", "a: \"\"\n", "a: \"b\" \n", "a: [\"b\",'c']\n", "a: {b: \"c\"}\n", "a: {b: \"c\"d}\n",
	} {
		if _, err := agrees([]byte(text)); err != nil {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// mutate changes a few places of a file, by signs that mean something to YAML
// and by moving lines.
func mutate(t *rapid.T, data []byte) []byte {
	bits := []string{" ", "  ", "\n", "- ", "-", ":", ": ", "#", " #", ",", "[", "]", "{", "}", "\"", "'", "\\", "?", "|", ">", "&a", "*a", "!", "%", "~", "null", "é", "\u00a0", "\u2028", "0", "."}
	lines := strings.SplitAfter(string(data), "\n")
	at := rapid.IntRange(0, len(lines)-1).Draw(t, "window")
	lines = append(lines[:min(1, at):min(1, at)], lines[at:min(len(lines), at+rapid.IntRange(1, 30).Draw(t, "lines"))]...)
	text := strings.Join(lines, "")
	for range rapid.IntRange(1, 4).Draw(t, "changes") {
		i := rapid.IntRange(0, len(text)).Draw(t, "at")
		cut := min(len(text), i+rapid.IntRange(0, 3).Draw(t, "cut"))
		text = text[:i] + rapid.SampledFrom(bits).Draw(t, "bit") + text[cut:]
	}
	return []byte(text)
}

func TestScannerAgreesOnWhatIsMutated(t *testing.T) {
	files := seeds(t)
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	taken := 0
	rapid.Check(t, func(t *rapid.T) {
		for range 20 {
			data := mutate(t, files[rapid.SampledFrom(names).Draw(t, "file")])
			took, err := agrees(data)
			if err != nil {
				t.Fatalf("%q: %v", data, err)
			}
			if took {
				taken++
			}
		}
	})
	if taken < 50 {
		t.Errorf("only %d texts were scanned", taken)
	}
}

func FuzzScanner(f *testing.F) {
	for _, data := range seeds(f) {
		f.Add(data[:min(len(data), 600)])
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		if _, err := agrees(data); err != nil {
			t.Fatal(err)
		}
	})
}

// long is a scheme whose lists are left for later and cut into pieces.
func long(lamps int) string {
	var b strings.Builder
	b.WriteString("duskwire: 1\nrules: uk-18\nlamps: # many\n")
	for i := range lamps {
		fmt.Fprintf(&b, "  - id: L%d\n    at: [%d m, 2.5 m] # there\n    stock: brick-3w\n\n# between\n", i, i%500)
	}
	b.WriteString("runs:\n")
	for i := range lamps - 1 {
		fmt.Fprintf(&b, "  - {id: R%d, cable: swa-3x1.5, from: {on: L%d}, to: {on: L%d}, legs: [{support: buried, depth: 500 mm}]}\n", i, i, i+1)
	}
	b.WriteString("zones:\n  - {id: Z1, name: Last}\n")
	return b.String()
}

// TestQuickWay: the quick way gives the scheme that the slow one gives, and
// gives up where the slow one finds an error.
func TestQuickWay(t *testing.T) {
	stock, rules, err := Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	lib := func() (doc.Stock, []string) { return stock, Keys(rules) }
	files := seeds(t)
	whole := long(1600)
	files["long"] = []byte(whole)
	files["twice"] = []byte(strings.Replace(whole, "id: L1200\n", "id: L1\n", 1))
	files["twice over kinds"] = []byte(strings.Replace(whole, "id: R1200,", "id: L1,", 1))
	files["unknown field"] = []byte(strings.Replace(whole, "  - id: L1400\n", "  - id: L1400\n    colour: red\n", 1))
	files["wrong unit"] = []byte(strings.Replace(whole, "[250 m, 2.5 m]", "[250 V, 2.5 m]", 1))
	files["no YAML"] = []byte(strings.Replace(whole, "  - id: L1100\n", "  - id: L1100\n  at\n", 1))
	files["refers to nothing"] = []byte(strings.Replace(whole, "to: {on: L1599}", "to: {on: L3999}", 1))
	files["no id"] = []byte(strings.Replace(whole, "id: L1400\n", "tag: L1400\n", 1))
	files["section twice"] = []byte(whole + "lamps:\n  - {id: X, at: [1 m, 1 m], stock: brick-3w}\n")
	files["folded"] = []byte(strings.Replace(whole, "    stock: brick-3w\n", "    stock: >-\n      brick-3w\n", 1))
	quick := 0
	for name, data := range files {
		got, ok := quickScheme("x.yaml", string(data), lib)
		want, err := slowScheme("x.yaml", data, lib)
		switch {
		case ok && err != nil:
			t.Errorf("%s: read the quick way in spite of %v", name, err)
		case ok:
			quick++
			if diff := equal(got, want); diff != "" {
				t.Errorf("%s: the quick way differs (-quick +slow)\n%s", name, diff)
			}
		case name == "long" || strings.HasPrefix(name, "examples/"):
			t.Errorf("%s is not read the quick way", name)
		}
	}
	if quick < 5 {
		t.Errorf("%d files read the quick way", quick)
	}
}

// TestPiecesAreTheWhole: cutting a list loses nothing and cuts before items.
func TestPiecesAreTheWhole(t *testing.T) {
	b := &body{column: 2, text: strings.Repeat("  - id: L1\n    at: [1 m, 2 m]\n", 20000)}
	pieces := b.pieces()
	if strings.Join(pieces, "") != b.text || len(pieces) < 5 {
		t.Errorf("%d pieces that are not the whole", len(pieces))
	}
	for _, p := range pieces {
		if !strings.HasPrefix(p, "  - ") {
			t.Errorf("a piece starts with %q", p[:10])
		}
	}
}

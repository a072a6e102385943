package file_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// fragmentStock knows the words of the texts below.
func fragmentStock() doc.Stock {
	return doc.Stock{Lamps: []doc.LampStock{{Key: "brick-3w"}}, Boxes: []doc.BoxStock{{Key: "box-85"}}}
}

const fragmentText = `duskwire-fragment: 1
title: Garden
lamps:
  - id: a
    tag: L1
    at: [1 m, 2 m]
    stock: brick-3w
    zone: z
runs:
  - id: r
    tag: R1
    from: {on: b}
    to: {on: a}
    legs:
      - {support: buried, depth: 600 mm}
zones:
  - id: z
    tag: Z1
    name: Path
    number: 1
outside:
  - id: b
    tag: B1
    kind: box
    at: [0 m, 2 m]
    height: 300 mm
`

func TestFragmentReadsAndWrites(t *testing.T) {
	f, err := file.ReadFragment("clipboard", []byte(fragmentText), fragmentStock())
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Outside) != 1 || f.Outside[0] != (doc.Outside{ID: "b", Tag: "B1", Kind: doc.BoxKind, At: doc.Place{At: geom.Pt(0, 2), Height: 300 * geom.Millimetre}}) {
		t.Errorf("outside %+v", f.Outside)
	}
	back, err := file.WriteFragment(f)
	if err != nil || string(back) != fragmentText {
		t.Errorf("%v, written\n%s", err, back)
	}
}

// What comes from a clipboard is refused in words with its line.
func TestFragmentRefusals(t *testing.T) {
	swap := func(old, new string) string { return strings.Replace(fragmentText, old, new, 1) }
	many := "duskwire-fragment: 1\nmarks:\n" + strings.Repeat("  - {id: x, at: [0 m, 0 m], kind: tree}\n", 3)
	for _, c := range []struct{ name, text, want string }{
		{"a word", "hello", "clipboard: found something else, expected a part of a scheme"},
		{"nothing", "", "found something else"},
		{"a whole scheme", "duskwire: 1\nrules: uk-18\n", "found something else"},
		{"newer", swap("fragment: 1", "fragment: 2"), "clipboard:1: duskwire-fragment: found version 2, expected at most 1"},
		{"no version", swap("fragment: 1", "fragment: one"), "expected a whole number"},
		{"empty", "duskwire-fragment: 1\ntitle: x\n", "found 0 things, expected from 1 to 5000"},
		{"unknown stock", swap("brick-3w", "brick-9w"), `clipboard:7: lamp L1: stock: found "brick-9w", expected a lamp of the stock book (did you mean "brick-3w"?)`},
		{"end on nothing", swap("{on: b}", "{on: c}"), `run R1: from.on: found "c"`},
		{"zone of nothing", swap("zone: z", "zone: y"), `lamp L1: zone: found "y"`},
		{"far away", swap("[1 m, 2 m]", "[20 km, 2 m]"), "lamp L1"},
		{"twice one id", swap("- id: b", "- id: a"), "an id of its own"},
		{"same id twice", many, "an id of its own"},
		{"unknown field", swap("title:", "titel:"), "unknown field"},
		{"kind of no thing", swap("kind: box", "kind: lawn"), "expected"},
		{"anchor", swap("title: Garden", "title: &a Garden"), "an anchor"},
		{"two documents", fragmentText + "---\nduskwire-fragment: 1\n", "second document"},
		{"decisions stay", fragmentText + "decisions:\n  - {code: X, reason: y}\n", "unknown field"},
		{"too long", "duskwire-fragment: 1\n#" + strings.Repeat("x", 4<<20), "more than 4 MiB"},
		{"deep", "duskwire-fragment: 1\nlamps: " + strings.Repeat("[", 2000) + strings.Repeat("]", 2000), "found"},
	} {
		_, err := file.ReadFragment("clipboard", []byte(c.text), fragmentStock())
		if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v, want %s", c.name, err, c.want)
		}
	}
}

// Any text that is taken writes and reads back as it is, and pasting it
// either works or is refused; nothing panics.
func FuzzFragment(f *testing.F) {
	f.Add([]byte(fragmentText))
	if full, err := os.ReadFile("testdata/full.yaml"); err == nil {
		f.Add(bytes.Replace(full, []byte("duskwire: 1"), []byte("duskwire-fragment: 1"), 1))
	}
	f.Add([]byte("duskwire-fragment: 1\nmarks:\n  - {id: x, at: [0 m, 0 m], kind: tree, lock: true}\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		got, err := file.ReadFragment("clipboard", data, fragmentStock())
		if err != nil {
			return
		}
		text, err := file.WriteFragment(got)
		if err != nil {
			t.Fatal(err)
		}
		again, err := file.ReadFragment("clipboard", text, fragmentStock())
		if err != nil {
			t.Fatalf("%v\n%s", err, text)
		}
		if twice, err := file.WriteFragment(again); err != nil || !bytes.Equal(text, twice) {
			t.Fatalf("%v\n%s\n%s", err, text, twice)
		}
		s := doc.New("uk-18")
		n, err := edit.NewPaste(again, geom.Pt(1, 1), doc.NewID).Apply(s)
		if err == nil {
			if err := doc.Validate(n); err != nil {
				t.Fatal(err)
			}
		}
	})
}

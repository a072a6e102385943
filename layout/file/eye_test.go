package file

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

func looked() *doc.Scheme {
	s := doc.New("uk-18")
	s.Eyes = []doc.Eye{
		{Tag: "V1", Name: "Terrace door", Place: doc.Place{At: geom.Pt(3, 1), Height: doc.UsualEyeHeight}, Bearing: 20, Field: doc.UsualField},
		{Tag: "V2", Place: doc.Place{At: geom.Pt(-1, 1), Height: geom.Metre}, Tilt: -5, Field: 90},
	}
	return s
}

func TestEyesInFile(t *testing.T) {
	data, err := WriteScheme(looked())
	if err != nil {
		t.Fatal(err)
	}
	const want = `eyes:
  - tag: V1
    name: Terrace door
    at: [3 m, 1 m]
    bearing: 20 deg
  - tag: V2
    at: [-1 m, 1 m]
    height: 1000 mm
    tilt: -5 deg
    field: 90 deg
`
	if !strings.Contains(string(data), want) {
		t.Errorf("found\n%s\nwant\n%s", data, want)
	}
	if _, ok := quickScheme("a.yaml", string(data), func() (doc.Stock, []string) { return book(), nil }); !ok {
		t.Error("not read the quick way")
	}
	for _, c := range []struct{ old, new, want string }{
		{"tag: V2", "tag: V1", `eye 2: tag: found "V1" a second time, expected every tag once`},
		{"    at: [-1 m, 1 m]\n", "", "eye 2: at: found nothing"},
		{"field: 90 deg", "field: 180 deg", "eye 2: field: found"},
		{"tilt: -5 deg", "tilt: nan deg", "eye 2: tilt: found"},
		{"height: 1000 mm", "height: -1 m", "eye 2: height: found"},
		{"bearing: 20 deg", "looks: 20 deg", `the unknown field "looks"`},
		{want, "eyes: 7\n", `eyes: found "7", expected a list`},
		{want, "eyes:\n" + strings.Repeat("  - {tag: a, at: [1 m, 1 m]}\n", doc.MostEyes+1), "found 51 eye points, expected at most 50"},
	} {
		_, err := ReadScheme("a.yaml", []byte(strings.Replace(string(data), c.old, c.new, 1)), book())
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "a.yaml:") || strings.Contains(err.Error(), "\n") {
			t.Errorf("%.60q: %v, want %q", c.new, err, c.want)
		}
	}
}

// Whatever eye points a scheme has read back the same, the quick way and the slow
// one.
func TestEyesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := looked()
		for i := range s.Eyes {
			e := &s.Eyes[i]
			e.Name = rapid.StringMatching(`[\p{L} '#:&{}\[\]0-9.-]{0,30}`).Draw(t, "name")
			e.Place.Height = geom.Length(rapid.Int64Range(10_000, 100_000_000).Draw(t, "height"))
			e.Bearing = rapid.Float64Range(-720, 720).Draw(t, "bearing")
			e.Tilt = rapid.Float64Range(-60, 60).Draw(t, "tilt")
			e.Field = rapid.Float64Range(10, 150).Draw(t, "field")
		}
		data, err := WriteScheme(s)
		if err != nil {
			t.Fatal(err)
		}
		back, err := ReadScheme("a.yaml", data, book())
		if err != nil || !slices.Equal(back.Eyes, s.Eyes) {
			t.Fatalf("%v\n%+v\n%+v", err, back, s.Eyes)
		}
		slow, err := slowScheme("a.yaml", data, func() (doc.Stock, []string) { return book(), nil })
		if err != nil || !slices.Equal(slow.Eyes, s.Eyes) {
			t.Fatalf("slow: %v\n%+v\n%+v", err, slow, s.Eyes)
		}
	})
}

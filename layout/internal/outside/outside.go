// Package outside holds the values against which the program is checked that
// come from elsewhere: printed tables, published worked examples, hand
// calculations. They stand in testdata/checks, one file a subject. A test runs
// every row of a file with Each, and testdata/CHECKS.md is written from the
// same rows, so that the page lists what the tests hold and nothing else.
package outside

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// File is one file of rows.
type File struct {
	Key   string `yaml:"-"` // name of the file without its ending
	Title string `yaml:"title"`
	About string `yaml:"about"` // what the program does to come to its value
	Unit  string `yaml:"unit"`  // of the rows that name none
	// Source and Evidence are those of the rows that name none.
	Source   string `yaml:"source"`
	Evidence string `yaml:"evidence"`
	Rows     []Row  `yaml:"rows"`
}

// Row is one value from outside.
type Row struct {
	What      string         `yaml:"what"`
	In        map[string]any `yaml:"in"` // what the test needs to know
	Value     float64        `yaml:"value"`
	Tolerance float64        `yaml:"tolerance"`
	Unit      string         `yaml:"unit"`
	Source    string         `yaml:"source"`
	Evidence  string         `yaml:"evidence"`
	// Negative marks a printed value that is wrong: the program must not come
	// within the tolerance of it.
	Negative bool   `yaml:"negative"`
	Note     string `yaml:"note"`
}

// evidences are the grades of evidence, as the tables have them.
var evidences = map[string]string{
	"found": "found", "memory": "from memory", "derived": "derived", "practice": "common practice, no source",
}

// Root returns the top folder of the module, looked for from the working
// directory upwards.
func Root() (string, error) {
	dir, err := os.Getwd()
	for err == nil {
		if _, gone := os.Stat(filepath.Join(dir, "go.mod")); gone == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fmt.Errorf("no go.mod above the working directory")
		}
		dir = up
	}
	return "", err
}

// Load reads every file of testdata/checks in the order of their names.
func Load() ([]File, error) {
	root, err := Root()
	if err != nil {
		return nil, err
	}
	names, err := filepath.Glob(filepath.Join(root, "testdata", "checks", "*.yaml"))
	if err != nil || len(names) == 0 {
		return nil, fmt.Errorf("testdata/checks: found no file (%v)", err)
	}
	var out []File
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		f := File{Key: strings.TrimSuffix(filepath.Base(name), ".yaml")}
		d := yaml.NewDecoder(bytes.NewReader(data))
		d.KnownFields(true)
		if err := d.Decode(&f); err != nil {
			return nil, fmt.Errorf("%s: %w", filepath.Base(name), err)
		}
		if err := f.settle(); err != nil {
			return nil, fmt.Errorf("%s: %w", filepath.Base(name), err)
		}
		out = append(out, f)
	}
	return out, nil
}

// settle fills rows in from the head of the file and refuses rows that could
// not fail or say too little.
func (f *File) settle() error {
	if f.Title == "" || f.About == "" || len(f.Rows) == 0 {
		return fmt.Errorf("found no title, no about or no rows")
	}
	for i := range f.Rows {
		r := &f.Rows[i]
		first := func(own *string, head string) {
			if *own == "" {
				*own = head
			}
		}
		first(&r.Unit, f.Unit)
		first(&r.Source, f.Source)
		first(&r.Evidence, f.Evidence)
		word, ok := evidences[r.Evidence]
		switch {
		case r.What == "" || r.Source == "":
			return fmt.Errorf("row %d: found no what or no source", i+1)
		case !ok:
			return fmt.Errorf("row %d (%s): evidence: found %q, expected found, memory, derived or practice", i+1, r.What, r.Evidence)
		case !(r.Tolerance > 0) || math.IsInf(r.Value, 0) || math.IsNaN(r.Value):
			return fmt.Errorf("row %d (%s): expected a value and a tolerance above zero", i+1, r.What)
		case r.Value != 0 && r.Tolerance > 0.1*math.Abs(r.Value):
			return fmt.Errorf("row %d (%s): tolerance %v is more than a tenth of %v: such a row holds little", i+1, r.What, r.Tolerance, r.Value)
		}
		r.Evidence = word
	}
	return nil
}

// Input is a row as the test sees it.
type Input struct {
	Row
	t    testing.TB
	used map[string]bool
}

// Num returns a number of the row's input.
func (in *Input) Num(key string) float64 {
	in.t.Helper()
	in.used[key] = true
	switch v := in.In[key].(type) {
	case int:
		return float64(v)
	case float64:
		return v
	}
	in.t.Fatalf("%s: input %s: found %v, expected a number", in.What, key, in.In[key])
	return 0
}

// Text returns a text of the row's input.
func (in *Input) Text(key string) string {
	in.t.Helper()
	in.used[key] = true
	if v, ok := in.In[key].(string); ok {
		return v
	}
	in.t.Fatalf("%s: input %s: found %v, expected a text", in.What, key, in.In[key])
	return ""
}

// Has reports whether the row has an input.
func (in *Input) Has(key string) bool { _, ok := in.In[key]; return ok }

// Each runs every row of a file: got works out the program's value, which has
// to lie within the tolerance of the row's, or outside it for a negative row.
// An input that got did not ask for is an error: the row would not be what it
// says.
func Each(t *testing.T, key string, got func(*Input) float64) {
	t.Helper()
	files, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.Key != key {
			continue
		}
		for _, r := range f.Rows {
			t.Run(r.What, func(t *testing.T) {
				in := &Input{Row: r, t: t, used: map[string]bool{}}
				r.hold(t, got(in))
				for name := range r.In {
					if !in.used[name] {
						t.Errorf("input %s was not used", name)
					}
				}
			})
		}
		return
	}
	t.Fatalf("testdata/checks/%s.yaml: not there", key)
}

// hold compares the program's value with the row.
func (r Row) hold(t *testing.T, got float64) {
	t.Helper()
	near := math.Abs(got-r.Value) <= r.Tolerance*(1+1e-9)
	switch {
	case math.IsNaN(got):
		t.Error("the program gives no value")
	case r.Negative && near:
		t.Errorf("%v repeats the wrong print %v %s", got, r.Value, r.Unit)
	case !r.Negative && !near:
		t.Errorf("%v, want %v ± %v %s (%s, %s)", got, r.Value, r.Tolerance, r.Unit, r.Source, r.Evidence)
	}
}

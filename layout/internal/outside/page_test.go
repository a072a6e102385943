package outside

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write testdata/CHECKS.md anew")

// runs finds the test that runs each file: a call of outside.Each with its key
// in a test function of the tree layout.
func runs(t *testing.T, root string) map[string]string {
	t.Helper()
	each := regexp.MustCompile(`outside\.Each\(t, "([a-z0-9-]+)"`)
	name := regexp.MustCompile(`(?m)^func (Test\w+)\(`)
	out := map[string]string{}
	err := filepath.WalkDir(filepath.Join(root, "layout"), func(path string, d os.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, "_test.go") || strings.HasSuffix(path, "outside/page_test.go") {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		for _, m := range each.FindAllSubmatchIndex(data, -1) {
			tests := name.FindAllSubmatch(data[:m[0]], -1)
			if len(tests) == 0 {
				continue
			}
			rel, err := filepath.Rel(root, filepath.Dir(path))
			if err != nil {
				return err
			}
			key := string(data[m[2]:m[3]])
			if out[key] != "" {
				t.Errorf("%s is run twice: by %s too", key, tests[len(tests)-1][1])
			}
			out[key] = filepath.ToSlash(rel) + " " + string(tests[len(tests)-1][1])
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestPage: the page is what the rows give, every file is run by a test, and
// there are at least a hundred values.
func TestPage(t *testing.T) {
	files, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	root, err := Root()
	if err != nil {
		t.Fatal(err)
	}
	ran := runs(t, root)
	total := 0
	for _, f := range files {
		if ran[f.Key] == "" {
			t.Errorf("testdata/checks/%s.yaml: no test runs it", f.Key)
		}
		total += len(f.Rows)
		seen := map[string]bool{}
		for _, r := range f.Rows {
			if seen[r.What] {
				t.Errorf("%s: two rows %q", f.Key, r.What)
			}
			seen[r.What] = true
		}
	}
	if total < 100 {
		t.Errorf("%d outside values, want at least 100", total)
	}
	path := filepath.Join(root, "testdata", "CHECKS.md")
	want := Page(files, ran)
	if *update {
		if err := os.WriteFile(path, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Errorf("testdata/CHECKS.md is stale (-rows +page), -update writes it anew:\n%s", diff)
	}
}

// A file that could not fail, or says too little, is refused.
func TestSettle(t *testing.T) {
	good := Row{What: "x", Source: "s", Evidence: "found", Value: 10, Tolerance: 0.1}
	for what, spoil := range map[string]func(*Row){
		"no source":             func(r *Row) { r.Source = "" },
		"no name":               func(r *Row) { r.What = "" },
		"no tolerance":          func(r *Row) { r.Tolerance = 0 },
		"a tolerance of a half": func(r *Row) { r.Tolerance = 5 },
		"rumour":                func(r *Row) { r.Evidence = "rumour" },
	} {
		r := good
		spoil(&r)
		f := File{Title: "t", About: "a", Rows: []Row{good, r}}
		if f.settle() == nil {
			t.Errorf("a row with %s was taken", what)
		}
	}
	f := File{Title: "t", About: "a", Rows: []Row{good}}
	if err := f.settle(); err != nil || f.Rows[0].Evidence != "found" {
		t.Errorf("a good row: %v", err)
	}
}

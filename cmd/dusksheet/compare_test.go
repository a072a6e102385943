package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// TestCompareGolden keeps what compare prints for the example and the one with
// mistakes; its JSON is a documented interface.
func TestCompareGolden(t *testing.T) {
	for _, format := range []string{"text", "json"} {
		_, out, errs := sheet("compare", example, mistakes, "--format", format)
		if errs != "" {
			t.Fatal(errs)
		}
		if format == "json" && !json.Valid([]byte(out)) {
			t.Error("not valid JSON")
		}
		path := filepath.Join("testdata", "compare."+format)
		if *update {
			if err := os.WriteFile(path, []byte(out), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if out != string(want) {
			t.Errorf("compare differs from %s; look at the difference and run with -update if it is meant:\n%s", path, out)
		}
	}
}

// With a second scheme the client pack has a page more, the others stay as they
// are, and the same schemes give the same bytes.
func TestPacksWith(t *testing.T) {
	dirs := [3]string{t.TempDir(), t.TempDir(), t.TempDir()}
	for i, dir := range dirs {
		args := []string{"packs", example, "--out", dir, "--date", "2026-11-26"}
		if i > 0 {
			args = append(args, "--with", mistakes)
		}
		if code, out, errs := sheet(args...); code != 0 || errs != "" {
			t.Fatalf("%v: exit %d, %s%s", args, code, out, errs)
		}
	}
	read := func(i int, name string) []byte {
		data, err := os.ReadFile(filepath.Join(dirs[i], name))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	for _, name := range []string{"client-pack.pdf", "site-pack.pdf", "test-pack.pdf"} {
		if bytes.Equal(read(0, name), read(1, name)) == (name == "client-pack.pdf") {
			t.Errorf("%s: with and without a second scheme", name)
		}
		if !bytes.Equal(read(1, name), read(2, name)) {
			t.Errorf("%s: other bytes the second time", name)
		}
	}
}

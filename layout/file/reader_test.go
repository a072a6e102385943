package file_test

import (
	"path/filepath"
	"testing"

	"duskwire/layout/file"
)

// Without a path the example is read, with one the file, and a name that is
// not there is told by its path.
func TestReader(t *testing.T) {
	r, err := file.NewReader("", "")
	if err != nil {
		t.Fatal(err)
	}
	example, err := r.Load("")
	if err != nil || example.Lamps.Len() == 0 {
		t.Fatalf("the example: %v", err)
	}
	path := filepath.Join(t.TempDir(), "garden.yaml")
	if _, err := r.Load(path); err == nil {
		t.Errorf("%s is not there, yet it was read", path)
	}
	example.Title = "Saved by the test"
	if err := file.SaveScheme(path, example); err != nil {
		t.Fatal(err)
	}
	if s, err := r.Load(path); err != nil || s.Title != example.Title {
		t.Errorf("the file: %v", err)
	}
	if _, err := file.NewReader(filepath.Join(t.TempDir(), "none.yaml"), ""); err == nil {
		t.Error("a stock file that is not there was read")
	}
}

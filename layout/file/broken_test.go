package file

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout/doc"
)

const brokenFolder = "../../testdata/broken"

// Every broken file gives one error of one line, kept in errors.txt.
func TestBrokenFiles(t *testing.T) {
	paths, err := filepath.Glob(filepath.Join(brokenFolder, "*.yaml"))
	if err != nil || len(paths) < 20 {
		t.Fatalf("%d broken files, want at least 20 (%v)", len(paths), err)
	}
	var lines strings.Builder
	for _, path := range paths {
		s, err := LoadScheme(path, book())
		var e *Error
		switch {
		case !errors.As(err, &e):
			t.Errorf("%s: error %v of scheme %v, want a *file.Error", path, err, s)
			continue
		case s != nil:
			t.Errorf("%s: a scheme came with the error", path)
		case strings.Contains(err.Error(), "\n"):
			t.Errorf("%s: the error has several lines:\n%s", path, err)
		}
		lines.WriteString(err.Error() + "\n")
	}
	golden(t, filepath.Join(brokenFolder, "errors.txt"), []byte(lines.String()))
}

func TestTooLargeIsRefusedBeforeParsing(t *testing.T) {
	data := []byte("duskwire: 1\nrules: uk-18\n#" + strings.Repeat("x", maxBytes))
	_, err := ReadScheme("big.yaml", data, doc.Stock{})
	if want := "big.yaml: found more than 16 MiB, expected a file of at most 16 MiB"; err == nil || err.Error() != want {
		t.Errorf("error %v, want %s", err, want)
	}
	path := filepath.Join(t.TempDir(), "big.yaml")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := LoadScheme(path, doc.Stock{}); err == nil || !strings.Contains(err.Error(), "at most 16 MiB") {
		t.Errorf("loading it gave %v", err)
	}
}

// The error tells every part of itself, so that a program can use it.
func TestErrorParts(t *testing.T) {
	_, err := LoadScheme(filepath.Join(brokenFolder, "dangling-stock.yaml"), book())
	var e *Error
	if !errors.As(err, &e) {
		t.Fatal(err)
	}
	want := Error{
		File: "dangling-stock.yaml", Line: 6, Entity: "lamp L7", Field: "stock",
		Found: `"spike-9"`, Expected: "a lamp of the stock book", Hint: `did you mean "spike-5w-12"?`,
	}
	if *e != want {
		t.Errorf("error %+v, want %+v", *e, want)
	}
}

func FuzzReadScheme(f *testing.F) {
	for _, folder := range []string{brokenFolder, "testdata"} {
		paths, _ := filepath.Glob(filepath.Join(folder, "*.yaml"))
		for _, path := range paths {
			data, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := ReadScheme("fuzz.yaml", data, book())
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Fatalf("an error of several lines: %v", err)
			}
			return
		}
		text, err := WriteScheme(s)
		if err != nil {
			t.Fatalf("what was read cannot be written: %v", err)
		}
		back, err := ReadScheme("fuzz.yaml", text, book())
		if err != nil {
			t.Fatalf("what was written cannot be read: %v\n%s", err, text)
		}
		if d := equal(s, back); d != "" {
			t.Fatalf("read back differs:\n%s\n%s", d, text)
		}
	})
}

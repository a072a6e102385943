package ui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// TestGoroutinesOnlyInTheBridge holds ui to its rule: goroutines start, and
// results come back, in bridge.go and nowhere else; DoAndWait is not used at
// all. It reads the syntax, so that words in comments do not count.
func TestGoroutinesOnlyInTheBridge(t *testing.T) {
	files := 0
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		files++
		set := token.NewFileSet()
		f, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		for _, found := range offences(f) {
			if path != "bridge.go" || found.what == "fyne.DoAndWait" {
				t.Errorf("%s: %s belongs in bridge.go only", set.Position(found.at), found.what)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 20 {
		t.Fatalf("read %d files, expected the whole of ui", files)
	}
}

type offence struct {
	at   token.Pos
	what string
}

func offences(f *ast.File) (out []offence) {
	ast.Inspect(f, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			out = append(out, offence{n.Pos(), "a go statement"})
		case *ast.SelectorExpr:
			x, ok := n.X.(*ast.Ident)
			if !ok {
				break
			}
			switch name := x.Name + "." + n.Sel.Name; name {
			case "fyne.Do", "fyne.DoAndWait", "time.AfterFunc":
				out = append(out, offence{n.Pos(), name})
			}
		}
		return true
	})
	return out
}

// The check itself must be able to fail.
func TestOffencesAreSeen(t *testing.T) {
	const text = `package p
func f() { go f(); fyne.Do(f); fyne.DoAndWait(f) } // go fyne.Do`
	f, err := parser.ParseFile(token.NewFileSet(), "p.go", text, 0)
	if err != nil {
		t.Fatal(err)
	}
	if got := offences(f); len(got) != 3 {
		t.Errorf("saw %d offences, expected 3", len(got))
	}
}

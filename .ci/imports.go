// Command imports holds the code to its layout: which package may import
// which, where the toolkit may be seen, where a goroutine may start, and how
// long a function may be. It reads the syntax of every Go file under the
// folder given (default "."), prints each breach with file, line and rule,
// and exits with 1 if there are any.
//
//	go run ./.ci/imports.go ./.ci/rules.go [folder]
package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
)

// file is one Go file with its place in the module.
type file struct {
	name string // slash path below the module root, "calc/solve/tree.go"
	pkg  string // folder, "calc/solve"
	test bool
	set  *token.FileSet
	ast  *ast.File
}

func (f *file) breach(at token.Pos, rule string) string {
	return fmt.Sprintf("%s:%d: %s", f.name, f.set.Position(at).Line, rule)
}

func main() {
	root := "."
	if len(os.Args) > 1 {
		root = os.Args[1]
	}
	files, err := load(root)
	if err != nil {
		fmt.Fprintln(os.Stderr, "imports:", err)
		os.Exit(2)
	}
	breaches := check(files)
	for _, b := range breaches {
		fmt.Println(b)
	}
	fmt.Printf("import rules: %d files read, %d breaches\n", len(files), len(breaches))
	if len(breaches) > 0 {
		os.Exit(1)
	}
}

// load parses every Go file below root, hidden folders and out/ left aside.
func load(root string) ([]*file, error) {
	var files []*file
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		if d.IsDir() {
			if rel != "." && (strings.HasPrefix(d.Name(), ".") || rel == "out" || d.Name() == "testdata") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(rel, ".go") {
			return nil
		}
		f := &file{
			name: rel,
			pkg:  path.Dir(rel),
			test: strings.HasSuffix(rel, "_test.go"),
			set:  token.NewFileSet(),
		}
		f.ast, err = parser.ParseFile(f.set, name, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		files = append(files, f)
		return nil
	})
	return files, err
}

// check returns every breach, in file order.
func check(files []*file) []string {
	var out []string
	for _, f := range files {
		for _, spec := range f.ast.Imports {
			to, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				panic("imports: the parser let a bad import path through: " + spec.Path.Value)
			}
			for _, rule := range importRules {
				if why := rule(f, to); why != "" {
					out = append(out, f.breach(spec.Pos(), why))
				}
			}
		}
		out = append(out, statements(f)...)
		out = append(out, long(f)...)
	}
	sort.Strings(out)
	return out
}

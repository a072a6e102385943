package main

import (
	"fmt"
	"go/ast"
	"strconv"
	"strings"
)

const module = "duskwire/"

// order is the one way in which imports run: a package imports only packages
// of a lower number. Packages of one number do not know each other.
var order = map[string]int{
	"assets": 0,

	"calc/quantity": 1,
	"calc/finding":  1,
	"calc/network":  2,
	"calc/solve":    3,
	"calc/cable":    3,
	"calc/protect":  3,
	"calc/light":    3,
	"calc/cut":      3,
	"calc/judge":    4,
	"calc/check":    4,
	"calc":          5,

	"layout/geom":    10,
	"layout/doc":     11,
	"layout/picture": 11,
	"layout/edit":    12,
	"layout/derive":  12,
	"layout/file":    12,
	"layout/journal": 13,
	"layout/tool":    13,
	"layout/scene":   13,
	"layout":         14,
	"layout/output":  15, // sheets are printed from a published frame
	"layout/packs":   16, // and packs are made of sheets

	"ui/board": 20,
	"ui/panel": 20,
	"ui":       21,

	"cmd/duskwire":  30,
	"cmd/dusksheet": 30,
}

// importRules each say "" or why file f may not import to.
var importRules = []func(f *file, to string) string{toolkit, driver, oneWay, pureCalc}

// toolkit: Fyne only under ui/ and in cmd/duskwire.
func toolkit(f *file, to string) string {
	if !strings.HasPrefix(to, "fyne.io/") || under(f.pkg, "ui") || f.pkg == "cmd/duskwire" {
		return ""
	}
	return to + ": Fyne is imported only under ui/ and by cmd/duskwire"
}

// driver: the package that pulls in the window system only in cmd/duskwire,
// so that everything else builds without cgo.
func driver(f *file, to string) string {
	if to != "fyne.io/fyne/v2/app" || f.pkg == "cmd/duskwire" {
		return ""
	}
	return to + ": only cmd/duskwire imports it"
}

// oneWay: design order of our own packages. A test may use its neighbours of
// the same tree (calc, layout, ui), never a higher tree. Packages under an
// internal/ folder help tests: only tests import them, and they may do what a
// test may.
func oneWay(f *file, to string) string {
	if !strings.HasPrefix(to, module) {
		return ""
	}
	to = strings.TrimPrefix(to, module)
	if helper(to) {
		if f.test || helper(f.pkg) {
			return ""
		}
		return to + " helps tests: only tests import it"
	}
	if helper(f.pkg) {
		if rank(tree(to)) <= rank(tree(f.pkg)) {
			return ""
		}
		return fmt.Sprintf("%s is below %s: imports run one way", f.pkg, to)
	}
	from, ok := order[f.pkg]
	if !ok {
		return fmt.Sprintf("package %s has no place in the order of imports: give it one in .ci/rules.go", f.pkg)
	}
	level, ok := order[to]
	switch {
	case !ok:
		return fmt.Sprintf("package %s has no place in the order of imports: give it one in .ci/rules.go", to)
	case level < from:
		return ""
	case f.test && (to == f.pkg || tree(to) == tree(f.pkg)):
		return ""
	case level == from:
		return fmt.Sprintf("%s and %s stand side by side: neither imports the other", f.pkg, to)
	}
	return fmt.Sprintf("%s is below %s: imports run one way", f.pkg, to)
}

// helper reports whether a package only helps tests.
func helper(pkg string) bool { return strings.Contains(pkg, "/internal/") }

// rank is the order of the trees.
func rank(tree string) int {
	return map[string]int{"assets": 0, "calc": 1, "layout": 2, "ui": 3, "cmd": 4}[tree]
}

// impure are the doors to the outside that the calculation has to do without.
var impure = []string{"os", "time", "io/fs", "io/ioutil", "embed", "log", "syscall", "net", "math/rand", "crypto/rand", "path/filepath"}

// pureCalc: calc has no I/O, no clock, no chance, and no library beyond the
// standard one and gonum.
func pureCalc(f *file, to string) string {
	if f.test || helper(f.pkg) || !under(f.pkg, "calc") || strings.HasPrefix(to, module+"calc") {
		return ""
	}
	for _, bad := range impure {
		if to == bad || strings.HasPrefix(to, bad+"/") {
			return to + ": calc is pure: no files, no clock, no network, no chance"
		}
	}
	first, _, _ := strings.Cut(to, "/")
	if strings.Contains(first, ".") && !strings.HasPrefix(to, "gonum.org/") {
		return to + ": calc uses the standard library and gonum only"
	}
	return ""
}

// bridge is the one file where work comes back from a worker to the window.
const bridge = "ui/bridge.go"

// statements returns the breaches inside the code: fyne.Do outside the
// bridge, fyne.DoAndWait anywhere, goroutines in ui outside the bridge, and a
// DoubleTapped method on the board, which would hold back every single click.
func statements(f *file) []string {
	if !under(f.pkg, "ui") && f.pkg != "cmd/duskwire" {
		return nil
	}
	fyne := localName(f.ast, "fyne.io/fyne/v2", "fyne")
	var out []string
	ast.Inspect(f.ast, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.GoStmt:
			if under(f.pkg, "ui") && f.name != bridge {
				out = append(out, f.breach(n.Pos(), "go statement: in ui goroutines start only in "+bridge))
			}
		case *ast.SelectorExpr:
			x, ok := n.X.(*ast.Ident)
			if !ok || fyne == "" || x.Name != fyne {
				break
			}
			switch {
			case n.Sel.Name == "DoAndWait":
				out = append(out, f.breach(n.Pos(), "fyne.DoAndWait: never; it hangs when called from the window's own goroutine"))
			case n.Sel.Name == "Do" && f.name != bridge:
				out = append(out, f.breach(n.Pos(), "fyne.Do: only in "+bridge))
			}
		case *ast.FuncDecl:
			if n.Recv != nil && n.Name.Name == "DoubleTapped" && f.pkg == "ui/board" {
				out = append(out, f.breach(n.Pos(), "DoubleTapped on the board: it delays every tap by 300 ms; count clicks in the tool"))
			}
		}
		return true
	})
	return out
}

// mostLines is how long a function may be, its braces included; a test may be longer,
// with its table.
const mostLines = 60

// long returns the functions that are too long to be taken in.
func long(f *file) []string {
	var out []string
	for _, d := range f.ast.Decls {
		one, ok := d.(*ast.FuncDecl)
		if !ok || f.test {
			continue
		}
		if n := f.set.Position(one.End()).Line - f.set.Position(one.Pos()).Line + 1; n > mostLines {
			out = append(out, f.breach(one.Pos(), fmt.Sprintf("%s: %d lines, at most %d", one.Name.Name, n, mostLines)))
		}
	}
	return out
}

// localName returns the name under which the file knows an import, "" when it
// does not import it.
func localName(f *ast.File, importPath, usual string) string {
	for _, spec := range f.Imports {
		if p, err := strconv.Unquote(spec.Path.Value); err != nil || p != importPath {
			continue
		}
		if spec.Name != nil {
			return spec.Name.Name
		}
		return usual
	}
	return ""
}

func under(pkg, folder string) bool {
	return pkg == folder || strings.HasPrefix(pkg, folder+"/")
}

// tree is the top folder of a package, "calc" for "calc/solve".
func tree(pkg string) string {
	top, _, _ := strings.Cut(pkg, "/")
	return top
}

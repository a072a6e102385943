package tool

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// figures are the characters of lengths and directions that are typed: lines of
// their own tell of them by examples.
const figures = "0123456789.,-<@=mc "

// asked collects what the tools ask of a typed character: rune literals in cases
// and comparisons, keys of tables by rune, and the characters of ContainsRune.
func asked(t *testing.T) map[rune]token.Position {
	t.Helper()
	set := token.NewFileSet()
	names, err := filepath.Glob("*.go")
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	out := map[rune]token.Position{}
	add := func(e ast.Expr) {
		if l, ok := e.(*ast.BasicLit); ok && l.Kind == token.CHAR {
			r, _, _, err := strconv.UnquoteChar(l.Value[1:len(l.Value)-1], '\'')
			if err == nil {
				out[unicode.ToLower(r)] = set.Position(l.Pos())
			}
		}
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") || name == "typed.go" { // numbers are one line of the list
			continue
		}
		f, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CaseClause:
				for _, e := range n.List {
					add(e)
				}
			case *ast.BinaryExpr:
				if n.Op == token.EQL {
					add(n.Y)
				}
			case *ast.KeyValueExpr:
				add(n.Key)
			case *ast.CallExpr:
				if f, ok := n.Fun.(*ast.SelectorExpr); ok && f.Sel.Name == "ContainsRune" {
					if l, ok := n.Args[0].(*ast.BasicLit); ok {
						chars, _ := strconv.Unquote(l.Value)
						for _, r := range chars {
							if !strings.ContainsRune(figures, r) {
								out[unicode.ToLower(r)] = set.Position(l.Pos())
							}
						}
					}
				}
			}
			return true
		})
	}
	return out
}

// TestKeysNameWhatIsAsked: every character that a tool answers to stands in the
// list of keys, every key name too, and every tool has its words.
func TestKeysNameWhatIsAsked(t *testing.T) {
	all := " "
	for _, k := range Keys() {
		all += k.Keys + " "
		if k.What == "" || strings.HasSuffix(k.What, ".") {
			t.Errorf("%q says %q", k.Keys, k.What)
		}
	}
	list := asked(t)
	if len(list) < 8 {
		t.Fatalf("found %d characters, expected those of corners, dimensions and the picture", len(list))
	}
	for r, at := range list {
		if !strings.Contains(strings.ToLower(all), " "+string(r)+" ") && r != '.' && r != '=' && r != ',' {
			t.Errorf("%s: %q is not in the list of keys", at, r)
		}
	}
	for _, name := range []string{"Esc", "Return", "Backspace", "Del", "Arrows", "Ctrl+A", ",", ".", "@", "="} {
		if !strings.Contains(all, name) {
			t.Errorf("%s is not in the list of keys", name)
		}
	}
	for _, tl := range All(NewDefaults()) {
		if Says(tl.Name()) == "" {
			t.Errorf("nobody says what %s does", tl.Name())
		}
	}
}

// TestShiftSteps: the list of keys and the hints name the steps that Shift holds to.
func TestShiftSteps(t *testing.T) {
	drag, leg := strconv.Itoa(coarse)+"°", strconv.Itoa(fine)+"°"
	held := ""
	for _, k := range Keys() {
		if k.Keys == "Shift" {
			held = k.What
		}
	}
	if !strings.Contains(held, "dragged keeps to "+drag) || !strings.Contains(held, "corner to "+leg) {
		t.Errorf("Shift is listed as %q, want %s for what is dragged and %s for a corner", held, drag, leg)
	}
	for hint, step := range map[string]string{dragHint: drag, bendHint: leg, joinHint: leg, mirrorTo: leg, eyeLook: leg} {
		if !strings.Contains(hint, "Shift keeps to "+step) {
			t.Errorf("hint %q, want %s", hint, step)
		}
	}
}

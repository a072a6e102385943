package ui

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// keysListed says where the keys of a function or a table stand in the list of keys.
type keysListed struct {
	groups []string
	except []string // keys that it does not answer to in these groups, or that say nothing
}

// answering names what answers to keys in the sources of the window.
var answering = map[string][]keysListed{
	"board.bindings":        {{groups: []string{"On the plan"}}},
	"board.Board.TypedKey":  {{groups: []string{"While drawing and changing"}}},
	"board.Board.KeyDown":   {{groups: []string{"On the plan"}}},
	"board.Board.KeyUp":     {{groups: []string{"On the plan"}}},
	"board.keyNames":        {{groups: []string{"While drawing and changing"}}, {groups: []string{"Section strip"}, except: []string{"Delete"}}},
	"board.diagramBindings": {{groups: []string{"Circuit view"}}},
	"board.ways":            {{groups: []string{"Circuit view"}}},

	"board.Diagram.TypedKey": {{groups: []string{"Circuit view"}}},
	"board.Diagram.KeyDown":  {{groups: []string{"Circuit view"}}},
	"board.Diagram.KeyUp":    {{groups: []string{"Circuit view"}}},
	"board.Strip.TypedKey":   {{groups: []string{"Section strip"}}},
	"board.Strip.TypedRune":  {{groups: []string{"Section strip"}}},

	"ui.Window.typedKey":          {{groups: []string{"In the window"}}},
	"panel.windowKeys":            {{groups: []string{"In the window", "Menu View"}}},
	"panel.PassRune":              {{groups: []string{"In the window"}}},
	"panel.TabBar.TypedKey":       {{groups: []string{"In the window"}, except: []string{"Up"}}}, // as ←
	"panel.Field.TypedKey":        {{groups: []string{"In the window"}}},
	"panel.findingRow.TypedKey":   {{groups: []string{"In the window"}}},
	"panel.Button.TypedKey":       {{groups: []string{"In the window"}}},
	"panel.stepList.TypedKey":     {{groups: []string{"In the window"}}},
	"panel.lengthList.TypedKey":   {{groups: []string{"In the window"}}},
	"panel.measuredList.TypedKey": {{groups: []string{"In the window"}}},
	"panel.nearRow.key":           {{groups: []string{"In the window"}}},
	"panel.Measured.key":          {{groups: []string{"Readings"}}},
	"panel.Measured.typed":        {{groups: []string{"In the window"}}}, // which it leaves to the window

	"ui.Window.functionKey":   {{groups: []string{"Menu View"}}},
	"ui.windowKeys":           {{groups: []string{"In the window"}}},
	"ui.Window.windowKey":     {{groups: []string{"In the window"}}},
	"ui.Window.letter":        {{groups: []string{"In the window"}}},
	"ui.Window.shortcut":      {{groups: []string{"In the window"}}},
	"ui.Window.stripKey":      {{groups: []string{"Section strip"}}},
	"ui.Window.viewsOf":       {{groups: []string{"Menu View"}}},
	"ui.toolButton.TypedKey":  {{groups: []string{"In the window"}}},
	"ui.standView.TypedKey":   {{groups: []string{"Standing view"}}},
	"ui.standView.TypedRune":  {{groups: []string{"Standing view"}}},
	"ui.pageView.pageKey":     {{groups: []string{"Pages on screen"}}},
	"ui.pageView.TypedKey":    {{groups: []string{"Pages on screen"}}},
	"ui.pageView.TypedRune":   {{groups: []string{"Pages on screen"}}},
	"ui.priceEntry.TypedKey":  {{groups: []string{"Price list"}}},
	"ui.sheet.move":           {{groups: []string{"Questions and lists"}}},
	"ui.sheet.key":            {{groups: []string{"Questions and lists"}}},
	"ui.sheetButton.TypedKey": {{groups: []string{"Questions and lists"}}},
	"ui.sheetEntry.TypedKey":  {{groups: []string{"Questions and lists"}}},
	"ui.sheetSelect.TypedKey": {{groups: []string{"Questions and lists"}}},
	"ui.sheetList.TypedKey":   {{groups: []string{"Questions and lists"}}},
}

// keyWords are the words by which the list calls the keys of the toolkit; a key
// that is missing here goes by its own name.
var keyWords = map[string][]string{
	"Left": {"←", "Arrows"}, "Right": {"→", "Arrows"}, "Up": {"↑", "Arrows"}, "Down": {"↓", "Arrows"},
	"Return": {"Return"}, "Enter": {"Return"}, "Escape": {"Esc"}, "Delete": {"Del"},
	"PageUp": {"Page up", "PgUp"}, "PageDown": {"Page down", "PgDn"}, "Menu": {"Menu key"}, "Plus": {"Ctrl++"},
}

// sameRune are characters that do what another one does, for keyboards that have
// it at the same key or in the other case.
var sameRune = strings.NewReplacer("=", "+", "_", "-", "−", "-")

// handled is a key that the source of a function or table answers to.
type handled struct {
	key  string // name in the toolkit without "Key", "" for a character
	char rune
	at   token.Position
}

// answers collects the keys of one declaration: in cases, comparisons, tables and
// ContainsRune; what is handed to a function is not asked for here.
func answers(set *token.FileSet, decl ast.Node, runes bool) (out []handled) {
	add := func(e ast.Expr) {
		switch e := e.(type) {
		case *ast.SelectorExpr:
			from, ok := e.X.(*ast.Ident)
			name, is := strings.CutPrefix(e.Sel.Name, "Key")
			if ok && is && (from.Name == "fyne" || from.Name == "desktop") && !slices.Contains([]string{"", "Name", "Event"}, name) && !strings.HasPrefix(name, "Modifier") {
				out = append(out, handled{key: name, at: set.Position(e.Pos())})
			}
		case *ast.BasicLit:
			text, err := strconv.Unquote(e.Value)
			if runes && err == nil && (e.Kind == token.CHAR || e.Kind == token.STRING) {
				for _, r := range text {
					out = append(out, handled{char: r, at: set.Position(e.Pos())})
				}
			}
		}
	}
	ast.Inspect(decl, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CaseClause:
			for _, e := range n.List {
				add(e)
			}
		case *ast.BinaryExpr:
			if n.Op == token.EQL || n.Op == token.NEQ {
				add(n.X)
				add(n.Y)
			}
		case *ast.CompositeLit:
			for _, e := range n.Elts {
				if kv, ok := e.(*ast.KeyValueExpr); ok {
					e = kv.Key
				}
				add(e)
			}
		case *ast.CallExpr:
			if f, ok := n.Fun.(*ast.SelectorExpr); ok && f.Sel.Name == "ContainsRune" {
				add(n.Args[0])
			}
		}
		return true
	})
	return out
}

// takesRune reports whether a function is one that gets characters.
func takesRune(f *ast.FuncDecl) bool {
	return slices.ContainsFunc(f.Type.Params.List, func(p *ast.Field) bool {
		i, ok := p.Type.(*ast.Ident)
		return ok && i.Name == "rune"
	})
}

// declared is the name of a function with that of what it belongs to.
func declared(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return f.Name.Name
	}
	t := f.Recv.List[0].Type
	if s, ok := t.(*ast.StarExpr); ok {
		t = s.X
	}
	return t.(*ast.Ident).Name + "." + f.Name.Name
}

// sourceKeys reads the sources of a package and returns the keys of each function
// and table in it that answers to some.
func sourceKeys(t *testing.T, folder, pkg string) map[string][]handled {
	t.Helper()
	out, set := map[string][]handled{}, token.NewFileSet()
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil || len(names) == 0 {
		t.Fatal(names, err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(set, name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				table := strings.HasSuffix(strings.ToLower(d.Name.Name), "bindings")
				if keys := answers(set, d, table || takesRune(d)); len(keys) > 0 {
					out[pkg+"."+declared(d)] = keys
				}
			case *ast.GenDecl:
				for _, s := range d.Specs {
					if v, ok := s.(*ast.ValueSpec); ok {
						if keys := answers(set, v, false); len(keys) > 0 {
							out[pkg+"."+v.Names[0].Name] = keys
						}
					}
				}
			}
		}
	}
	return out
}

// listed reports whether one of the groups tells of a key.
func listed(groups map[string]*keyGroup, in []string, h handled) bool {
	for _, name := range in {
		for _, l := range groups[name].lines {
			if h.key == "" {
				same := func(s string) bool { return strings.EqualFold(sameRune.Replace(s), sameRune.Replace(string(h.char))) }
				tokens := strings.FieldsFunc(l.Keys, func(r rune) bool { return r == ' ' || r == ',' })
				if slices.ContainsFunc(tokens, same) || h.char == ' ' && l.Keys == "Space" || h.char == ' ' && strings.Contains(l.Keys, "Space") {
					return true
				}
				continue
			}
			words := keyWords[h.key]
			if words == nil {
				words = []string{h.key}
			}
			if slices.ContainsFunc(words, func(w string) bool { return strings.Contains(l.Keys+" "+l.What, w) }) {
				return true
			}
		}
	}
	return false
}

// TestSourcesAreListed: every key that the sources of the window answer to stands in
// the list of keys, under its subject; and no function answers to keys of which
// nobody said where they are listed.
func TestSourcesAreListed(t *testing.T) {
	groups := map[string]*keyGroup{}
	for _, g := range newRig(t, "townhouse.yaml").w.keyGroups() {
		groups[g.name] = &g
	}
	found, keys := map[string]bool{}, 0
	for folder, pkg := range map[string]string{".": "ui", "board": "board", "panel": "panel"} {
		for name, all := range sourceKeys(t, folder, pkg) {
			found[name] = true
			places := answering[name]
			if places == nil {
				t.Errorf("%s: %s answers to keys; say in this test where they are listed", all[0].at, name)
			}
			for _, p := range places {
				for _, g := range p.groups {
					if groups[g] == nil {
						t.Fatalf("the list has no group %q", g)
					}
				}
				for _, h := range all {
					if keys++; !slices.Contains(p.except, h.key) && !listed(groups, p.groups, h) {
						t.Errorf("%s: %s answers to %s%q, which is not listed under %q", h.at, name, h.key, string(h.char), p.groups)
					}
				}
			}
		}
	}
	for name := range answering {
		if !found[name] {
			t.Errorf("%s answers to no key any more", name)
		}
	}
	if keys < 100 {
		t.Errorf("found %d keys, expected those of the whole window", keys)
	}
}

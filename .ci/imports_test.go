package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Each row writes one small file into an empty tree and says what the check
// has to answer; "" means that the file is in order.
var rows = []struct{ name, file, text, want string }{
	{"fyne in layout", "layout/scene/a.go", "package scene\nimport _ \"fyne.io/fyne/v2/canvas\"\n", "layout/scene/a.go:2: fyne.io/fyne/v2/canvas: Fyne is imported only under ui/"},
	{"fyne in dusksheet", "cmd/dusksheet/a.go", "package main\nimport _ \"fyne.io/fyne/v2\"\n", "Fyne is imported only under ui/"},
	{"fyne in ui", "ui/panel/a.go", "package panel\nimport _ \"fyne.io/fyne/v2/widget\"\n", ""},
	{"app in ui", "ui/a.go", "package ui\nimport _ \"fyne.io/fyne/v2/app\"\n", "only cmd/duskwire imports it"},
	{"app in duskwire", "cmd/duskwire/a.go", "package main\nimport _ \"fyne.io/fyne/v2/app\"\n", ""},
	{"calc up to layout", "calc/check/a.go", "package check\nimport _ \"duskwire/layout/doc\"\n", "calc/check is below layout/doc"},
	{"calc test up to layout", "calc/check/a_test.go", "package check\nimport _ \"duskwire/layout/doc\"\n", "calc/check is below layout/doc"},
	{"siblings", "calc/protect/a.go", "package protect\nimport _ \"duskwire/calc/cable\"\n", "stand side by side"},
	{"siblings in a test", "calc/protect/a_test.go", "package protect\nimport _ \"duskwire/calc/cable\"\n", ""},
	{"downwards", "layout/derive/a.go", "package derive\nimport _ \"duskwire/calc\"\n", ""},
	{"layout up to ui", "layout/a.go", "package layout\nimport _ \"duskwire/ui/board\"\n", "layout is below ui/board"},
	{"unknown package", "calc/magic/a.go", "package magic\nimport _ \"duskwire/calc/quantity\"\n", "calc/magic has no place"},
	{"test helper in code", "calc/check/a.go", "package check\nimport _ \"duskwire/calc/internal/testnet\"\n", "only tests import it"},
	{"test helper in a test", "calc/check/a_test.go", "package check\nimport _ \"duskwire/calc/internal/testnet\"\n", ""},
	{"test helper reads files", "calc/internal/testnet/a.go", "package testnet\nimport _ \"os\"\nimport _ \"duskwire/calc/check\"\n", ""},
	{"test helper too high", "calc/internal/testnet/a.go", "package testnet\nimport _ \"duskwire/layout/doc\"\n", "calc/internal/testnet is below layout/doc"},
	{"clock in calc", "calc/solve/a.go", "package solve\nimport _ \"time\"\n", "calc is pure"},
	{"chance in calc", "calc/solve/a.go", "package solve\nimport _ \"math/rand/v2\"\n", "calc is pure"},
	{"network in calc", "calc/a.go", "package calc\nimport _ \"net/http\"\n", "calc is pure"},
	{"clock in a calc test", "calc/solve/a_test.go", "package solve\nimport _ \"time\"\n", ""},
	{"own network package", "calc/solve/a.go", "package solve\nimport _ \"duskwire/calc/network\"\n", ""},
	{"yaml in calc", "calc/cable/a.go", "package cable\nimport _ \"gopkg.in/yaml.v3\"\n", "standard library and gonum only"},
	{"do outside the bridge", "ui/a.go", "package ui\nimport \"fyne.io/fyne/v2\"\nfunc f() { fyne.Do(nil) }\n", "ui/a.go:3: fyne.Do: only in ui/bridge.go"},
	{"do under another name", "ui/a.go", "package ui\nimport f2 \"fyne.io/fyne/v2\"\nfunc f() { f2.Do(nil) }\n", "fyne.Do: only in ui/bridge.go"},
	{"do in the bridge", "ui/bridge.go", "package ui\nimport \"fyne.io/fyne/v2\"\nfunc f() { go fyne.Do(nil) }\n", ""},
	{"wait in the bridge", "ui/bridge.go", "package ui\nimport \"fyne.io/fyne/v2\"\nfunc f() { fyne.DoAndWait(nil) }\n", "fyne.DoAndWait: never"},
	{"goroutine in a panel", "ui/panel/a.go", "package panel\nfunc f() { go f() }\n", "go statement"},
	{"sixty lines", "layout/a.go", "package layout\nfunc f() {" + strings.Repeat("\n", 59) + "}\n", ""},
	{"one more", "layout/a.go", "package layout\nfunc f() {" + strings.Repeat("\n", 60) + "}\n", "layout/a.go:2: f: 61 lines, at most 60"},
	{"a test of sixty-one lines", "layout/a_test.go", "package layout\nfunc f() {" + strings.Repeat("\n", 60) + "}\n", ""},
	{"double tap on the board", "ui/board/a.go", "package board\ntype B struct{}\nfunc (B) DoubleTapped(any) {}\n", "DoubleTapped on the board"},
}

func TestRules(t *testing.T) {
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			root := t.TempDir()
			name := filepath.Join(root, filepath.FromSlash(row.file))
			if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, []byte(row.text), 0o644); err != nil {
				t.Fatal(err)
			}
			files, err := load(root)
			if err != nil {
				t.Fatal(err)
			}
			got := check(files)
			switch {
			case row.want == "" && len(got) != 0:
				t.Errorf("in order, yet: %q", got)
			case row.want != "" && (len(got) != 1 || !strings.Contains(got[0], row.want)):
				t.Errorf("got %q, want one line with %q", got, row.want)
			}
		})
	}
}

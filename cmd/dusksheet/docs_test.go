package main

import (
	"context"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"duskwire/assets"
	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
	"duskwire/layout/packs"
)

// The pages that people read are held to what the program does.

func page(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// block returns the n-th fenced block of the language, without its indent.
func block(t *testing.T, text, language string, n int) string {
	t.Helper()
	all := regexp.MustCompile("(?ms)^( *)```"+language+"\n(.*?)^ *```").FindAllStringSubmatch(text, -1)
	if len(all) <= n {
		t.Fatalf("found %d blocks of %s, expected more than %d", len(all), language, n)
	}
	return strings.ReplaceAll("\n"+all[n][2], "\n"+all[n][1], "\n")[1:]
}

// TestReadmeScheme reads the scheme file and the stock item that the README
// shows.
func TestReadmeScheme(t *testing.T) {
	stock, err := file.Stock(assets.FS)
	if err != nil {
		t.Fatal(err)
	}
	text := page(t, "README.md")
	scheme := block(t, text, "yaml", 0)
	if _, err := file.ReadScheme("README.md", []byte(scheme), stock); err != nil {
		t.Error(err)
	}
	item := block(t, text, "yaml", 1)
	scheme += "stock:\n  " + strings.ReplaceAll(strings.TrimSpace(item), "\n", "\n  ") + "\n"
	if _, err := file.ReadScheme("README.md", []byte(scheme), stock); err != nil {
		t.Errorf("with the stock item: %v", err)
	}
}

// TestReadmeKeys looks for every JSON key of the reports in the README.
func TestReadmeKeys(t *testing.T) {
	text := page(t, "README.md")
	for _, report := range []any{output.FindingsReport{}, output.ReadingsReport{}, output.LengthsReport{}, output.LuxReport{}, output.MeasuredReport{}, dataReport{}, packs.Comparison{}} {
		for _, key := range jsonKeys(reflect.TypeOf(report)) {
			if !regexp.MustCompile("[`.]" + key + "\\b").MatchString(text) {
				t.Errorf("README.md does not explain the key %s of %T", key, report)
			}
		}
	}
}

// TestReadmeData looks for every file and every column of data in the README.
func TestReadmeData(t *testing.T) {
	text := page(t, "README.md")
	scheme, stock, rules, err := file.Open(example, "", "")
	if err != nil {
		t.Fatal(err)
	}
	f := layout.NewDesk(stock, rules, scheme, example).Frame()
	files, err := packs.DataFiles(context.Background(), packs.Input{Frame: f, Rules: output.RulesOf(rules, scheme)}, output.LeastWide)
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range files {
		words := []string{d.Name}
		if strings.HasSuffix(d.Name, ".csv") {
			head, _, _ := strings.Cut(string(d.Data), "\r\n")
			words = append(words, strings.Split(head, ",")...)
		}
		for _, word := range words {
			if !regexp.MustCompile("[`.]" + regexp.QuoteMeta(word) + "\\b").MatchString(text) {
				t.Errorf("README.md does not explain %s of %s", word, d.Name)
			}
		}
	}
}

func jsonKeys(t reflect.Type) []string {
	for t.Kind() == reflect.Pointer || t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct {
		return nil
	}
	var keys []string
	for i := range t.NumField() {
		f := t.Field(i)
		if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" {
			keys = append(keys, name)
		}
		keys = append(keys, jsonKeys(f.Type)...)
	}
	return keys
}

// TestCodes compares the table of codes in DEVELOPERS.md with the rules.
func TestCodes(t *testing.T) {
	text := page(t, "DEVELOPERS.md")
	listed := map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^\| ([A-Z]{2,3}-\d\d) \|`).FindAllStringSubmatch(text, -1) {
		listed[m[1]] = true
	}
	known := map[string]bool{"LEN-01": true, "PIC-01": true} // of the cut list and of files, not of a circuit
	for _, r := range slices.Concat(check.LightRules, check.MeasuredRules, check.LuxRules) {
		known[string(r.Code)] = true
	}
	for _, r := range check.All() {
		known[string(r.Code)] = true
		if !listed[string(r.Code)] {
			t.Errorf("DEVELOPERS.md does not list %s (%s)", r.Code, r.Title)
		}
	}
	for code := range listed {
		if !known[code] {
			t.Errorf("DEVELOPERS.md lists %s, which no rule has", code)
		}
	}
}

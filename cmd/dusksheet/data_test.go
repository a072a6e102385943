package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestData writes all files into a new folder, says so, and exits as the other
// commands do; a second time gives the same bytes.
func TestData(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "new", "data")
	code, out, errs := sheet("data", mistakes, "--out", dir, "--width", "640", "--date", "2026-11-26", "--format", "json")
	if code != 1 || errs != "" {
		t.Fatalf("exit %d: %s", code, errs)
	}
	var r dataReport
	if err := json.Unmarshal([]byte(out), &r); err != nil {
		t.Fatal(err)
	}
	first := map[string][]byte{}
	for _, f := range r.Files {
		data, err := os.ReadFile(f.File)
		if err != nil || len(data) != f.Bytes {
			t.Errorf("%s: %d bytes, said %d (%v)", f.File, len(data), f.Bytes, err)
		}
		first[filepath.Base(f.File)] = data
	}
	for name, magic := range map[string]string{"plan.dxf": "999\r\n", "plan.svg": "<?xml", "plan.png": "\x89PNG", "data.xlsx": "PK\x03\x04",
		"lengths.csv": "run,", "readings.csv": "id,", "drums.csv": "plan_cable,", "materials.csv": "group,"} {
		if !strings.HasPrefix(string(first[name]), magic) {
			t.Errorf("%s begins with %.20q", name, first[name])
		}
	}
	if names, _ := os.ReadDir(dir); len(names) != len(first) || len(first) != 8 {
		t.Errorf("%d names in the folder, %d told of, want 8", len(names), len(first))
	}
	sheet("data", mistakes, "--out", dir, "--width", "640", "--date", "2026-11-26")
	for name, was := range first {
		if now, _ := os.ReadFile(filepath.Join(dir, name)); !bytes.Equal(now, was) {
			t.Errorf("%s: the same scheme gives other bytes", name)
		}
	}
	if code, _, _ := sheet("data", example, "--out", dir); code != 0 {
		t.Errorf("exit %d without a Stop finding", code)
	}
}

// TestDataTarget: a folder in the way of one file is refused before any is
// written, and what fails leaves older files as they were.
func TestDataTarget(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(filepath.Join(dir, "data.xlsx"), 0o755); err != nil {
		t.Fatal(err)
	}
	code, out, errs := sheet("data", example, "--out", dir, "--width", "640")
	if code != 2 || out != "" || !strings.Contains(errs, "it is not a file") {
		t.Errorf("exit %d: %s%s", code, out, errs)
	}
	if names, _ := os.ReadDir(dir); len(names) != 1 {
		t.Errorf("%d names in the folder, want the one that was there", len(names))
	}
	os.Remove(filepath.Join(dir, "data.xlsx"))
	path := filepath.Join(dir, "plan.dxf")
	if err := os.WriteFile(path, []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, _ := sheet("data", broken, "--out", dir); code != 2 {
		t.Errorf("exit %d of a broken scheme", code)
	}
	if kept, _ := os.ReadFile(path); string(kept) != "old" {
		t.Error("data that failed spoilt the older file")
	}
}

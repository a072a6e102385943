package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const (
	example  = "../../assets/examples/townhouse.yaml"
	mistakes = "../../assets/examples/townhouse-mistakes.yaml"
	broken   = "../../testdata/broken/dangling-stock.yaml"
)

func sheet(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = run(args, &o, &e)
	return code, o.String(), e.String()
}

// TestExitCodes holds the documented exit codes: 0 no Stop finding, 1 Stop
// findings, 2 unreadable input or wrong words.
func TestExitCodes(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		says string // in what is printed
	}{
		{[]string{"findings", example}, 0, "Stop 0, Decide 1"},
		{[]string{"findings", mistakes}, 1, "Stop RCD-01"},
		{[]string{"readings", mistakes, "--format", "json"}, 1, `"zs_ohm"`},
		{[]string{"--format", "json", "lengths", example}, 0, `"cut_length_m"`},
		{[]string{"findings", broken}, 2, "dangling-stock.yaml:"},
		{[]string{"findings", "no-such-file.yaml"}, 2, "no-such-file.yaml"},
		{[]string{"findings", example, "--rules", example}, 2, "townhouse.yaml"},
		{[]string{"findings", example, "--stock", "no-such-stock.yaml"}, 2, "no-such-stock.yaml"},
		{[]string{"findings", example, "--format", "xml"}, 2, "expected text or json"},
		{[]string{"picture", example}, 2, "--out"},
		{[]string{"picture", example, "--out", "plan.gif"}, 2, "expected png, svg or pdf"},
		{[]string{"picture", example, "--out", "plan.png", "--date", "tomorrow"}, 2, "year-month-day"},
		{[]string{"polish", example}, 2, "expected findings, readings, lengths or picture"},
		{[]string{"findings"}, 2, "expected a command and a file"},
		{[]string{"--frobnicate"}, 2, "frobnicate"},
		{[]string{"--help"}, 0, "dusksheet findings FILE"},
		{nil, 0, "dusksheet findings FILE"},
	} {
		code, out, errs := sheet(c.args...)
		if code != c.code || !strings.Contains(out+errs, c.says) {
			t.Errorf("%v: exit %d, want %d; printed %q, want %q in it", c.args, code, c.code, out+errs, c.says)
		}
	}
	if left, _ := filepath.Glob(".dusksheet-*"); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

// TestGolden keeps what the listing commands print for the two examples. The
// JSON is a documented interface: a key that changes here breaks somebody.
func TestGolden(t *testing.T) {
	for _, scheme := range []struct{ name, path string }{{"townhouse", example}, {"mistakes", mistakes}} {
		for _, command := range []string{"findings", "readings", "lengths"} {
			for _, format := range []string{"text", "json"} {
				_, out, errs := sheet(command, scheme.path, "--format", format)
				if errs != "" {
					t.Fatalf("%s %s: %s", command, scheme.name, errs)
				}
				if format == "json" && !json.Valid([]byte(out)) {
					t.Errorf("%s %s: not valid JSON", command, scheme.name)
				}
				path := filepath.Join("testdata", scheme.name+"-"+command+"."+format)
				if *update {
					if err := os.WriteFile(path, []byte(out), 0o644); err != nil {
						t.Fatal(err)
					}
				}
				want, err := os.ReadFile(path)
				if err != nil {
					t.Fatal(err)
				}
				if out != string(want) {
					t.Errorf("%s differs from %s; look at the difference and run with -update if it is meant", command, path)
				}
			}
		}
	}
}

// TestPicture writes each kind; a failed one leaves an older file as it was.
func TestPicture(t *testing.T) {
	dir := t.TempDir()
	for _, c := range []struct{ name, magic string }{{"plan.png", "\x89PNG"}, {"plan.svg", "<"}, {"plan.pdf", "%PDF"}} {
		path := filepath.Join(dir, c.name)
		code, _, errs := sheet("picture", example, "--out", path, "--date", "2026-11-25")
		if code != 0 {
			t.Fatalf("%s: exit %d: %s", c.name, code, errs)
		}
		first, err := os.ReadFile(path)
		if err != nil || !strings.HasPrefix(string(first), c.magic) {
			t.Errorf("%s does not start with %q (%v)", c.name, c.magic, err)
		}
		sheet("picture", example, "--out", path, "--date", "2026-11-25")
		if again, _ := os.ReadFile(path); !bytes.Equal(first, again) {
			t.Errorf("%s: the same scheme gives other bytes", c.name)
		}
		sheet("picture", broken, "--out", path)
		if kept, _ := os.ReadFile(path); !bytes.Equal(first, kept) {
			t.Errorf("%s: a failed picture spoilt the older one", c.name)
		}
	}
}

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
		{[]string{"picture", example, "--out", "plan.png", "--view", "side"}, 2, "expected plan, circuit, dig or zones"},
		{[]string{"findings", example, "--view", "circuit"}, 2, "only with picture"},
		{[]string{"polish", example}, 2, "expected findings, readings, lengths, picture, lux, dusk, packs, data or compare"},
		{[]string{"packs", example}, 2, "--out FOLDER"},
		{[]string{"data", example}, 2, "data: expected --out FOLDER"},
		{[]string{"data", example, "--out", "no-such-data", "--width", "10"}, 2, "expected 200 to 8000 pixels"},
		{[]string{"data", example, "--out", "no-such-data", "--date", "tomorrow"}, 2, "year-month-day"},
		{[]string{"data", example, "--out", "main.go/data"}, 2, "cannot make the folder"},
		{[]string{"packs", example, "--out", "no-such-packs", "--width", "900"}, 2, "only with data"},
		{[]string{"lux", example, "--at", "3,3,0"}, 0, "horizontal"},
		{[]string{"lux", example, "--at", "3,3,0", "--format", "json"}, 0, `"horizontal_lux"`},
		{[]string{"lux", example}, 2, "three numbers x,y,z"},
		{[]string{"lux", example, "--at", "3,nan,0"}, 2, "three numbers x,y,z"},
		{[]string{"findings", example, "--at", "3,3,0"}, 2, "only with lux"},
		{[]string{"dusk", example}, 2, "expected --out night.png"},
		{[]string{"dusk", example, "--out", "night.gif"}, 2, "expected --out night.png"},
		{[]string{"findings", example, "--contours"}, 2, "only with dusk"},
		{[]string{"findings", example, "--from", "V1"}, 2, "only with dusk"},
		{[]string{"dusk", example, "--out", "v.png", "--from", "V9"}, 2, "expected one of V1, V2"},
		{[]string{"dusk", example, "--out", "v.png", "--eye", "1,1,1.6"}, 2, "together with --look"},
		{[]string{"dusk", example, "--out", "v.png", "--eye", "1,1", "--look", "20"}, 2, "--eye: found"},
		{[]string{"dusk", example, "--out", "v.png", "--eye", "1,1,-2", "--look", "20"}, 2, "found a height of -2 m"},
		{[]string{"dusk", example, "--out", "v.png", "--eye", "1,1,1", "--look", "north"}, 2, "--look: found"},
		{[]string{"dusk", example, "--out", "v.png", "--from", "V1", "--contours"}, 2, "expected with the night plan"},
		{[]string{"dusk", example, "--out", "v.png", "--from", "V1", "--eye", "1,1,1", "--look", "1"}, 2, "expected one of them"},
		{[]string{"dusk", example, "--out", "no-such-folder/night.png"}, 2, "cannot write no-such-folder/night.png"},
		{[]string{"packs", example, "--out", "no-such-packs", "--pack", "sight"}, 2, "expected client, site or test"},
		{[]string{"packs", example, "--out", "no-such-packs", "--date", "tomorrow"}, 2, "year-month-day"},
		{[]string{"findings", example, "--pack", "site"}, 2, "only with packs"},
		{[]string{"compare", example, mistakes}, 1, "B less A"},
		{[]string{"compare", example, example}, 0, "one fixed exposure"},
		{[]string{"compare", example, mistakes, "--format", "json"}, 1, `"compared"`},
		{[]string{"compare", example}, 2, "compare: expected two files"},
		{[]string{"compare", example, example, example}, 2, "compare: expected two files"},
		{[]string{"compare", example, "no-such.yaml"}, 2, "no-such.yaml"},
		{[]string{"compare", example, ""}, 2, "compare: expected two files"},
		{[]string{"compare", "", example}, 2, "compare: expected two files"},
		{[]string{"compare", example, example, "--with", example}, 2, "--with: found with compare"},
		{[]string{"packs", example, "--out", "no-such", "--pack", "site,test", "--with", example}, 2, "expected with the client pack"},
		{[]string{"lux", example, "--at", "1,1,-5"}, 0, "below the level ground"},
		{[]string{"compare", example, example, "--pack", "site"}, 2, "only with packs"},
		{[]string{"findings", example, "--with", example}, 2, "only with packs"},
		{[]string{"packs", example, "--out", "no-such-packs", "--with", broken}, 2, "dangling-stock.yaml:"},
		{[]string{"findings"}, 2, "expected a command and a file"},
		{[]string{"findings", example, "--out", "plan.png"}, 2, "only with picture"},
		{[]string{"lengths", example, "--date", "2026-11-25"}, 2, "only with picture"},
		{[]string{"picture", example, "--out", "no-such-folder/plan.png"}, 2, "cannot write no-such-folder/plan.png"},
		{[]string{"findings", "no\nsuch\x1b[31m.yaml"}, 2, "cannot open"},
		{[]string{"fin\ndings", example}, 2, "expected findings"},
		{[]string{"findings", example, "--rules", "../../assets"}, 2, "it is not a file"},
		{[]string{"--frobnicate"}, 2, "frobnicate"},
		{[]string{"--help"}, 0, "dusksheet findings FILE"},
		{nil, 0, "dusksheet findings FILE"},
	} {
		code, out, errs := sheet(c.args...)
		if code != c.code || !strings.Contains(out+errs, c.says) {
			t.Errorf("%v: exit %d, want %d; printed %q, want %q in it", c.args, code, c.code, out+errs, c.says)
		}
		if code == 2 && (out != "" || strings.Count(errs, "\n") != 1 || strings.Contains(errs, "\x1b")) {
			t.Errorf("%v: a failure is told by one line, found %q and %q", c.args, out, errs)
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
		if code, out, errs := sheet("picture", example, "--out", path, "--date", "2026-11-25", "--view", "dig"); code != 0 || !strings.HasPrefix(out, "dig plan written") {
			t.Errorf("%s of the digging: exit %d, %s%s", c.name, code, out, errs)
		}
		if code, out, errs := sheet("picture", example, "--out", path, "--date", "2026-11-25", "--view", "circuit"); code != 0 || !strings.HasPrefix(out, "circuit written") {
			t.Errorf("%s: circuit: exit %d: %s%s", c.name, code, out, errs)
		}
		if circuit, _ := os.ReadFile(path); bytes.Equal(first, circuit) || !strings.HasPrefix(string(circuit), c.magic) {
			t.Errorf("%s: the circuit is the plan, or no such file", c.name)
		}
		sheet("picture", example, "--out", path, "--date", "2026-11-25", "--view", "plan")
		sheet("picture", broken, "--out", path)
		if kept, _ := os.ReadFile(path); !bytes.Equal(first, kept) {
			t.Errorf("%s: a failed picture spoilt the older one", c.name)
		}
	}
}

// TestPictureTarget: a link is followed, a folder is no place for a picture,
// and nothing is left beside.
func TestPictureTarget(t *testing.T) {
	dir := t.TempDir()
	target, link, folder := filepath.Join(dir, "real.svg"), filepath.Join(dir, "link.svg"), filepath.Join(dir, "folder.svg")
	if err := os.WriteFile(target, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("real.svg", link); err != nil {
		t.Skip("no links here")
	}
	if code, _, errs := sheet("picture", example, "--out", link); code != 0 {
		t.Fatalf("exit %d: %s", code, errs)
	}
	if data, _ := os.ReadFile(target); !bytes.HasPrefix(data, []byte("<?xml")) {
		t.Errorf("the file behind the link starts with %.20q", data)
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v %v", info, err)
	}
	if code, _, errs := sheet("picture", example, "--out", folder); code != 2 || !strings.Contains(errs, "it is not a file") {
		t.Errorf("onto a folder: exit %d: %s", code, errs)
	}
	if names, _ := os.ReadDir(dir); len(names) != 3 {
		t.Errorf("%d names in the folder, want 3", len(names))
	}
}

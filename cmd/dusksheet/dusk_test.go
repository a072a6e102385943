package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout"
)

// TestDuskSays: text and JSON of dusk say what the picture is and is not, in words of
// lux too, and --after-curfew what still burns and another picture where a zone is off.
func TestDuskSays(t *testing.T) {
	data, err := os.ReadFile(example)
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "g.yaml")
	text := strings.Replace(string(data), "name: Terrace and steps, number: 1,", `name: Terrace and steps, number: 1, off: "22:30",`, 1)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	picture := func(words ...string) (string, []byte) {
		out := filepath.Join(dir, "n.png")
		var said, failed bytes.Buffer
		if code := run(append([]string{"dusk", path, "--out", out}, words...), &said, &failed); code != exitClean {
			t.Fatalf("%v: exit %d, %s", words, code, failed.String())
		}
		page, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		return said.String(), page
	}
	for _, words := range [][]string{{"--contours"}, {"--from", "V1"}} {
		said, all := picture(words...)
		if !strings.Contains(said, layout.NightCaveat+". Photopic, direct light only") {
			t.Errorf("%v: %q", words, said)
		}
		said, late := picture(append(words, "--after-curfew", "--format", "json")...)
		var got struct{ Picture, Caveat string }
		if err := json.Unmarshal([]byte(said), &got); err != nil || !strings.Contains(got.Caveat, layout.NightCaveat) || !strings.Contains(got.Caveat, "Photopic") ||
			!strings.Contains(got.Caveat, "12 of 15 lamps burn on at 23:00") {
			t.Errorf("%v: %v, %+v", words, err, got)
		}
		if bytes.Equal(all, late) {
			t.Errorf("%v: after curfew it is the same picture", words)
		}
	}
}

// TestOutWords: who puts --out where it does not go is told all places where it does.
func TestOutWords(t *testing.T) {
	for _, words := range [][]string{{"lux", example, "--at", "1,1,0", "--out", "x"}, {"findings", example, "--after-curfew"}} {
		var said, failed bytes.Buffer
		if code := run(words, &said, &failed); code != exitFailed || !strings.Contains(failed.String(), "dusk") {
			t.Errorf("%v: exit %d, %s", words, code, failed.String())
		}
	}
}

// TestHelpNamesTheOptions: the help names every option, and each line of dusk what
// that way of it takes.
func TestHelpNamesTheOptions(t *testing.T) {
	new(options).flags().VisitAll(func(f *flag.Flag) {
		if !strings.Contains(usage, "--"+f.Name) {
			t.Errorf("the help lacks --%s", f.Name)
		}
	})
	ways := 0
	for line := range strings.Lines(usage) {
		if strings.HasPrefix(line, "  dusksheet dusk") {
			ways++
			if !strings.Contains(line, "[--after-curfew]") {
				t.Errorf("no word of --after-curfew in %q", line)
			}
		}
	}
	if ways != 2 {
		t.Errorf("%d ways of dusk, expected the plan and the eye point", ways)
	}
}

package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Of very much lost work the newest is offered, and what is held stays few: each
// is an open file. The rest is found by a later start.
func TestFindHoldsOnlySome(t *testing.T) {
	state := t.TempDir()
	noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	const all = mostLost + 15
	for i := range all {
		at := noon.Add(time.Duration(i) * time.Minute)
		folder := leave(t, state, fmt.Sprint(i), "", at)
		if err := os.Chtimes(filepath.Join(folder, workName), at, at); err != nil {
			t.Fatal(err)
		}
	}
	lost, skipped := Find(state)
	if len(lost) != mostLost || lost[0].Title != fmt.Sprint(all-1) || lost[mostLost-1].Title != "15" {
		t.Fatalf("found %d", len(lost))
	}
	if len(skipped) != 1 || !strings.Contains(skipped[0].Error(), "15 older sessions") {
		t.Errorf("skipped %v", skipped)
	}
	for _, l := range lost {
		l.Discard()
	}
	again, _ := Find(state)
	if len(again) != 15 || again[0].Title != "14" {
		t.Fatalf("later found %d", len(again))
	}
	for _, l := range again {
		l.Discard()
	}
}

// Very many torn files are told in a few lines.
func TestManyTornAreToldShortly(t *testing.T) {
	state := t.TempDir()
	for i := range 30 {
		folder := leave(t, state, fmt.Sprint(i), "", time.Now())
		if err := os.WriteFile(filepath.Join(folder, workName), []byte("torn"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	lost, skipped := Find(state)
	if len(lost) != 0 || len(skipped) != mostTold+1 || !strings.Contains(skipped[mostTold].Error(), "25 more") {
		t.Errorf("found %d, skipped %v", len(lost), skipped)
	}
}

// A memory that somebody filled with nonsense gives no menu of it.
func TestMemoryOfNonsense(t *testing.T) {
	state := t.TempDir()
	path := filepath.Join(state, memoryName)
	text := `{"recent":["","a.yaml","/g/two\nlines.yaml","/g/` + strings.Repeat("w", 5000) + `","/g/a.yaml"],"folder":"../x","width":900,"height":700,"scale":1e-30}`
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	m, err := Recall(state)
	if err != nil || len(m.Recent) != 1 || m.Recent[0] != "/g/a.yaml" || m.Folder != "" || m.Scale != 0 || m.Width != 900 {
		t.Errorf("%+v, %v", m, err)
	}
	if err := os.WriteFile(path, []byte(`{"recent":["/g/a.yaml"]}`+strings.Repeat(" ", memoryBytes)), 0o600); err != nil {
		t.Fatal(err)
	}
	if m, err := Recall(state); err == nil || m.Recent != nil {
		t.Errorf("of a huge memory %+v, %v", m, err)
	}
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(path, 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := Recall(state); err == nil {
		t.Error("a folder was taken for a memory")
	}
}

// A folder that somebody else has put beside the sessions, or a file inside one,
// is not taken away; what a write that was cut off has left is.
func TestForeignFilesStay(t *testing.T) {
	state := t.TempDir()
	base := filepath.Join(state, sessions)
	put := func(parts ...string) string {
		path := filepath.Join(append([]string{base}, parts...)...)
		if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte("mine"), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	foreign := []string{put("old plans", "garden.yaml"), put("a file"), put("session", "copy of work")}
	if err := os.Symlink(filepath.Dir(foreign[0]), filepath.Join(base, "link")); err != nil {
		t.Skip(err)
	}
	gone := []string{put("session", ".work.123.new"), put("left over", lockName)}
	before := time.Now().Add(-2 * emptyAge)
	for _, folder := range []string{"old plans", "session", "left over"} {
		if err := os.Chtimes(filepath.Join(base, folder), before, before); err != nil {
			t.Fatal(err)
		}
	}
	if lost, skipped := Find(state); len(lost)+len(skipped) != 0 {
		t.Errorf("found %v, skipped %v", lost, skipped)
	}
	for _, path := range foreign {
		if data, err := os.ReadFile(path); err != nil || string(data) != "mine" {
			t.Errorf("what was not ours is gone: %v", err)
		}
	}
	for _, path := range gone {
		if _, err := os.Stat(path); err == nil {
			t.Errorf("%s was left over", filepath.Base(path))
		}
	}
}

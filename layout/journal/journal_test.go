package journal

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// titled is a scheme that is known by its title.
func titled(title string) *doc.Scheme {
	s := doc.New("uk-18")
	s.Title = title
	return s
}

// kept returns the titles of the work on the disk, read as it stands there.
func kept(t *testing.T, state string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(state, sessions, "*", workName))
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		e, _, err := decode(data)
		if err != nil {
			t.Fatalf("%s: %v", n, err)
		}
		out = append(out, e.Title)
	}
	return out
}

// TestWaitsForTheHandToRest runs on a fake clock: one write after a rest, one
// at the latest while the hand does not rest, and none of what was replaced.
func TestWaitsForTheHandToRest(t *testing.T) {
	state := t.TempDir()
	synctest.Test(t, func(t *testing.T) {
		var mu sync.Mutex // to sleep orders nothing for the race detector
		var wrote []string
		begun := time.Now()
		j := Start(Config{State: state, Wrote: func(e Entry) {
			mu.Lock()
			defer mu.Unlock()
			wrote = append(wrote, e.Title+" after "+time.Since(begun).String())
		}})
		want := func(list ...string) {
			t.Helper()
			synctest.Wait()
			mu.Lock()
			defer mu.Unlock()
			if strings.Join(wrote, ", ") != strings.Join(list, ", ") {
				t.Fatalf("wrote %q, expected %q", wrote, list)
			}
		}
		j.Note(titled("a"), "")
		time.Sleep(300 * time.Millisecond)
		j.Note(titled("b"), "")
		time.Sleep(300 * time.Millisecond)
		want() // neither has rested for 400 ms
		time.Sleep(200 * time.Millisecond)
		want("b after 700ms")
		begun = time.Now()
		for range 25 { // an edit every 100 ms for 2.5 s
			j.Note(titled("c"), "")
			time.Sleep(100 * time.Millisecond)
		}
		want("b after 700ms", "c after 2s")
		j.Clear()
		synctest.Wait()
		if got := kept(t, state); got != nil {
			t.Errorf("%v is kept after all was saved", got)
		}
		time.Sleep(time.Minute)
		want("b after 700ms", "c after 2s") // what was cleared is not written late
		j.Note(titled("d"), "")
		time.Sleep(time.Second)
		synctest.Wait()
		if got := kept(t, state); len(got) != 1 || got[0] != "d" {
			t.Errorf("kept %v, expected d", got)
		}
		j.Close()
	})
	left, err := os.ReadDir(filepath.Join(state, sessions))
	if err != nil || len(left) != 0 {
		t.Errorf("after a clean end the folder holds %v, %v", left, err)
	}
}

// A disk that refuses is told once, and again only after it went well.
func TestFailureIsToldOnce(t *testing.T) {
	state := filepath.Join(t.TempDir(), "state")
	if err := os.WriteFile(state, nil, 0o600); err != nil { // a file where the folder should be
		t.Fatal(err)
	}
	synctest.Test(t, func(t *testing.T) {
		var told []error
		wrote := 0
		j := Start(Config{State: state, Failed: func(err error) { told = append(told, err) }, Wrote: func(Entry) { wrote++ }})
		note := func() {
			j.Note(titled("a"), "")
			time.Sleep(time.Second)
			synctest.Wait()
		}
		note()
		note()
		if len(told) != 1 {
			t.Fatalf("told %v, expected one failure", told)
		}
		if err := os.Remove(state); err != nil {
			t.Fatal(err)
		}
		note()
		if wrote != 1 || len(told) != 1 {
			t.Errorf("wrote %d times, told %v", wrote, told)
		}
		j.Close()
	})
}

// leave writes work as a process does that then ends without a word.
func leave(t *testing.T, state, title, path string, at time.Time) (folder string) {
	t.Helper()
	s, err := newSession(state)
	if err != nil {
		t.Fatal(err)
	}
	scheme := titled(title)
	text, err := file.WriteScheme(scheme)
	if err != nil {
		t.Fatal(err)
	}
	data, err := encode(entryOf(scheme, path, text, at), text)
	if err != nil {
		t.Fatal(err)
	}
	if err := file.WriteFile(s.work(), data); err != nil {
		t.Fatal(err)
	}
	s.lock.Close() // what the system does at the end of a process
	return s.folder
}

func TestFindOffersWhatNoWindowHolds(t *testing.T) {
	state := t.TempDir()
	noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	leave(t, state, "older", "/gardens/a.yaml", noon)
	leave(t, state, "newer", "", noon.Add(time.Hour))
	alive, err := newSession(state) // another window, running
	if err != nil {
		t.Fatal(err)
	}
	if err := file.WriteFile(alive.work(), []byte("{}")); err != nil {
		t.Fatal(err)
	}
	lost, skipped := Find(state)
	if len(lost) != 2 || len(skipped) != 0 || lost[0].Title != "newer" || lost[1].Path != "/gardens/a.yaml" {
		t.Fatalf("found %+v, skipped %v", lost, skipped)
	}
	if again, _ := Find(state); len(again) != 0 {
		t.Errorf("work that is offered here was offered a second time: %+v", again)
	}
	lost[0].Discard()
	lost[1].Later()
	again, _ := Find(state)
	if len(again) != 1 || again[0].Title != "older" {
		t.Fatalf("later found %+v, expected the older one", again)
	}
	again[0].Discard()
	alive.end()
	if left, _ := os.ReadDir(filepath.Join(state, sessions)); len(left) != 0 {
		t.Errorf("left over: %v", left)
	}
}

// A torn file is told and put aside; it stands in nobody's way.
func TestTornWorkIsPutAside(t *testing.T) {
	noon := time.Date(2026, 11, 25, 12, 0, 0, 0, time.UTC)
	for name, tear := range map[string]func([]byte) []byte{
		"cut short":      func(b []byte) []byte { return b[:len(b)-9] },
		"empty":          func([]byte) []byte { return nil },
		"head only":      func(b []byte) []byte { return b[:20] },
		"a bit turned":   func(b []byte) []byte { b[len(b)-3] ^= 1; return b },
		"something else": func([]byte) []byte { return []byte("duskwire: 1\nrules: uk-18\n") },
		"a later form": func(b []byte) []byte {
			return []byte(strings.Replace(string(b), `"duskwire_journal":1`, `"duskwire_journal":2`, 1))
		},
	} {
		t.Run(name, func(t *testing.T) {
			state := t.TempDir()
			folder := leave(t, state, "torn", "", noon)
			leave(t, state, "whole", "", noon)
			path := filepath.Join(folder, workName)
			data, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, tear(data), 0o600); err != nil {
				t.Fatal(err)
			}
			lost, skipped := Find(state)
			if len(lost) != 1 || lost[0].Title != "whole" {
				t.Fatalf("found %+v", lost)
			}
			if len(skipped) != 1 || !strings.Contains(skipped[0].Error(), tornName) {
				t.Fatalf("skipped %v, expected the place it was put", skipped)
			}
			lost[0].Later()
			if _, again := Find(state); len(again) != 0 {
				t.Errorf("told a second time: %v", again)
			}
			if _, err := os.Stat(filepath.Join(folder, tornName)); err != nil {
				t.Errorf("what was put aside is gone: %v", err)
			}
		})
	}
}

func TestFindWithoutAFolder(t *testing.T) {
	if lost, skipped := Find(filepath.Join(t.TempDir(), "none")); lost != nil || skipped != nil {
		t.Errorf("found %v, skipped %v", lost, skipped)
	}
}

func TestWords(t *testing.T) {
	at := time.Date(2026, 11, 25, 14, 32, 10, 0, time.UTC)
	for _, row := range []struct {
		e    Entry
		now  time.Time
		want string
	}{
		{Entry{Path: "/g/townhouse.yaml", Lamps: 12, Time: at}, at.Add(time.Hour),
			"Work from 14:32 that was not saved: townhouse.yaml, 12 lamps."},
		{Entry{Title: "Pond", Lamps: 1, Time: at}, at.Add(24 * time.Hour),
			"Work from 14:32 on 25 November 2026 that was not saved: Pond (no file yet), 1 lamp."},
		{Entry{Time: at}, at, "Work from 14:32 that was not saved: a scheme without name or file, 0 lamps."},
	} {
		if got := row.e.Words(row.now); got != row.want {
			t.Errorf("%q, expected %q", got, row.want)
		}
	}
}

func TestMemory(t *testing.T) {
	state := filepath.Join(t.TempDir(), "state")
	if m, err := Recall(state); err != nil || m.Recent != nil {
		t.Fatalf("at first %+v, %v", m, err)
	}
	for i := range 12 {
		if _, err := Remember(state, func(m *Memory) { m.Opened("/g/" + string(rune('a'+i)) + ".yaml") }); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := Remember(state, func(m *Memory) { m.Opened("/g/e.yaml"); m.Dark = true; m.Width, m.Height = 1000, 700 }); err != nil {
		t.Fatal(err)
	}
	m, err := Recall(state)
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(m.Recent, " "); got != "/g/e.yaml /g/l.yaml /g/k.yaml /g/j.yaml /g/i.yaml /g/h.yaml /g/g.yaml /g/f.yaml /g/d.yaml /g/c.yaml" {
		t.Errorf("recent %s", got)
	}
	if !m.Dark || m.Width != 1000 || m.Folder != "/g" {
		t.Errorf("%+v", m)
	}
	if err := os.WriteFile(filepath.Join(state, memoryName), []byte(`{"recent":["/g/`), 0o600); err != nil {
		t.Fatal(err)
	}
	if m, err := Recall(state); err == nil || m.Recent != nil {
		t.Errorf("of a torn memory %+v, %v", m, err)
	}
	if m, err := Remember(state, func(m *Memory) { m.Opened("/g/z.yaml") }); err != nil || len(m.Recent) != 1 {
		t.Errorf("after a torn memory %+v, %v", m, err)
	}
	if err := os.WriteFile(filepath.Join(state, memoryName), []byte(`{"width":-5,"height":10,"panel":7,"tray":-1}`), 0o600); err != nil {
		t.Fatal(err)
	}
	if m, _ := Recall(state); m.Width != 0 || m.Height != 0 || m.Panel != 0 || m.Tray != 0 {
		t.Errorf("nonsense was taken: %+v", m)
	}
}

func TestLockIsHeldOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "lock")
	lock, err := tryLock(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := tryLock(path); !errors.Is(err, errHeld) {
		t.Errorf("held twice: %v", err)
	}
	lock.Close()
	again, err := tryLock(path)
	if err != nil {
		t.Fatalf("not free after close: %v", err)
	}
	again.Close()
}

package journal

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
)

// The helper is this test binary started again: it draws at random with the
// journal on until it is killed.
const (
	helperState = "DUSKWIRE_TEST_JOURNAL"
	helperSeed  = "DUSKWIRE_TEST_SEED"
)

func TestMain(m *testing.M) {
	if state := os.Getenv(helperState); state != "" {
		seed, err := strconv.ParseUint(os.Getenv(helperSeed), 10, 64)
		if err != nil {
			panic(err)
		}
		draw(state, seed)
	}
	os.Exit(m.Run())
}

// hand makes one random edit after the other; the same seed gives the same.
type hand struct {
	r    *rand.Rand
	s    *doc.Scheme
	next int
}

func newHand(seed uint64) *hand { return &hand{r: rand.New(rand.NewPCG(seed, 7)), s: titled("drawn")} }

func (h *hand) point() geom.Point {
	return geom.Point{X: geom.Length(h.r.Int64N(20e6)), Y: geom.Length(h.r.Int64N(20e6))}
}

func (h *hand) edit() {
	lamps := h.s.Lamps.All()
	var op edit.Operation
	switch k := h.r.IntN(10); {
	case k < 5 || len(lamps) == 0:
		h.next++
		op = edit.Place{Entity: &doc.Lamp{ID: doc.ID("lamp-" + strconv.Itoa(h.next)), Stock: "brick-3w", Place: doc.Place{At: h.point()}}}
	case k < 9:
		op = edit.MovePoints{IDs: []doc.ID{lamps[h.r.IntN(len(lamps))].ID}, By: h.point()}
	default:
		op = edit.Delete{IDs: []doc.ID{lamps[h.r.IntN(len(lamps))].ID}}
	}
	s, err := op.Apply(h.s)
	if err != nil {
		panic(err)
	}
	h.s = s
}

// draw never returns. It prints the hash of each state once it is on the disk.
func draw(state string, seed uint64) {
	j := Start(Config{State: state, Quiet: 3 * time.Millisecond, Latest: 12 * time.Millisecond,
		Wrote: func(e Entry) { fmt.Println(e.Hash) }})
	h := newHand(seed)
	pause := rand.New(rand.NewPCG(seed, 8))
	fmt.Println("drawing")
	for {
		h.edit()
		j.Note(h.s, "/gardens/drawn.yaml")
		time.Sleep(time.Duration(pause.IntN(2500)) * time.Microsecond)
	}
}

// TestKillAndRecover kills a drawing process at 50 random moments. What is
// found then is a state that the process was in, and none older than the last
// one of which it had said that it is on the disk.
func TestKillAndRecover(t *testing.T) {
	const kills = 50
	chance := rand.New(rand.NewPCG(1, 2))
	recovered := 0
	for i := range kills {
		state := t.TempDir()
		acknowledged := drawAndKill(t, state, uint64(i), time.Duration(chance.IntN(300))*time.Millisecond)
		lost, skipped := Find(state)
		if len(skipped) != 0 {
			t.Fatalf("kill %d: skipped %v", i, skipped)
		}
		if len(lost) == 0 {
			if len(acknowledged) > 0 {
				t.Fatalf("kill %d: %d states were on the disk, none is found", i, len(acknowledged))
			}
			continue
		}
		recovered++
		l := lost[0]
		got, last := stateOf(t, uint64(i), l.Hash), -1
		if n := len(acknowledged); n > 0 {
			last = stateOf(t, uint64(i), acknowledged[n-1])
		}
		if got < last {
			t.Errorf("kill %d: state %d is found, state %d was on the disk", i, got, last)
		}
		s, err := file.ReadScheme("work", l.Text, doc.Stock{Lamps: []doc.LampStock{{Key: "brick-3w"}}})
		if err != nil {
			t.Fatalf("kill %d: %v", i, err)
		}
		if s.Lamps.Len() != l.Lamps || l.Path != "/gardens/drawn.yaml" || l.PID == os.Getpid() {
			t.Errorf("kill %d: %d lamps, entry %+v", i, s.Lamps.Len(), l.Entry)
		}
		l.Discard()
	}
	if recovered < kills/2 {
		t.Errorf("only %d of %d kills left anything: the moments are not spread", recovered, kills)
	}
	t.Logf("%d kills, %d with work to recover", kills, recovered)
}

// drawAndKill returns the hashes that the process had printed by its end.
func drawAndKill(t *testing.T, state string, seed uint64, after time.Duration) []string {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), helperState+"="+state, helperSeed+"="+strconv.FormatUint(seed, 10))
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	if !lines.Scan() || lines.Text() != "drawing" {
		_ = cmd.Process.Kill()
		t.Fatalf("the helper said %q", lines.Text())
	}
	time.AfterFunc(after, func() { _ = cmd.Process.Signal(syscall.SIGKILL) })
	var hashes []string
	for lines.Scan() {
		if text := strings.TrimSpace(lines.Text()); len(text) == 64 {
			hashes = append(hashes, text)
		}
	}
	if err := cmd.Wait(); err == nil {
		t.Fatal("the helper ended by itself")
	}
	return hashes
}

// stateOf draws again until the state with the hash comes up.
func stateOf(t *testing.T, seed uint64, hash string) int {
	t.Helper()
	h := newHand(seed)
	for i := range 5000 {
		h.edit()
		text, err := file.WriteScheme(h.s)
		if err != nil {
			t.Fatal(err)
		}
		if Hash(text) == hash {
			return i
		}
	}
	t.Fatalf("seed %d never was in the state that was found", seed)
	return -1
}

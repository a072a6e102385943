package tool

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

var update = flag.Bool("update", false, "write the goldens in testdata anew")

// reach is the pick radius of the scripts.
const reach = 80 * geom.Millimetre

// TestScripts plays the gestures of testdata/*.txt. A file has three parts:
// the scheme at the start, the commands, and what is wanted afterwards.
//
//	tool Run            take a tool        key BackSpace [shift]
//	down 1,2 [shift]    press              type 3.2m<45
//	move 1,2            move               select L1 R1
//	up 1,2              let go             undo
//	click 1,2 [double]  move, press, let go
//	set cable thin      change a default
//	show                write down what floats above the plan
//	selected            write down the selection
//	caught              write down what caught the pointer
//	set snaps edge off  choose what catches
//	arrow Up [shift]    move the pointer by keys    jumps    write down where it can jump
//	jump 2              to the second of them       space    click there
//	mirror              mirror the selection about a line
func TestScripts(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no scripts in testdata", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			raw, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			head, rest, ok1 := strings.Cut(string(raw), "-- do --\n")
			script, want, ok2 := strings.Cut(rest, "-- want --\n")
			if !ok1 || !ok2 {
				t.Fatalf("%s: parts -- do -- and -- want -- expected", file)
			}
			start, err := readScheme(head)
			if err != nil {
				t.Fatal(err)
			}
			p := &player{}
			p.session, p.desk, p.set = newSession(start)
			for _, line := range strings.Split(strings.TrimSpace(script), "\n") {
				if err := p.play(line); err != nil {
					t.Fatalf("%s: %q: %v", file, line, err)
				}
			}
			got := p.report()
			if *update {
				if err := os.WriteFile(file, []byte(head+"-- do --\n"+script+"-- want --\n"+got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%s: -want +got\n%s", file, diff)
			}
		})
	}
}

// player plays one script.
type player struct {
	session *Session
	desk    *fakeDesk
	set     *Defaults
	at      geom.Point
	keyed   bool        // keys have brought the pointer there
	step    geom.Length // by so much
	log     strings.Builder
}

func (p *player) play(line string) error {
	f := strings.Fields(line)
	if len(f) == 0 || f[0] == "#" {
		return nil
	}
	has := func(w string) bool { return strings.Contains(line, " "+w) }
	e := Event{Reach: reach, ReachUp: reach, Button: LeftButton, Clicks: 1,
		Mods: Modifiers{Shift: has("shift"), Control: has("control"), Alt: has("alt")}}
	if has("double") {
		e.Clicks = 2
	}
	switch f[0] {
	case "down", "move", "up", "click":
		at, err := readPoint(f[1])
		if err != nil {
			return err
		}
		p.at, p.keyed = at, false
	}
	e.At, e.Keyed, e.Step = p.at, p.keyed, p.step
	kinds := map[string][]Kind{
		"down": {Down}, "move": {Move}, "up": {Up}, "click": {Move, Down, Up}, "cancel": {Cancel}, "key": {Key},
	}
	if f[0] == "key" {
		e.Key = f[1]
	}
	for _, e.Kind = range kinds[f[0]] {
		p.send(e)
	}
	if kinds[f[0]] != nil {
		return nil
	}
	return p.other(f, line, e)
}

// other plays the commands that are not a plain event.
func (p *player) other(f []string, line string, e Event) error {
	switch f[0] {
	case "type":
		e.Kind = Rune
		for _, e.Rune = range strings.TrimPrefix(line, "type ") {
			p.send(e)
		}
	case "tool":
		t := ByName(p.set, strings.TrimPrefix(line, "tool "))
		if t == nil {
			return fmt.Errorf("no such tool")
		}
		p.session.Take(t)
	case "select":
		p.session.Select()
		var ids []doc.ID
		for _, tag := range f[1:] {
			ids = append(ids, doc.WithTag(p.session.Scheme(), tag).Key())
		}
		p.session.Select(ids...)
	case "undo":
		p.desk.undo()
	case "mirror":
		p.session.Take(NewMirror(p.set, p.session.Selection()))
	case "arrow", "jump", "jumps", "space":
		return p.keys(f, e)
	case "set":
		switch f[1] {
		case "cable":
			p.set.Cable = f[2]
		case "lamp":
			p.set.Lamp = f[2]
		case "round":
			p.set.Ground.Round = f[2] == "on"
		case "ground":
			p.set.Ground.Choose(strings.Join(f[2:], " "))
		case "snaps":
			c := p.session.Snaps()
			switch f[2] {
			case "beside":
				m, _ := strconv.Atoi(f[3])
				c.Beside = geom.Length(m) * geom.Millimetre
			default:
				*map[string]*bool{"grid": &c.NoGrid, "corner": &c.NoCorner, "edge": &c.NoEdge, "foot": &c.NoFoot,
					"extension": &c.NoExtension, "along": &c.NoAlong, "track": &c.NoTrack}[f[2]] = f[3] == "off"
			}
			p.session.SetSnaps(c)
		case "snap":
			p.session.SetSnap(f[2] == "on")
		}
	case "caught":
		p.caught()
	case "show":
		p.show()
	case "selected":
		fmt.Fprintf(&p.log, "selected: %s\n", p.selected())
	default:
		return fmt.Errorf("unknown command")
	}
	return nil
}

// keys plays what moves the pointer without a mouse.
func (p *player) keys(f []string, e Event) error {
	switch f[0] {
	case "arrow":
		to, step, ok := Stepped(p.at, f[1], p.session.Scheme().Plan.Grid, e.Mods.Shift, !p.keyed)
		if !ok {
			return fmt.Errorf("no such arrow")
		}
		p.goTo(e, to, step)
	case "space":
		for _, e.Kind = range []Kind{Down, Up} {
			p.send(e)
		}
	case "jump", "jumps":
		e.Kind = Move
		p.send(e)
		list := p.session.Jumps()
		if f[0] == "jumps" {
			fmt.Fprintf(&p.log, "jumps:%s\n", points(list))
			return nil
		}
		n, err := strconv.Atoi(f[1])
		if err != nil || n < 1 || n > len(list) {
			return fmt.Errorf("there are %d places to jump to", len(list))
		}
		p.goTo(e, list[n-1], 0)
	}
	return nil
}

func (p *player) goTo(e Event, to geom.Point, step geom.Length) {
	p.at, p.keyed, p.step = to, true, step
	e.Kind, e.At, e.Keyed, e.Step = Move, to, true, step
	p.send(e)
}

func (p *player) send(e Event) {
	p.session.Send(e)
	if r := p.session.Refused(); r != "" {
		fmt.Fprintf(&p.log, "refused: %s\n", r)
	}
}

func (p *player) caught() {
	o := p.session.Overlay()
	if o.Snap == nil {
		fmt.Fprintf(&p.log, "caught: nothing\n")
		return
	}
	fmt.Fprintf(&p.log, "caught: %s, %s", point(*o.Snap), o.Caught.Word)
	for _, g := range o.Caught.Guides {
		fmt.Fprintf(&p.log, ", guide %s %s", point(g.A), point(g.B))
	}
	fmt.Fprintf(&p.log, "\n")
}

func (p *player) show() {
	o := p.session.Overlay()
	for _, l := range o.Lines {
		fmt.Fprintf(&p.log, "line:%s\n", points(l))
	}
	if o.Snap != nil {
		fmt.Fprintf(&p.log, "snap: %s\n", point(*o.Snap))
	}
	if o.Corner != nil {
		fmt.Fprintf(&p.log, "corner: %s\n", point(*o.Corner))
	}
	if o.Rubber != nil {
		fmt.Fprintf(&p.log, "rubber: %s %s\n", point(o.Rubber.Min), point(o.Rubber.Max))
	}
	if o.Hover != "" {
		fmt.Fprintf(&p.log, "hover: %s\n", doc.TagOf(p.session.Scheme(), o.Hover))
	}
	if o.Note != "" {
		fmt.Fprintf(&p.log, "note: %s\n", o.Note)
	}
	if o.Typed != "" {
		fmt.Fprintf(&p.log, "typed: %s\n", o.Typed)
	}
	if p.desk.preview != nil {
		fmt.Fprintf(&p.log, "preview:\n%s", indent(writeScheme(p.desk.preview)))
	}
	fmt.Fprintf(&p.log, "hint: %s\n", p.session.Hint())
}

func indent(s string) string {
	if s == "" {
		return ""
	}
	return "  " + strings.TrimSuffix(strings.ReplaceAll(s, "\n", "\n  "), "  ")
}

func (p *player) selected() string {
	var tags []string
	for _, id := range p.session.Selection() {
		tags = append(tags, doc.TagOf(p.desk.current(), id))
	}
	return strings.Join(tags, " ")
}

func (p *player) report() string {
	s := p.desk.current()
	out := p.log.String() + "scheme:\n" + indent(writeScheme(s))
	out += "selected: " + p.selected() + "\n"
	out += "tool: " + p.session.Tool().Name() + "\n"
	out += "steps: " + strings.Join(p.desk.names, "; ") + "\n"
	if p.desk.preview != nil {
		out += "a preview is still on\n"
	}
	return out
}

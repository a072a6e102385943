package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"duskwire/calc/network"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

// several shows the panel with the things of the tags selected.
func several(t *testing.T, d *counted, tags ...string) (*Properties, fyne.Window) {
	t.Helper()
	p, w := properties(t, d, "")
	var ids []doc.ID
	for _, tag := range tags {
		ids = append(ids, doc.WithTag(d.Frame().Scheme, tag).Key())
	}
	p.SetSelection(ids)
	return p, w
}

// choose picks a key from a list as someone would.
func choose(t *testing.T, c *choiceRow, key string) {
	t.Helper()
	for i, k := range c.keys {
		if k == key {
			c.pick.SetSelectedIndex(i)
			return
		}
	}
	t.Fatalf("the list has no %q among %q", key, c.keys)
}

// What is chosen for several lamps is set for all of them, as one step.
func TestManyAreSetAtOnce(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := several(t, d, "L1", "L2", "L3")
	start := d.Frame().Scheme
	fitting := choiceOf(t, p, "Fitting")
	if fitting.pick.Selected != differing {
		t.Fatalf("the fittings differ, the list shows %q", fitting.pick.Selected)
	}
	choose(t, fitting, "spot-5w-230")
	choose(t, choiceOf(t, p, "Switched in"), "")
	f := fieldOf(t, p, "Above ground")
	f.SetText("450mm")
	f.OnSubmitted("")
	choose(t, choiceOf(t, p, "Lock"), keyLocked)
	for _, tag := range []string{"L1", "L2", "L3"} {
		l := lampOf(d, tag)
		if l.Stock != "spot-5w-230" || l.Zone != "" || l.Place.Height != geom.Metres(0.45) || !l.Lock {
			t.Errorf("%s is %+v", tag, l)
		}
	}
	if f.Text != "0.45 m" || fitting.pick.Selected == differing || len(fitting.keys) != len(lampOptions(d.Frame().Stock)) {
		t.Errorf("afterwards the form shows %q and %q of %d", f.Text, fitting.pick.Selected, len(fitting.keys))
	}
	for _, name := range []string{"Lock 3 lamps", "Set height of 3 lamps", "Set zone of 3 lamps", "Set fitting of 3 lamps"} {
		if d.Frame().Undo != name {
			t.Errorf("the step is called %q, expected %q", d.Frame().Undo, name)
		}
		d.Undo()
	}
	if d.Frame().Scheme != start {
		t.Error("four undos did not take four steps back")
	}
}

// Looking, and choosing "differs", change nothing.
func TestManyShowWithoutWriting(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := several(t, d, "L1", "L2")
	before := d.Frame()
	c := choiceOf(t, p, "Fitting")
	c.pick.SetSelectedIndex(0)
	f := fieldOf(t, p, "Above ground")
	f.FocusGained()
	f.FocusLost()
	p.Flush()
	p.SetSelection(nil)
	if d.Frame() != before {
		t.Errorf("looking made %q", d.Frame().Undo)
	}
}

// A locked zone is named with the lamps it holds back; nothing is set, the list
// goes back, and the reason does not stay for the next selection.
func TestManyNameWhatIsLocked(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	z := d.Frame().Scheme.Zones.All()[0]
	var tags []string
	for _, l := range d.Frame().Scheme.Lamps.All() {
		if l.Zone == z.ID && len(tags) < 2 {
			tags = append(tags, l.Tag)
		}
	}
	if err := d.Commit(edit.SetLock{IDs: []doc.ID{z.ID}, On: true}); err != nil || len(tags) < 2 {
		t.Fatal(err, tags)
	}
	p, _ := several(t, d, tags...)
	before := d.Frame()
	c := choiceOf(t, p, "Switched in")
	choose(t, c, "")
	want := strings.Join(tags, ", ") + ": zone " + z.Tag + " is locked"
	if !strings.HasPrefix(c.reason.Text, want) || !c.reason.Visible() || d.Frame() != before {
		t.Errorf("the reason is %q, expected %q", c.reason.Text, want)
	}
	if got := c.keys[c.pick.SelectedIndex()]; got != string(z.ID) {
		t.Errorf("the list shows %q", got)
	}
	p.SetSelection([]doc.ID{d.Frame().Scheme.Lamps.All()[3].ID, d.Frame().Scheme.Lamps.All()[4].ID})
	if c.reason.Visible() {
		t.Error("the reason stays for other lamps")
	}
}

// Things that go and come back leave and join the form.
func TestManyFollowWhatIsThere(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, w := several(t, d, "L1", "L2", "R1")
	if err := d.Commit(edit.Delete{IDs: []doc.ID{doc.WithTag(d.Frame().Scheme, "R1").Key()}}); err != nil {
		t.Fatal(err)
	}
	if p.title.Text != "2 things selected" {
		t.Errorf("the panel is about %q", p.title.Text)
	}
	choiceOf(t, p, "Switched in") // two lamps are left
	d.Undo()
	if p.title.Text != "3 things selected" {
		t.Errorf("after undo the panel is about %q", p.title.Text)
	}
	p.SetSelection([]doc.ID{lampOf(d, "L1").ID, lampOf(d, "L2").ID})
	seen := map[fyne.Focusable]bool{}
	for range 8 {
		w.Canvas().FocusNext()
		seen[w.Canvas().Focused()] = true
	}
	for _, o := range []fyne.Focusable{choiceOf(t, p, "Fitting").pick, choiceOf(t, p, "Switched in").pick, fieldOf(t, p, "Above ground"), choiceOf(t, p, "Lock").pick} {
		if !seen[o] {
			t.Errorf("Tab does not reach %T", o)
		}
	}
}

// A lamp, a box and two runs: every row sets those that it fits, and the panel says
// which those are.
func TestMixedSelection(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := several(t, d, "L1", "B1", "R3", "R9")
	start := d.Frame().Scheme
	run := func(tag string) *doc.Run { return doc.WithTag(d.Frame().Scheme, tag).(*doc.Run) }
	if !strings.HasPrefix(p.many.Text, "Of these 2 may have a height, 1 may have a zone, 2 may have a cable with its support; ") {
		t.Errorf("the panel says %q", p.many.Text)
	}
	f := fieldOf(t, p, "Above ground")
	f.SetText("0.7")
	f.OnSubmitted("")
	if h := lampOf(d, "L1").Place.Height; h != geom.Metres(0.7) {
		t.Errorf("the lamp stands at %v", h)
	}
	if h := doc.WithTag(d.Frame().Scheme, "B1").(*doc.Box).Place.Height; h != geom.Metres(0.7) {
		t.Errorf("the box stands at %v", h)
	}
	choose(t, choiceOf(t, p, "Support, all legs"), supportKey(network.Buried))
	depth := fieldOf(t, p, "Depth in the ground")
	depth.SetText("450mm")
	depth.OnSubmitted("")
	for _, tag := range []string{"R3", "R9"} {
		for i, l := range run(tag).Legs {
			if l.Support != network.Buried || l.Depth != geom.Metres(0.45) {
				t.Errorf("leg %d of %s is %v at %v", i+1, tag, l.Support, l.Depth)
			}
		}
	}
	choose(t, choiceOf(t, p, "Switched in"), "")
	choose(t, choiceOf(t, p, "Lock"), keyLocked)
	if lampOf(d, "L1").Zone != "" || !run("R9").Lock {
		t.Error("zone or lock was not set")
	}
	for _, name := range []string{"Lock 4 items", "Set zone of L1", "Set depth of 2 runs", "Set support of 2 runs", "Set height of 2 items"} {
		if d.Frame().Undo != name {
			t.Errorf("the step is called %q, expected %q", d.Frame().Undo, name)
		}
		d.Undo()
	}
	if d.Frame().Scheme != start {
		t.Error("undo did not take every step back")
	}
	p.SetSelection([]doc.ID{run("R3").ID, run("R9").ID})
	if strings.HasPrefix(p.many.Text, "Of these") {
		t.Errorf("of runs alone the panel says %q", p.many.Text)
	}
	choiceOf(t, p, "Cable")
}

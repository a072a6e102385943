package panel

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"duskwire/calc/finding"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// Notes stand under a fold when there is something worse, and Next opens it.
func TestNotesFold(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	worse := finding.Finding{Code: "A-01", Level: finding.Decide, Text: "decide", Subject: finding.Subject{ID: "a"}}
	note := func(code finding.Code) finding.Finding {
		return finding.Finding{Code: code, Level: finding.Note, Text: "note"}
	}
	for _, c := range []struct {
		name string
		fs   []finding.Finding
		want string
	}{
		{"folded", []finding.Finding{worse, note("N-01"), note("N-02")}, "A-01 2 Notes"},
		{"one note", []finding.Finding{worse, note("N-01")}, "A-01 N-01"},
		{"notes alone", []finding.Finding{note("N-01"), note("N-02")}, "N-01 N-02"},
	} {
		p.SetFrame(frameWith(d, c.fs...))
		if got := rowCodes(p); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	p.SetFrame(frameWith(d, worse, note("N-01"), note("N-02")))
	test.Tap(p.notes)
	if got := rowCodes(p); got != "A-01 2 Notes N-01 N-02" {
		t.Errorf("unfolded: %q", got)
	}
	test.Tap(p.notes)
	p.Next()
	p.Next()
	if got := rowCodes(p); got != "A-01 2 Notes N-01 N-02" || p.open.code != "N-01" {
		t.Errorf("Next opened %s in %q", p.open.code, got)
	}
	test.Tap(p.notes)
	if got := rowCodes(p); got != "A-01 2 Notes" {
		t.Errorf("folded over an open note: %q", got)
	}
}

// rowCodes lists the codes of the rows shown, with the head of the notes.
func rowCodes(p *Findings) string {
	var out []string
	for _, s := range p.Shown() {
		s, _, _ = strings.Cut(s, ":")
		if i := strings.LastIndex(s, "  "); i >= 0 {
			s = s[i+2:]
		}
		out = append(out, s)
	}
	return strings.Join(out, " ")
}

func foldOf(t *testing.T, p *Properties, name string) *foldRow {
	t.Helper()
	for _, r := range p.now.rows {
		if x, ok := r.(*foldRow); ok && strings.HasPrefix(x.head.Text, name) {
			return x
		}
	}
	t.Fatalf("no fold %q", name)
	return nil
}

// A fold stays as it was left, and what a finding asks for opens it.
func TestFormFold(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L1")
	place := foldOf(t, p, "Place on the plan")
	if strings.Contains(texts(p.Object()), "From left") {
		t.Error("a closed fold shows its rows")
	}
	test.Tap(place.head)
	p.SetSelection([]doc.ID{doc.WithTag(d.Frame().Scheme, "L2").Key()})
	if !strings.Contains(texts(p.Object()), "From left") {
		t.Error("the fold did not stay open")
	}
	p.SetSelection([]doc.ID{doc.WithTag(d.Frame().Scheme, "SP1").Key()})
	board := foldOf(t, p, "Board and existing circuit")
	p.Asked("LEK-01")
	if !board.open || p.marked == nil || p.marked.Text != "Leakage already on it" || p.scroll.Offset.Y == 0 {
		t.Errorf("fold open %t, marked %v, offset %v", board.open, p.marked, p.scroll.Offset)
	}
}

// The beam of a lamp, clockwise from up the sheet and above the horizon.
func TestLampBeam(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L1")
	for name, text := range map[string]string{"Aim": "90", "Tilt": "-45 deg", "Spin": "10°"} {
		f := fieldOf(t, p, name)
		f.SetText(text)
		if f.Flush(); f.Reason() != "" {
			t.Errorf("%s refuses %q: %s", name, text, f.Reason())
		}
	}
	if l := lampOf(d, "L1"); l.Aim != 90 || l.Tilt != -45 || l.Spin != 10 {
		t.Errorf("the lamp is aimed %v, %v, %v", l.Aim, l.Tilt, l.Spin)
	}
	p.SetFrame(d.Frame())
	if got := foldOf(t, p, "Beam").head.Text; got != "Beam: aim 90°, tilt -45°" {
		t.Errorf("the fold says %q", got)
	}
	for _, text := range []string{"up", "361", "NaN", "45 m"} {
		f := fieldOf(t, p, "Aim")
		f.SetText(text)
		if f.Flush(); f.Reason() == "" || lampOf(d, "L1").Aim != 90 {
			t.Errorf("%q was taken as an aim", text)
		}
		f.Reset(f.shown)
	}
}

// A strip has a length and two ends; other lamps have neither.
func TestStripRows(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p, _ := properties(t, d, "L9")
	for _, r := range p.now.rows {
		if x, ok := r.(*textRow); ok && captionOf(x.box) == "Length of the strip" && x.box.Visible() {
			t.Error("a spike is asked for the length of a strip")
		}
	}
	l := *lampOf(d, "L9")
	l.Stock = "strip-10w-m-12"
	if err := d.Commit(edit.SetLamp{Lamp: &l}); err != nil {
		t.Fatal(err)
	}
	p.SetFrame(d.Frame())
	f := fieldOf(t, p, "Length of the strip")
	f.SetText("2.5")
	f.Flush()
	if got := lampOf(d, "L9").Length; got != q.Some(q.Metre(2.5)) {
		t.Errorf("the strip is %+v long", got)
	}
	for _, r := range d.Frame().Scheme.Runs.All() {
		if r.To.On != l.ID {
			continue
		}
		p.SetSelection([]doc.ID{r.ID})
		choiceOf(t, p, "Ends at").pick.SetSelected("L9, far end")
		if now := doc.WithTag(d.Frame().Scheme, r.Tag).(*doc.Run); now.To.Side != doc.FarEnd || now.From != r.From {
			t.Errorf("the run ends at side %v", now.To.Side)
		}
		d.Undo()
		return
	}
	t.Error("no run ends at L9")
}

// The side of a source; the mark of a tree has a crown.
func TestSidesAndCrown(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	s := d.Frame().Scheme
	source := doc.WithTag(s, "S1").Key()
	for _, r := range s.Runs.All() {
		if r.To.On == source || r.From.On == source {
			end, name := &r.From, "Starts at"
			if r.To.On == source {
				end, name = &r.To, "Ends at"
			}
			p, _ := properties(t, d, r.Tag)
			want := "S1, output side"
			if end.Side == doc.Primary {
				want = "S1, mains side"
			}
			if got := choiceOf(t, p, name).pick.Selected; got != want {
				t.Errorf("%s of %s is %q, want %q", name, r.Tag, got, want)
			}
		}
	}
	for _, m := range s.Marks.All() {
		if m.Kind == "tree" {
			p, _ := properties(t, d, m.Tag)
			f := fieldOf(t, p, "Crown, radius")
			f.SetText("3 m")
			f.Flush()
			if now, _ := d.Frame().Scheme.Marks.Get(m.ID); now.Crown.Metres() != 3 || now.Radius != m.Radius {
				t.Errorf("the tree is %+v", now)
			}
			return
		}
	}
	t.Error("no tree in the example")
}

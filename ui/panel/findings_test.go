package panel

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/geom"
)

func findings(t *testing.T, d Desk) *Findings {
	t.Helper()
	p := NewFindings(d)
	w := test.NewTempWindow(t, p.Object())
	w.Resize(fyne.NewSize(330, 300))
	return p
}

// frameWith is a desk's frame with other findings in it.
func frameWith(d Desk, fs ...finding.Finding) *layout.Frame {
	f := *d.Frame()
	f.Findings = fs
	return &f
}

func TestFindingsWorstFirst(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := findings(t, d)
	test.Tap(p.notes)
	if len(p.rows) != len(d.Frame().Findings) || len(p.rows) < 5 {
		t.Fatalf("%d rows for %d findings", len(p.rows), len(d.Frame().Findings))
	}
	last := finding.Stop
	for i, r := range p.rows {
		if r.now.Level > last {
			t.Errorf("row %d is worse than the one before it", i)
		}
		last = r.now.Level
		if !strings.Contains(r.head.Text, r.now.Level.String()) || !strings.Contains(r.head.Text, string(r.now.Code)) {
			t.Errorf("row %d does not say its level and code: %q", i, r.head.Text)
		}
	}
}

func TestFindingIsPickedByMouseAndKey(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := findings(t, d)
	var picked []finding.Code
	p.OnPick = func(f finding.Finding) { picked = append(picked, f.Code) }
	test.Tap(p.rows[1])
	p.rows[2].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if len(picked) != 2 || picked[0] != p.rows[1].now.Code || picked[1] != p.rows[2].now.Code {
		t.Errorf("picked %v", picked)
	}
	if !p.rows[2].detail.Visible() || p.rows[1].detail.Visible() {
		t.Error("only the finding picked last should be open")
	}
}

// A reused row must speak for the finding it holds now.
func TestReusedRowActsOnItsPresentFinding(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	a := finding.Finding{Code: "A-01", Level: finding.Stop, Text: "first", Subject: finding.Subject{ID: "a", Label: "A"}}
	b := finding.Finding{Code: "B-01", Level: finding.Decide, Text: "second", Subject: finding.Subject{ID: "b", Label: "B"}}
	p.SetFrame(frameWith(d, a, b))
	var overruled, picked finding.Code
	p.OnPick = func(f finding.Finding) { picked = f.Code }
	p.OnOverrule = func(f finding.Finding) { overruled = f.Code }
	test.Tap(p.rows[0]) // opens A
	p.SetFrame(frameWith(d, b))
	if p.rows[0].open {
		t.Error("the row stayed open for another finding")
	}
	test.Tap(p.rows[0])
	if picked != "B-01" {
		t.Errorf("picked %s", picked)
	}
	press(t, p.rows[0].detail, "Decide…")
	if overruled != "B-01" {
		t.Errorf("overruled %s", overruled)
	}
	if p.rows[1].Visible() {
		t.Error("a row without a finding is visible")
	}
}

func press(t *testing.T, box *fyne.Container, text string) {
	t.Helper()
	var found *Button
	var walk func(fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *Button:
			if o.Text == text {
				found = o
			}
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		}
	}
	walk(box)
	if found == nil {
		t.Fatalf("no button %q", text)
	}
	test.Tap(found)
}

func TestRemedyIsOneStep(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	run := doc.WithTag(d.Frame().Scheme, "R3")
	f := finding.Finding{Code: "CAP-02", Level: finding.Stop, Text: "too thin", Subject: finding.Subject{ID: string(run.Key()), Label: "R3"},
		Remedies: []finding.Remedy{{Text: "use 2.5 mm²", Action: &finding.Action{Kind: "cable", ID: string(run.Key()), Value: "swa-3x2.5"}},
			{Text: "shorten it"}}}
	p.SetFrame(frameWith(d, f))
	test.Tap(p.rows[0])
	press(t, p.rows[0].detail, "Apply")
	if got := doc.WithTag(d.Frame().Scheme, "R3").(*doc.Run).Cable; got != "swa-3x2.5" {
		t.Errorf("the cable is %q", got)
	}
	if d.Frame().Undo == "" || !d.Undo() || d.Frame().Undo != "" {
		t.Error("it was not one undo step")
	}
}

func TestNoteCannotBeOverruledAndDecisionCanBeWithdrawn(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	f := finding.Finding{Code: "X-01", Level: finding.Note, Text: "by the way"}
	p.SetFrame(frameWith(d, f))
	test.Tap(p.rows[0])
	for _, o := range p.detail(f) {
		if strings.Contains(fmt.Sprint(buttonsIn(o)), "Overrule") {
			t.Error("a note offers to be overruled")
		}
	}
	f.Level, f.Overruled = finding.Stop, &finding.Overrule{By: "A. Person", On: "2026-11-25", Reason: "measured"}
	f.Remedies = []finding.Remedy{{Text: "shorten it", Figure: "4.51 %"}}
	p.SetFrame(frameWith(d, f))
	r := p.rows[0]
	if !r.strike.Visible() || !strings.Contains(r.text.Text, "Overruled: measured") {
		t.Errorf("the row reads %q, struck: %v", r.text.Text, r.strike.Visible())
	}
	if got := fmt.Sprint(buttonsIn(r.detail)); !strings.Contains(got, "Withdraw") {
		t.Errorf("the buttons are %s", got)
	}
	if got := texts(r.detail); !strings.Contains(got, "Overruled by A. Person on 2026-11-25") || strings.Contains(got, "measured") {
		t.Errorf("who overruled it, and the reason not a second time:\n%s", got)
	}
	if got := texts(r.detail); strings.Contains(got, "4.51 %") {
		t.Errorf("an overruled finding shows what nobody tried:\n%s", got)
	}
	if got := p.head.text.Text; !strings.HasSuffix(got, "·  1 overruled") {
		t.Errorf("the head reads %q", got)
	}
	f.Overruled = nil
	p.SetFrame(frameWith(d, f))
	if got := texts(r.detail); !strings.Contains(got, "4.51 %") || strings.Contains(p.head.text.Text, "overruled") {
		t.Errorf("withdrawn, the head reads %q over\n%s", p.head.text.Text, got)
	}
}

func buttonsIn(o fyne.CanvasObject) (out []string) {
	switch o := o.(type) {
	case *Button:
		out = append(out, o.Text)
	case *fyne.Container:
		for _, c := range o.Objects {
			out = append(out, buttonsIn(c)...)
		}
	}
	return out
}

func TestManyFindingsComeByThePage(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	var fs []finding.Finding
	for i := range 150 {
		fs = append(fs, finding.Finding{Code: "VD-01", Level: finding.Stop, Text: "low",
			Subject: finding.Subject{ID: fmt.Sprint(i), Label: fmt.Sprint("L", i)}})
	}
	p.SetFrame(frameWith(d, fs...))
	if len(p.rows) != pageOfFindings || p.more.Text != "Show more (90)" {
		t.Errorf("%d rows, the button says %q", len(p.rows), p.more.Text)
	}
	test.Tap(p.more)
	test.Tap(p.more)
	if len(p.rows) != 150 || p.more.Visible() {
		t.Errorf("%d rows", len(p.rows))
	}
}

func TestNextGoesThroughTheFindings(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	p := findings(t, d)
	var picked []findingKey
	p.OnPick = func(f finding.Finding) { picked = append(picked, keyOf(&f)) }
	n := len(d.Frame().Findings)
	for range n + 1 {
		p.Next()
	}
	for i, f := range d.Frame().Findings {
		if picked[i] != keyOf(&f) {
			t.Errorf("step %d went to %v", i, picked[i])
		}
	}
	if picked[n] != picked[0] {
		t.Errorf("after the last comes %v", picked[n])
	}
}

func TestNothingFoundNamesTheRuleSet(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := findings(t, d)
	p.SetFrame(frameWith(d))
	got := texts(p.Object())
	for _, want := range []string{fmt.Sprint(len(check.All()), " checks of United Kingdom, 18th edition"), "meets the limits set there", "not a proof"} {
		if !strings.Contains(got, want) {
			t.Errorf("the panel says\n%s\nwithout %q", got, want)
		}
	}
}

func TestWorkingIsShownAndOnlyWorkedOutWhenSeen(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := NewWorkings(d)
	d.Subscribe(p.SetFrame)
	w := test.NewTempWindow(t, p.Object())
	w.Resize(fyne.NewSize(330, 500))
	id := doc.WithTag(d.Frame().Scheme, "L12").Key()
	p.SetSelection([]doc.ID{id})
	if d.explained != 0 {
		t.Error("worked out while it cannot be seen")
	}
	p.SetActive(true)
	if d.explained != 1 || len(p.rows) == 0 {
		t.Fatalf("asked %d times, %d rows", d.explained, len(p.rows))
	}
	f := p.rows[0].now
	for _, r := range p.rows {
		if r.now.Working != "" {
			f = r.now
		}
	}
	p.Open(f)
	got := texts(p.Object())
	for _, want := range []string{capital(f.Text), strings.TrimSpace(f.Working), f.Source.String()} {
		if !strings.Contains(got, want) {
			t.Errorf("expected %q in\n%s", want, got)
		}
	}
	asked := d.explained
	if err := d.Preview(edit.MovePoints{IDs: []doc.ID{id}, By: geom.Pt(0.1, 0)}); err != nil {
		t.Fatal(err)
	}
	if d.explained != asked {
		t.Error("worked out during a drag")
	}
	d.Cancel()
	if d.explained == asked {
		t.Error("not brought up to date at the end of the drag")
	}
}

// TestLengthsBehind: while a worker plans the coils the total says so.
func TestLengthsBehind(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := NewLengths(d)
	behind := *d.Frame()
	behind.DrumsBehind = true
	for _, f := range []*layout.Frame{&behind, d.Frame()} {
		p.SetFrame(f)
		if got := strings.Contains(p.total.Text, "being worked out"); got != f.DrumsBehind || !strings.Contains(p.total.Text, f.Totals.Cable.String()) {
			t.Errorf("behind %v: %q", f.DrumsBehind, p.total.Text)
		}
	}
}

func TestLengthsShowTheParts(t *testing.T) {
	d := newDesk(t, "townhouse.yaml")
	p := NewLengths(d)
	w := test.NewTempWindow(t, p.Object())
	w.Resize(fyne.NewSize(330, 500))
	l := d.Frame().Circuits.Lengths[1]
	row := newLengthRow(&Lengths{})
	row.fill(0, &l)
	got := texts(row)
	for _, want := range []string{l.Tag, l.From, l.To, l.Name, "cut " + l.Cut.String(), "plan " + l.Plan.String(),
		"rises " + l.Rises.String(), "tails " + l.Tails.String(), "slack " + l.Slack.String()} {
		if !strings.Contains(got, want) {
			t.Errorf("expected %q in\n%s", want, got)
		}
	}
	var picked doc.ID
	p.OnPick = func(id doc.ID) { picked = id }
	p.list.Select(1)
	if picked != l.Run {
		t.Errorf("picked %q, expected %q", picked, l.Run)
	}
}

func TestStatusShowsTheTotals(t *testing.T) {
	d := newDesk(t, "townhouse-mistakes.yaml")
	s := NewStatus(d.Frame())
	test.NewTempWindow(t, s.Object()).Resize(fyne.NewSize(1280, 40))
	f := d.Frame().Totals
	got := texts(s.Object())
	for _, want := range []string{fmt.Sprint(f.Lamps, " lamps"), f.Load.String(), f.Cable.String(), "at " + f.DropAt,
		fmt.Sprint(f.Stop, " Stop"), fmt.Sprint(f.Decide, " Decide")} {
		if !strings.Contains(got, want) {
			t.Errorf("expected %q in\n%s", want, got)
		}
	}
	s.SetScale(123.4)
	s.SetPointer(geom.Pt(1.234, 5), true)
	s.SetHint("no", true)
	got = texts(s.Object()) + texts(s.Help())
	for _, want := range []string{"1:123", "1.23, 5.00 m", "no"} {
		if !strings.Contains(got, want) {
			t.Errorf("expected %q in\n%s", want, got)
		}
	}
}

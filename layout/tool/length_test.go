package tool

import (
	"testing"

	"duskwire/layout/geom"
)

func TestEntryPolar(t *testing.T) {
	tests := []struct {
		text    entry
		length  geom.Length
		bearing float64
		turned  bool
		fails   bool
	}{
		{text: "3.2", length: 3200 * geom.Millimetre},
		{text: "3.2m", length: 3200 * geom.Millimetre},
		{text: "3.2 m", length: 3200 * geom.Millimetre},
		{text: "600mm", length: 600 * geom.Millimetre},
		{text: "45cm", length: 450 * geom.Millimetre},
		{text: "3.2m<45", length: 3200 * geom.Millimetre, bearing: 45, turned: true},
		{text: "3.2<-90", length: 3200 * geom.Millimetre, bearing: -90, turned: true},
		{text: "<90", bearing: 90, turned: true},
		{text: "1mm", length: geom.Millimetre},
		{text: "10000m", length: longest},
		{text: "10001m", fails: true},
		{text: "0", fails: true},
		{text: "0.5mm", fails: true},
		{text: "-3", fails: true},
		{text: "3..2", fails: true},
		{text: "m", fails: true},
		{text: "3m<", fails: true},
		{text: "<", fails: true},
		{text: "3m<400", fails: true},
		{text: "3m<NaN", fails: true},
		{text: "3mc", fails: true},
	}
	for _, tt := range tests {
		l, d, turned, err := tt.text.polar()
		if tt.fails {
			if err == nil {
				t.Errorf("%q: read as %v, expected an error", tt.text, l)
			}
			continue
		}
		if err != nil || l != tt.length || d != tt.bearing || turned != tt.turned {
			t.Errorf("%q: got %v %v %v %v", tt.text, l, d, turned, err)
		}
	}
}

// Where an entry leads from 1,1 with the pointer at 3,2: by hand.
func TestEntryAim(t *testing.T) {
	from, pointer := geom.Pt(1, 1), snapped{at: geom.Pt(3, 2), rank: geom.RankFree}
	caught := snapped{at: geom.Pt(3.123, 2), rank: geom.RankVertex}
	const grid = 100 * geom.Millimetre
	for _, tt := range []struct {
		text entry
		to   snapped
		want geom.Point
	}{
		{"3<0", pointer, geom.Pt(1, 4)},
		{"3<90", pointer, geom.Pt(4, 1)},
		{"3<180", pointer, geom.Pt(1, -2)},
		{"3<-90", pointer, geom.Pt(-2, 1)},
		{"2<30", pointer, geom.Pt(2, 1+1.7320508)}, // sin 30° = 1/2, cos 30° = √3/2
		{"<90", pointer, geom.Pt(3, 1)},
		{"<0", pointer, geom.Pt(1, 2)},
		{"<90", caught, geom.Pt(3.123, 1)}, // beneath the vertex, not on the grid
		{"@1.5,2", pointer, geom.Pt(2.5, 3)},
		{"@-50cm,200mm", pointer, geom.Pt(0.5, 1.2)},
		{"@0,-1", pointer, geom.Pt(1, 0)},
		{"=4,2", pointer, geom.Pt(4, 2)},
		{"=-4 , 2.5m", pointer, geom.Pt(-4, 2.5)},
	} {
		got, err := tt.text.aim(from, tt.to, grid)
		if err != nil || geom.Distance(got, tt.want) > geom.Micrometre {
			t.Errorf("%q: got %v %v, expected %v", tt.text, got, err, tt.want)
		}
	}
	for _, bad := range []entry{"<270", "<180", "@", "@1", "@1,", "=,2", "=1,2,3", "=99999,0", "=1<2", "@1e9,2", "@NaN,0"} {
		if got, err := bad.aim(from, pointer, grid); err == nil {
			t.Errorf("%q: leads to %v, expected an error", bad, got)
		}
	}
}

// A letter never begins an entry, and nothing but a place is typed before the
// first point.
func TestEntryTakes(t *testing.T) {
	for r := rune(0); r < 0x3000; r++ {
		begins := r >= '0' && r <= '9' || r == '.' || r == ',' || r == '<' || r == '@' || r == '='
		if got := entry("").takes(r, true); got != begins {
			t.Errorf("%q begins an entry: %v", r, got)
		}
		if got := entry("").takes(r, false); got != (r == '=') {
			t.Errorf("%q begins an entry with nothing drawn: %v", r, got)
		}
	}
	typed := entry("")
	for _, r := range "@1,5" {
		typed = typed.with(r)
	}
	if typed != "@1,5" {
		t.Errorf("got %q: the comma of a pair was lost", typed)
	}
	if got := entry("3").with(','); got != "3." {
		t.Errorf("got %q, expected a decimal point", got)
	}
}

// A key that is held down does not make an entry that fills the plan.
func TestEntryIsShort(t *testing.T) {
	typed := entry("=")
	for range 1000 {
		typed = typed.with('9')
	}
	if len(typed) != longestEntry || typed.back().with('1') != typed.back()+"1" {
		t.Errorf("%d characters", len(typed))
	}
}

package packs

import (
	"strconv"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/scene"

	"pgregory.net/rapid"
)

// A long table goes on over pages with its heading on each, every row once and
// in order; a row higher than a page is broken.
func TestTableBreaks(t *testing.T) {
	b := &book{pal: scene.Light(), scheme: &doc.Scheme{}}
	f := newFlow(b, false)
	f.title("Long")
	tb := &table{columns: []column{{head: "No."}, {head: "Words", grow: 1}}}
	for i := range 200 {
		tb.add("n"+strconv.Itoa(i), "short")
	}
	tb.add("tall", strings.Repeat("many words that fill a line and another ", 150))
	tb.add("last", "end")
	f.table(tb)
	next, tall := 0, 0
	for i, l := range f.pages {
		heads := 0
		for k := range l.Items {
			it := &l.Items[k]
			switch {
			case it.Text == "Words":
				heads++
			case it.Text == "n"+strconv.Itoa(next):
				next++
			}
			tall += strings.Count(it.Text, "another")
		}
		if heads != 1 {
			t.Errorf("page %d has the heading %d times", i+1, heads)
		}
		apart(t, "page "+strconv.Itoa(i+1), l)
	}
	if next != 200 || tall != 150 || len(f.pages) < 5 {
		t.Errorf("%d rows in order of 200, %d of 150 sentences, %d pages", next, tall, len(f.pages))
	}
}

// Whatever is in the cells, no text leaves its page or lies on another, and no
// letter is lost.
func TestAnyTable(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		b := &book{pal: scene.Light(), scheme: &doc.Scheme{}}
		f := newFlow(b, rapid.Bool().Draw(r, "across"))
		tb := &table{high: rapid.Float64Range(0, 8).Draw(r, "high")}
		n := rapid.IntRange(1, 9).Draw(r, "columns")
		for range n {
			tb.columns = append(tb.columns, column{head: rapid.StringMatching(`[A-Za-z]{1,9}( [a-z]{1,8})?`).Draw(r, "head"), grow: float64(rapid.IntRange(0, 1).Draw(r, "grow")),
				least: float64(rapid.IntRange(0, 12).Draw(r, "least")), anchor: scene.Anchor(rapid.IntRange(0, 2).Draw(r, "anchor"))})
		}
		for range rapid.IntRange(1, 30).Draw(r, "rows") {
			var cells []string
			for range n {
				s := rapid.StringMatching(`[0-9xΩ²°−]{0,30}( [0-9x]{1,12}){0,8}`).Draw(r, "cell")
				cells = append(cells, s)
			}
			tb.add(cells...)
		}
		f.table(tb)
		got := 0
		for i, l := range f.pages {
			apart(t, "page "+strconv.Itoa(i+1), l)
			for k := range l.Items {
				for _, c := range l.Items[k].Text {
					if strings.ContainsRune("0123456789Ω²°−", c) {
						got++
					}
				}
			}
		}
		want := 0
		for _, row := range tb.rows {
			for _, c := range row.cells {
				for _, x := range c {
					if strings.ContainsRune("0123456789Ω²°−", x) {
						want++
					}
				}
			}
		}
		if got != want {
			r.Fatalf("%d signs printed of %d", got, want)
		}
	})
}

// A table that goes on over a page says in whose section it stands; a section that
// begins on a new page does not say so of the one before.
func TestSectionGoesOn(t *testing.T) {
	b := &book{pal: scene.Light(), scheme: &doc.Scheme{}}
	f := newFlow(b, false)
	f.title("Long")
	for _, s := range []string{"First", "Second"} {
		f.head(s)
		tb := &table{columns: []column{{head: "No."}}}
		for i := range 60 {
			tb.add("n" + strconv.Itoa(i))
		}
		f.table(tb)
	}
	f.y = f.bottom
	f.head("Third")
	var got []string
	for _, l := range f.pages[1:] {
		got = append(got, l.Items[0].Text)
	}
	if want := "Long: First, continued|Long: Second, continued|Long, continued"; strings.Join(got, "|") != want {
		t.Errorf("pages begin %s, want %s", strings.Join(got, "|"), want)
	}
}

package output

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"text/tabwriter"

	"pgregory.net/rapid"
)

// TestFixedIsThatOfStrconv: the outside is strconv.
func TestFixedIsThatOfStrconv(t *testing.T) {
	figures := rapid.OneOf(rapid.Float64Range(0, 1e6), rapid.Float64Range(0, 2), rapid.Float64(),
		// Between two decimals, or a hair beside.
		rapid.Custom(func(t *rapid.T) float64 {
			return (float64(rapid.IntRange(0, 1e6).Draw(t, "n")) + 0.5) / float64(rapid.SampledFrom([]int{1, 10, 100, 1000, 1e4}).Draw(t, "by"))
		}),
		rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 1e8).Draw(t, "n")) / 1e4 }))
	rapid.Check(t, func(t *rapid.T) {
		for range 50 {
			v, digits := figures.Draw(t, "v"), rapid.IntRange(0, 5).Draw(t, "digits")
			got, want := string(appendFixed(nil, v, digits)), strconv.FormatFloat(v, 'f', digits, 64)
			if got != want {
				t.Fatalf("%v with %d digits: %s, want %s", v, digits, got, want)
			}
		}
	})
}

func written(t interface{ Fatal(...any) }, ours *table) string {
	var b bytes.Buffer
	if err := ours.write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestTableIsThatOfTabwriter: the outside is text/tabwriter, whose tables these
// were, on cells without signs that mean something to it.
func TestTableIsThatOfTabwriter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.IntRange(1, 6).Draw(t, "columns")
		cells := rapid.SliceOfN(rapid.StringMatching(`[a-zA-Z0-9 .²Ωé-]{0,12}`), columns, columns)
		var want bytes.Buffer
		w := tabwriter.NewWriter(&want, 0, 4, 2, ' ', 0)
		var ours *table
		for i := range rapid.IntRange(1, 8).Draw(t, "rows") {
			row := cells.Draw(t, "row")
			if i == 0 {
				ours = newTable(row...)
			} else {
				ours.row(row...)
			}
			for k, c := range row {
				if k > 0 {
					fmt.Fprint(w, "\t")
				}
				fmt.Fprint(w, c)
			}
			fmt.Fprintln(w)
		}
		w.Flush()
		if got := written(t, ours); got != want.String() {
			t.Fatalf("\n%q, want\n%q", got, want.String())
		}
	})
}

// TestLongTable: a table of many pieces is that of tabwriter too.
func TestLongTable(t *testing.T) {
	var want bytes.Buffer
	w := tabwriter.NewWriter(&want, 0, 4, 2, ' ', 0)
	ours := newTable("n", "what", "how")
	fmt.Fprintln(w, "n\twhat\thow")
	ours.grow(3)
	for i := range 20000 {
		what := strings.Repeat("Ω", i%7) + strings.Repeat("x", i%5)
		how := "end"
		if i == 9999 {
			how = strings.Repeat("y", 3*tablePiece)
		}
		v := float64(i) / 8
		ours.number(&v, 2)
		ours.row(what, how)
		fmt.Fprintf(w, "%.2f\t%s\t%s\n", v, what, how)
	}
	w.Flush()
	if got := written(t, ours); got != want.String() {
		t.Errorf("%d bytes, want %d", len(got), want.Len())
	}
}

// TestTableIsHarmless: a cell cannot end its line or turn the direction of
// writing, and keeps its column.
func TestTableIsHarmless(t *testing.T) {
	ours := newTable("a\nb", "c")
	ours.row("d\u202ee\t", "f\x1b")
	if got := written(t, ours); got != "a b   c\nd e   f \n" {
		t.Errorf("%q", got)
	}
}

package output

import (
	"fmt"
	"io"
	"strconv"

	q "duskwire/calc/quantity"
	"duskwire/layout"
)

// StringRow is one string of constant current: what its driver has to give.
type StringRow struct {
	ID       string   `json:"id"`
	Tag      string   `json:"tag"` // of the driver
	Drive    float64  `json:"drive_ampere"`
	Lamps    int      `json:"lamps"`
	Volts    *float64 `json:"string_volt"`
	Expected *float64 `json:"string_expected_volt"`
	Cables   *float64 `json:"string_cable_volt"`
	Least    float64  `json:"range_least_volt"`
	Most     float64  `json:"range_most_volt"`
	State    string   `json:"state"`
}

// LoadRow sums up what the garden takes.
type LoadRow struct {
	Lamps   int     `json:"lamps"`
	Load    float64 `json:"load_watt"`
	Standby float64 `json:"standby_watt"`      // of gear, as far as it is known
	Unsaid  int     `json:"standby_not_known"` // pieces of control gear that do not say
}

func stringRows(f *layout.Frame) []StringRow {
	rows := []StringRow{}
	for _, res := range f.Results {
		for _, s := range res.Strings {
			rows = append(rows, StringRow{ID: s.ID, Tag: s.Label, Drive: float64(s.Drive), Lamps: s.Lamps,
				Volts: known(float64(s.Volts.Value), s.Volts.Known, 4), Expected: known(float64(s.Expected.Value), s.Expected.Known, 4),
				Cables: known(float64(s.Cables.Value), s.Cables.Known, 4), Least: float64(s.Least), Most: float64(s.Most), State: s.State})
		}
	}
	return rows
}

func loadRow(t *layout.Totals) LoadRow {
	return LoadRow{Lamps: t.Lamps, Load: round(float64(t.Load), 3), Standby: round(float64(t.Standby), 3), Unsaid: t.Unsaid}
}

// text writes the sums as one line.
func (r LoadRow) text(w io.Writer) {
	lamps := "lamps"
	if r.Lamps == 1 {
		lamps = "lamp"
	}
	fmt.Fprintf(w, "Load %s in %d %s", q.Watt(r.Load), r.Lamps, lamps)
	switch {
	case r.Unsaid > 0:
		fmt.Fprintf(w, "; standby of control gear %s, and of %d not known", q.Watt(r.Standby), r.Unsaid)
	case r.Standby > 0:
		fmt.Fprintf(w, "; standby of control gear %s", q.Watt(r.Standby))
	}
	fmt.Fprint(w, "\n\n")
}

// stringTable is the table of the strings of constant current.
func (r ReadingsReport) stringTable() *table {
	t := newTable("String of", "A", "lamps", "Volts", "expected V", "in cables V", "from V", "to V", "range")
	for i := range r.Strings {
		s := &r.Strings[i]
		t.cell(s.Tag)
		t.number(&s.Drive, 3)
		t.cell(strconv.Itoa(s.Lamps))
		t.number(s.Volts, 2)
		t.number(s.Expected, 2)
		t.number(s.Cables, 2)
		t.number(&s.Least, 1)
		t.number(&s.Most, 1)
		t.cell(s.State)
	}
	return t
}

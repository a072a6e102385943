package packs

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"duskwire/calc/finding"
	"duskwire/layout/doc"
	"duskwire/layout/output"
)

// Comparison is two schemes side by side.
type Comparison struct {
	A     Compared      `json:"scheme_a"`
	B     Compared      `json:"scheme_b"`
	Rows  []CompareRow  `json:"compared"`
	Parts []ComparePart `json:"parts"`
	Notes []string      `json:"notes"`
}

// Compared names one of the two.
type Compared struct {
	Title string `json:"title"`
	Rules string `json:"rules"`
}

// CompareRow is one figure of both; nil is not known, never zero.
type CompareRow struct {
	What       string   `json:"what"`
	Unit       string   `json:"unit"`
	A          *float64 `json:"a"`
	B          *float64 `json:"b"`
	Difference *float64 `json:"difference"` // b less a
	places     int
}

// ComparePart is a part whose number differs.
type ComparePart struct {
	Group string `json:"group"`
	Part  string `json:"part"`
	A     int    `json:"number_a"`
	B     int    `json:"number_b"`
}

// exposureNote goes with night pictures of two schemes.
const exposureNote = "Night pictures of both schemes are drawn with one fixed exposure, so that they can be compared side by side; they are an impression, not a measurement."

// Compare puts two schemes side by side: the second less the first.
func Compare(a, b Input) *Comparison { return compareBooks(newBook(a), newBook(b)) }

func compareBooks(a, b *book) *Comparison {
	c := &Comparison{A: compared(a), B: compared(b), Parts: []ComparePart{}, Notes: []string{}}
	qa, qb := a.quoteOf(), b.quoteOf()
	ra, rb := a.runningOf(), b.runningOf()
	c.counts(a, b)
	c.digging(a, b)
	c.watts(ra, rb)
	c.findings(a, b)
	c.money(a, b, qa, qb, ra, rb)
	c.parts(a, b)
	c.Notes = append(c.Notes, exposureNote)
	return c
}

func compared(b *book) Compared {
	title := output.OneLine(b.scheme.Title)
	if title == "" {
		title = "Garden lighting"
	}
	return Compared{title, b.Rules.Name}
}

// row adds a figure; not a number stands for not known.
func (c *Comparison) row(what, unit string, places int, a, b float64) {
	known := func(v float64) *float64 {
		if math.IsNaN(v) {
			return nil
		}
		k := math.Pow10(places)
		v = math.Round(v*k)/k + 0
		return &v
	}
	r := CompareRow{What: what, Unit: unit, A: known(a), B: known(b), places: places}
	if r.A != nil && r.B != nil {
		r.Difference = known(*r.B - *r.A)
	}
	c.Rows = append(c.Rows, r)
}

func (c *Comparison) counts(a, b *book) {
	n := func(what string, of func(*doc.Scheme) int) {
		c.row(what, "", 0, float64(of(a.scheme)), float64(of(b.scheme)))
	}
	n("lamps", func(s *doc.Scheme) int { return s.Lamps.Len() })
	n("zones", func(s *doc.Scheme) int { return s.Zones.Len() })
	n("sources", func(s *doc.Scheme) int { return s.Sources.Len() })
	n("gear", func(s *doc.Scheme) int { return s.Gear.Len() })
	n("boxes", func(s *doc.Scheme) int { return s.Boxes.Len() })
	n("runs", func(s *doc.Scheme) int { return s.Runs.Len() })
	c.row("cable", "m", 1, float64(a.Frame.Totals.Cable), float64(b.Frame.Totals.Cable))
}

func (c *Comparison) digging(a, b *book) {
	x, y := a.trench.sums(), b.trench.sums()
	c.row("trench", "m", 1, x.length, y.length)
	c.row("of it by hand", "m", 1, x.byHand, y.byHand)
	if x.unsaid+y.unsaid > 0 {
		c.Notes = append(c.Notes, "Where no depth is given the volume is not counted.")
	}
	volume := func(d digSums) float64 {
		if d.unsaid > 0 && d.volume == 0 {
			return math.NaN()
		}
		return d.volume
	}
	c.row("dug", "m³", 2, volume(x), volume(y))
	c.row("holes through walls", "", 0, float64(a.counts.holes), float64(b.counts.holes))
}

func (c *Comparison) watts(a, b *running) {
	trusted := func(r *running) float64 {
		if r.dark() {
			return math.NaN()
		}
		return float64(r.total.watts)
	}
	c.row("watts at the supply", "W", 1, trusted(a), trusted(b))
	if len(a.untrue)+len(b.untrue) > 0 {
		c.Notes = append(c.Notes, "A circuit has no steady state, so that its watts are not known.")
	}
	for i, r := range []*running{a, b} {
		if len(r.unfed) > 0 {
			c.Notes = append(c.Notes, "Watts and running cost of "+[...]string{"A", "B"}[i]+" without "+runsOf(r.unfed)+": connected to no supply.")
		}
	}
}

func (c *Comparison) findings(a, b *book) {
	x, y := &a.Frame.Totals, &b.Frame.Totals
	c.row("findings: Stop", "", 0, float64(x.Stop), float64(y.Stop))
	c.row("findings: Decide", "", 0, float64(x.Decide), float64(y.Decide))
	c.row("findings: Note", "", 0, float64(x.Note), float64(y.Note))
	over := func(b *book) float64 {
		return float64(len(b.about(func(f *finding.Finding) bool { return f.Overruled != nil })))
	}
	c.row("findings overruled", "", 0, over(a), over(b))
	for i, x := range []*book{a, b} {
		for _, f := range x.about(overruled) {
			c.Notes = append(c.Notes, [...]string{"A", "B"}[i]+": "+verdict(f))
		}
	}
	if a.Rules.Key != b.Rules.Key {
		c.Notes = append(c.Notes, "The schemes are judged by different rule sets.")
	}
}

// money compares price and running cost.
func (c *Comparison) money(a, b *book, qa, qb *quote, ra, rb *running) {
	unit := a.scheme.List.Currency
	if unit != b.scheme.List.Currency {
		unit = ""
	}
	if unit == "" && a.scheme.List.Currency+b.scheme.List.Currency != "" {
		c.Notes = append(c.Notes, "The schemes name different money: "+named(a.scheme.List.Currency)+" and "+named(b.scheme.List.Currency)+".")
	}
	price := func(q *quote, v doc.Money) float64 {
		if !q.priced() {
			return math.NaN()
		}
		return float64(v) / 100
	}
	c.row("price, at least", unit, 2, price(qa, qa.sum.Low), price(qb, qb.sum.Low))
	c.row("price, at most", unit, 2, price(qa, qa.sum.High), price(qb, qb.sum.High))
	for i, q := range []*quote{qa, qb} {
		switch {
		case !q.priced():
			c.Notes = append(c.Notes, "Price of "+[...]string{"A", "B"}[i]+" not known: its price list has none of its parts.")
		case len(q.lacks()) > 0:
			c.Notes = append(c.Notes, "Price of "+[...]string{"A", "B"}[i]+" without "+listed(q.lacks())+".")
		}
	}
	cost := func(r *running, kWh float64) float64 {
		if v := r.cost(kWh); v.Known && r.nights && !r.dark() {
			return float64(v.Value) / 100
		}
		return math.NaN()
	}
	x, y := ra.yearly(), rb.yearly()
	for i, o := range ra.off {
		if o != rb.off[i] {
			c.Notes = append(c.Notes, "Times of switching off differ: "+o.String()+" and "+rb.off[i].String()+".")
		}
		c.row("running cost a year, off at "+o.String(), unit, 2, cost(ra, x[i]), cost(rb, y[i]))
	}
	for i, r := range []*running{ra, rb} {
		if len(r.missing) > 0 {
			c.Notes = append(c.Notes, "Running cost of "+[...]string{"A", "B"}[i]+": not given: "+listed(r.missing)+".")
		}
		if _, _, unsaid := r.standbyTotal(); len(unsaid) > 0 {
			c.Notes = append(c.Notes, "Running cost of "+[...]string{"A", "B"}[i]+" without the standby of "+listed(unsaid)+".")
		}
	}
	if ra.tariff != rb.tariff && ra.tariff.Known && rb.tariff.Known {
		c.Notes = append(c.Notes, "The tariffs differ.")
	}
}

func named(currency string) string {
	if currency == "" {
		return "none named"
	}
	return currency
}

// parts lists what is not the same in both, by name.
func (c *Comparison) parts(a, b *book) {
	numbers := [2]map[[2]string]int{{}, {}}
	var order [][2]string
	for i, x := range []*book{a, b} {
		x.stockItems(func(group, name string, amount float64, _ int, _, _ string) {
			k := [2]string{group, name}
			if !slices.Contains(order, k) {
				order = append(order, k)
			}
			numbers[i][k] += int(amount)
		})
	}
	at := map[string]int{"Lamps": 0, "Sources": 1, "Gear": 2, "Boxes": 3}
	slices.SortStableFunc(order, func(x, y [2]string) int { return at[x[0]] - at[y[0]] })
	for _, k := range order {
		if x, y := numbers[0][k], numbers[1][k]; x != y {
			c.Parts = append(c.Parts, ComparePart{k[0], k[1], x, y})
		}
	}
}

// cells writes the figures of a row.
func (r *CompareRow) cells() (a, b, difference string) {
	write := func(v *float64) string {
		if v == nil {
			return "not known"
		}
		return digits(*v, r.places)
	}
	difference = write(r.Difference)
	if r.Difference != nil && *r.Difference > 0 {
		difference = "+" + difference
	}
	return write(r.A), write(r.B), difference
}

// plus writes a difference of numbers with its sign.
func plus(n int) string {
	if n > 0 {
		return "+" + whole(n)
	}
	return digits(float64(n), 0)
}

// label is what a row is about, with its unit.
func (r *CompareRow) label() string {
	if r.Unit == "" {
		return r.What
	}
	return r.What + ", " + r.Unit
}

// Text writes the comparison for reading.
func (c *Comparison) Text(w io.Writer) error {
	var out strings.Builder
	fmt.Fprintf(&out, "A: %s (%s)\nB: %s (%s)\n\n", c.A.Title, c.A.Rules, c.B.Title, c.B.Rules)
	line := func(label, a, b, d string) { fmt.Fprintf(&out, "%-44s %12s %12s %12s\n", label, a, b, d) }
	line("", "A", "B", "B less A")
	for i := range c.Rows {
		a, b, d := c.Rows[i].cells()
		line(output.OneLine(c.Rows[i].label()), a, b, d)
	}
	if len(c.Parts) > 0 {
		fmt.Fprintln(&out, "\nParts that differ")
	}
	for _, p := range c.Parts {
		line("  "+output.OneLine(p.Part), whole(p.A), whole(p.B), plus(p.B-p.A))
	}
	fmt.Fprintln(&out)
	for _, n := range c.Notes {
		fmt.Fprintln(&out, output.OneLine(n))
	}
	_, err := io.WriteString(w, out.String())
	return err
}

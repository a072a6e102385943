package packs

import (
	"context"
	"flag"
	"math"
	"os"
	"strings"
	"testing"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/file"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// priced returns a scheme of the shipped files with a price list and what the
// running cost asks for.
func priced(t testing.TB, path string, change func(*doc.Scheme)) Input {
	t.Helper()
	s, stock, _, err := file.Open(path, "", "")
	if err != nil {
		t.Fatal(err)
	}
	n := *s
	n.Running = doc.Running{Latitude: q.Some(doc.Degrees(51.5)), Longitude: q.Some(doc.Degrees(-1.25)), Tariff: q.Some(doc.Tariff(27.35))}
	n.List = doc.PriceList{Currency: "pounds", Hours: doc.Span{Low: 4, High: 6}}.With(
		doc.ItemPrice{Group: "lamp", Item: "brick-3w", Band: doc.Band{Low: 1200, High: 1500}},
		doc.ItemPrice{Group: "gland", Item: "CW 20S", Band: doc.Band{Low: 250, High: 250}},
		doc.ItemPrice{Group: "cable", Item: "swa-3x1.5", Band: doc.Band{Low: 200, High: 240}},
		doc.ItemPrice{Group: "way", Item: "clip", Band: doc.Band{Low: 20, High: 20}},
		doc.ItemPrice{Group: "labour", Item: "dig", Band: doc.Band{Low: 900, High: 900}},
		doc.ItemPrice{Group: "labour", Item: "hour", Band: doc.Band{Low: 4000, High: 4500}})
	if change != nil {
		change(&n)
	}
	return inputOf(t, &n, stock, path)
}

func pageText(t testing.TB, in Input, title string) string {
	t.Helper()
	made, err := Make(context.Background(), in, nil, "client")
	if err != nil {
		t.Fatal(err)
	}
	return textOf(t, made[0], title)
}

func textOf(t testing.TB, p *Pack, title string) (text string) {
	t.Helper()
	for _, p := range p.Pages {
		if p.Title == title {
			text += words(p.List)
		}
	}
	if text == "" {
		t.Fatalf("no page %s", title)
	}
	return text
}

// TestPriceByHand: scenario 1 of the trade notes, whose counts TestScenario1 has
// by hand: 4 lamps, 8 glands, 15 m of cable, 15 clips, 6 m of trench.
//
//	at least 4·12 + 8·2.50 + 15·2 + 15·0.20 + 6·9 + 4·40 = 315.00
//	at most  4·15 + 8·2.50 + 15·2.40 + 15·0.20 + 6·9 + 6·45 = 443.00
func TestPriceByHand(t *testing.T) {
	in := priced(t, terrace, nil)
	got := newBook(in).quoteOf()
	if got.sum != (doc.Band{Low: 31500, High: 44300}) {
		t.Errorf("the sum is %v, by hand 315.00 to 443.00", got.sum)
		for _, l := range got.lines {
			t.Logf("%s %s: %g, %v", l.Group, l.Item, l.amount, l.all)
		}
	}
	text := pageText(t, in, "Price")
	for _, want := range []string{"315.00", "443.00", "pounds", "Without Fused connection unit with 3 A cartridge fuse BS 1362", "Marker tape", "Ten metres of trench more or less are 90.00 pounds"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page Price does not say %q", want)
		}
	}
	// Without hours the sum is smaller and says so.
	bare := newBook(priced(t, terrace, func(s *doc.Scheme) { s.List.Hours = doc.Span{} })).quoteOf()
	if bare.sum != (doc.Band{Low: 15500, High: 17300}) || !strings.Contains(strings.Join(bare.without, "; "), "the hours of work") {
		t.Errorf("without hours: %v, %q", bare.sum, bare.without)
	}
}

// A cable that is priced by the coil only costs what its coils do: 15 m of cuts
// out of one coil of 25 m for 31.50.
func TestPriceByTheCoil(t *testing.T) {
	in := priced(t, terrace, func(s *doc.Scheme) {
		s.List = s.List.With(doc.ItemPrice{Group: "cable", Item: "swa-3x1.5"})
		s.Prices = []doc.Price{{Cable: "swa-3x1.5", Coils: []doc.Coil{{Length: 25, Price: q.Some(doc.Money(3150))}}}}
	})
	if got := newBook(in).quoteOf().sum; got != (doc.Band{Low: 31500 - 3000 + 3150, High: 44300 - 3600 + 3150}) {
		t.Errorf("the sum is %v", got)
	}
}

// Nothing that is not known is printed as zero: without prices no price, without
// latitude no hours, without a tariff no cost, each named.
func TestUnknownIsNotZero(t *testing.T) {
	none := input(t, terrace)
	if text := pageText(t, none, "Price"); !strings.Contains(text, "No price is worked out") || strings.Contains(text, "0.00") {
		t.Errorf("without a price list: %s", text)
	}
	for _, c := range []struct {
		change   func(*doc.Scheme)
		has, not string
	}{
		{func(s *doc.Scheme) { s.Running.Tariff = q.Maybe[doc.Tariff]{} }, "Not given: the tariff (the price of one kWh). So the cost is not worked out", "Cost a year"},
		{func(s *doc.Scheme) { s.Running.Latitude = q.Maybe[doc.Degrees]{} }, "Not given: the latitude. So hours and cost are not worked out", "kWh a year"},
		{func(s *doc.Scheme) { s.Running = doc.Running{} }, "Not given: the latitude, the longitude and the tariff", "kWh a year"},
		{func(s *doc.Scheme) { s.Country = "" }, "clock without summer time", "Not given"},
		{nil, "Tariff 0.2735 pounds a kWh", "Not given"},
	} {
		text := pageText(t, priced(t, terrace, c.change), "Running cost")
		text = strings.Join(strings.Fields(text), " ")
		if strings.Contains(text, "Enter it") || strings.Contains(text, "of the scheme.") {
			t.Errorf("the client is told what to enter: %s", text)
		}
		if !strings.Contains(text, c.has) || strings.Contains(text, c.not) {
			t.Errorf("want %q and not %q in: %s", c.has, c.not, text)
		}
	}
}

// TestRunningByHand: a watt that burns all night for a year is 4.1 kWh by the
// trade notes (derived, for the south of England; within 5 %); four lamps of 3 W
// on the mains take 12 W (scenario 1), so that a year to dawn is their hours
// times 0.012 kW times 0.2735.
func TestRunningByHand(t *testing.T) {
	r := newBook(priced(t, terrace, nil)).runningOf()
	if got := r.hours[2] / 1000; math.Abs(got-4.1) > 0.05*4.1 {
		t.Errorf("a watt from sunset to sunrise is %.2f kWh a year, by the trade notes 4.1", got)
	}
	if got := float64(r.total.watts); math.Abs(got-12) > 0.1 {
		t.Errorf("%.2f W at the supply, by hand 12", got)
	}
	want := doc.Money(math.Round(float64(r.total.watts) * r.hours[2] / 1000 * 27.35))
	if got := r.cost(r.yearly()[2]); got.Value != want || !(r.hours[0] < r.hours[1] && r.hours[1] < r.hours[2]) {
		t.Errorf("a year to dawn costs %v, want %v; hours %v", got.Value, want, r.hours)
	}
}

// A zone with a time of its own burns until then, whatever the others do.
func TestRunningOfZoneThatGoesOut(t *testing.T) {
	b := newBook(input(t, schemes[0]))
	all := b.runningOf()
	s := *b.scheme
	z := *s.Zones.All()[1]
	z.Off = doc.Off{Set: true, Minute: 21 * 60}
	s.Zones = s.Zones.With(&z)
	b.scheme = &s
	r := b.runningOf()
	watts, hours := float64(r.zones[1].watts), r.burning(z.Off)
	if !(watts > 0 && hours > 0 && hours < r.hours[0]) {
		t.Fatalf("the zone takes %g W for %g h, the others burn %v h", watts, hours, r.hours)
	}
	for i := range r.hours {
		want := all.yearly()[i] - watts*(r.hours[i]-hours)/1000
		if got := r.yearly()[i]; math.Abs(got-want) > 1e-9 {
			t.Errorf("others off at %s: %.3f kWh a year, by hand %.3f", r.off[i], got, want)
		}
	}
}

// Source losses are in it and the zones add up: in the example a driver of 86 %
// that takes 0.5 W idle feeds the lamps at 12 V, and what the zones take together
// is what the circuit takes.
func TestZonesAddUp(t *testing.T) {
	for _, path := range schemes {
		b := newBook(input(t, path))
		r := b.runningOf()
		sum, supplied, load := 0.0, 0.0, 0.0
		for _, z := range r.zones {
			sum += float64(z.watts)
		}
		for _, res := range b.Frame.Results {
			supplied += float64(res.Solution.Supplied)
			load += float64(res.Totals.Load)
		}
		existing := 0.0
		for _, s := range b.scheme.Supplies.All() {
			existing += float64(s.ExistingLoad.Value)
		}
		if len(r.untrue) > 0 {
			continue
		}
		if existing == 0 && math.Abs(sum-supplied) > 0.051 || sum < load {
			t.Errorf("%s: zones take %.2f W together, the circuits %.2f W, the lamps %.2f W", path, sum, supplied, load)
		}
	}
}

// TestOptionsGolden keeps the comparison of two schemes as text.
func TestOptionsGolden(t *testing.T) {
	var out strings.Builder
	b := priced(t, three, func(s *doc.Scheme) { s.Running.Tariff = q.Maybe[doc.Tariff]{} })
	if err := Compare(priced(t, terrace, nil), b).Text(&out); err != nil {
		t.Fatal(err)
	}
	const path = "testdata/compare.txt"
	if *update {
		if err := os.WriteFile(path, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if out.String() != string(want) {
		t.Errorf("differs from %s; look at the difference and run with -update if it is meant:\n%s", path, out.String())
	}
}

// A scheme beside itself differs in nothing, and what A has more of B has less.
func TestCompareLaws(t *testing.T) {
	a, b := priced(t, sixty, nil), priced(t, example, nil)
	same := Compare(a, a)
	for _, r := range same.Rows {
		if r.Difference == nil || *r.Difference != 0 {
			t.Errorf("%s differs from itself: %v", r.What, r.Difference)
		}
	}
	if len(same.Parts) > 0 {
		t.Errorf("parts differ: %v", same.Parts)
	}
	x, y := Compare(a, b), Compare(b, a)
	for i := range x.Rows {
		if *x.Rows[i].Difference != -*y.Rows[i].Difference {
			t.Errorf("%s: %g and %g", x.Rows[i].What, *x.Rows[i].Difference, *y.Rows[i].Difference)
		}
	}
}

// The pages of the client pack with prices, running cost and a second scheme:
// no words on each other, none beyond the frame, tables that break with their
// headings; the same bytes every time.
func TestClientPages(t *testing.T) {
	for _, path := range []string{example, sixty, three} {
		in := priced(t, path, func(s *doc.Scheme) {
			for i := range 40 { // so many zones that the tables break
				s.Zones = s.Zones.With(&doc.Zone{ID: doc.ID("zone-" + whole(i)), Tag: "ZZ" + whole(i), Name: "A zone with a rather long name by the far wall of the kitchen garden"})
			}
		})
		other := priced(t, sixty, nil)
		in.Other = &other
		made, err := Make(context.Background(), in, nil, "client")
		if err != nil {
			t.Fatal(err)
		}
		for n, page := range made[0].Pages {
			if page.List.View.Denominator == 0 {
				apart(t, path+", page "+whole(n+1), page.List)
			}
		}
		if n := strings.Count(textOf(t, made[0], "Running cost"), "At the"); n < 2 {
			t.Errorf("%s: the heading of the zones stands %d times, want it on both pages", path, n)
		}
		for _, want := range []string{"B less A", "one fixed exposure", "Watts at the supply", "Running cost a year, off at dawn"} {
			if !strings.Contains(textOf(t, made[0], "Options side by side"), want) {
				t.Errorf("%s: options do not say %q", path, want)
			}
		}
	}
}

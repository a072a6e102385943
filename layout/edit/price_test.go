package edit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// pricing draws an operation about money, right or wrong.
func (d *dice) pricing() edit.Operation {
	amount := func(label string) doc.Money { return doc.Money(rapid.IntRange(-1, 20000).Draw(d.t, label)) }
	item := func() doc.ItemPrice {
		things := []doc.ItemPrice{{Group: "lamp", Item: "brick-3w"}, {Group: "cable", Item: cables[1]}, {Group: "gland", Item: "CW 20"}, {Group: "labour", Item: "dig"}, {Group: "way", Item: "tape"}}
		p := things[d.one("thing", len(things))]
		p.Band.Low = amount("low")
		p.Band.High = p.Band.Low + amount("more")
		return p
	}
	switch d.one("money", 5) {
	case 0:
		return edit.SetPrice{Price: item()}
	case 1:
		return edit.ImportPrices{Items: []doc.ItemPrice{item(), item()}}
	case 2:
		return edit.SetPriceList{List: doc.PriceList{Currency: rapid.SampledFrom([]string{"", "pounds", " francs"}).Draw(d.t, "currency"),
			Hours: doc.Span{Low: 0.25 * float64(d.one("hours", 9)), High: 2.5}}}
	case 3:
		p := doc.Price{Cable: cables[1+d.one("cable", 2)]}
		for range d.one("coils", 3) {
			p.Coils = append(p.Coils, doc.Coil{Length: q.Metre(25 * (1 + d.one("coil", 4))), Price: q.Some(amount("price"))})
		}
		return edit.SetCablePrice{Price: p}
	}
	v := doc.Running{Summer: rapid.SampledFrom(append([]string{"", "winter"}, doc.SummerTimes...)).Draw(d.t, "summer")}
	v.Latitude = q.Some(doc.Degrees(math.Round(rapid.Float64Range(-95, 95).Draw(d.t, "latitude")*1e6) / 1e6))
	v.Tariff = q.Some(doc.Tariff(float64(d.one("tariff", 5000)) / 100))
	v.Off[d.one("off", 3)] = doc.Off{Set: true, Minute: d.one("minute", 1500)}
	return edit.SetRunning{Running: v}
}

// A band of zero takes a price away, an import is one step and leaves the other
// prices, and of a cable of which nothing is said nothing stays.
func TestPriceSteps(t *testing.T) {
	s := doc.New("uk-18")
	do := func(op edit.Operation) {
		t.Helper()
		n, err := op.Apply(s)
		if err != nil {
			t.Fatal(err)
		}
		s = n
	}
	lamp := doc.ItemPrice{Group: "lamp", Item: "brick-3w", Band: doc.Band{Low: 1850, High: 2400}}
	do(edit.SetPrice{Price: lamp})
	do(edit.ImportPrices{Items: []doc.ItemPrice{{Group: "labour", Item: "dig", Band: doc.Band{Low: 900, High: 900}}, {Group: "box", Item: "box-85", Band: doc.Band{Low: 1, High: 2}}}})
	if b, ok := s.List.Of("lamp", "brick-3w"); !ok || b != lamp.Band || len(s.List.Items) != 3 {
		t.Errorf("after the import the list is %+v", s.List.Items)
	}
	do(edit.SetPriceList{List: doc.PriceList{Currency: "pounds", Hours: doc.Span{Low: 8, High: 12}}})
	if s.List.Currency != "pounds" || len(s.List.Items) != 3 {
		t.Errorf("the word for the money took the prices along: %+v", s.List)
	}
	do(edit.SetPrice{Price: doc.ItemPrice{Group: "lamp", Item: "brick-3w"}})
	if _, ok := s.List.Of("lamp", "brick-3w"); ok || len(s.List.Items) != 2 {
		t.Errorf("a price of zero stays: %+v", s.List.Items)
	}
	do(edit.SetCablePrice{Price: doc.Price{Cable: "swa-3x1.5", Metre: q.Some(doc.Money(145))}})
	do(edit.SetCablePrice{Price: doc.Price{Cable: "swa-3x1.5"}})
	if len(s.Prices) != 0 {
		t.Errorf("a cable of which nothing is said stays: %+v", s.Prices)
	}
	for _, bad := range []edit.Operation{
		edit.SetPrice{Price: doc.ItemPrice{Group: "lamp", Item: "brick-3w", Band: doc.Band{Low: 5, High: 4}}},
		edit.SetPrice{Price: doc.ItemPrice{Group: "lumps", Item: "brick-3w", Band: doc.Band{Low: 5, High: 5}}},
		edit.SetRunning{Running: doc.Running{Latitude: q.Some(doc.Degrees(91))}},
		edit.SetRunning{Running: doc.Running{Tariff: q.Some(doc.Tariff(0))}},
		edit.SetPriceList{List: doc.PriceList{Hours: doc.Span{Low: 3, High: 2}}},
		edit.SetCablePrice{Price: doc.Price{Cable: "swa-3x1.5", Coils: []doc.Coil{{Length: 25}}, Metre: q.Some(doc.Money(145))}},
	} {
		if _, err := bad.Apply(s); err == nil {
			t.Errorf("%+v was accepted", bad)
		}
	}
}

package file

import (
	"slices"
	"strconv"
	"strings"

	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// readPrices reads the prices section: what each cable costs and what of it is
// at hand. A cable may be listed once, and must be in the stock book.
func readPrices(list []node, stock doc.Stock) []doc.Price {
	if len(list) > doc.MostPrices { // before any is read
		list[doc.MostPrices].fail(strconv.Itoa(len(list))+" cables", "at most "+strconv.Itoa(doc.MostPrices))
		return nil
	}
	var out []doc.Price
	seen := map[string]bool{}
	for i, n := range list {
		before := len(n.log.list)
		o := n.within("price " + strconv.Itoa(i+1)).object()
		p := doc.Price{Cable: o.needText("cable"), Metre: money(o, "metre")}
		keys := stock.PriceKeys("cable")
		switch c := o.get("cable"); {
		case c.present() && p.Cable != "" && !slices.Contains(keys, p.Cable):
			c.failHint(c.found(), "the key of a cable in the stock book", nearest(p.Cable, keys))
		case c.present() && seen[p.Cable]:
			c.fail(c.found()+" a second time", "every cable once")
		}
		seen[p.Cable] = true
		for _, c := range o.list("coils") {
			co := c.object()
			p.Coils = append(p.Coils, doc.Coil{Length: coilLength(co.need("length", "a length such as 50 m")), Price: money(co, "price")})
			co.done()
		}
		for _, l := range o.list("left") {
			p.Left = append(p.Left, coilLength(l))
		}
		if found, expected := p.Fault(); found != "" && len(n.log.list) == before {
			o.fail(found, expected)
		}
		o.done()
		out = append(out, p)
	}
	return out
}

func coilLength(n node) q.Metre {
	l := quantity(n, q.ParseMetre)
	if n.present() && !(l > 0 && l <= doc.LongestCoil) {
		n.fail(n.found(), "a length of more than 0 and at most "+doc.LongestCoil.String())
	}
	return l
}

// money reads an amount such as 31.50, without a sign for the money.
func money(o *object, key string) q.Maybe[doc.Money] {
	return parsed(o, key, "an amount such as 31.50", doc.ParseMoney)
}

// parsed reads a quantity that may be unknown by a function whose error says
// what was expected; expected is for what is no single value.
func parsed[T ~float64](o *object, key, expected string, parse func(string) (T, error)) (m q.Maybe[T]) {
	if o.has(key) {
		m.Value, m.Known = read(o.get(key), expected, parse)
	}
	return m
}

// read reads one value; ok is false, with the problem reported, when it is none.
func read[T any](n node, expected string, parse func(string) (T, error)) (v T, ok bool) {
	text, ok := n.scalar(expected)
	if !ok {
		return v, false
	}
	got, err := parse(text)
	if err != nil {
		n.fail(n.found(), expectedIn(err))
		return v, false
	}
	return got, true
}

// readPriceList reads what the user asks for what is built.
func readPriceList(n node, stock doc.Stock) doc.PriceList {
	o := n.object()
	l := doc.PriceList{Currency: o.text("currency")}
	if o.has("hours") {
		l.Hours, _ = read(o.get("hours"), "hours such as 16 to 24 h", doc.ParseSpan)
	}
	items := o.list("items")
	o.done()
	if len(items) > doc.MostPrices {
		n.fail(strconv.Itoa(len(items))+" items", "at most "+strconv.Itoa(doc.MostPrices))
		return l
	}
	for i, n := range items {
		o := n.within("price_list item " + strconv.Itoa(i+1)).object()
		p := doc.ItemPrice{Group: o.needText("group"), Item: o.needText("item"), Band: band(o)}
		o.done()
		if expected := stock.PriceItem(p.Group, p.Item); expected != "" && p.Group != "" && p.Item != "" {
			field, words, word := "item", stock.PriceKeys(p.Group), p.Item
			if !slices.Contains(doc.PriceGroups, p.Group) {
				field, words, word = "group", doc.PriceGroups, p.Group
			}
			o.get(field).failHint(o.get(field).found(), expected, nearest(word, words))
		} else if _, twice := l.Of(p.Group, p.Item); twice {
			o.get("item").fail(o.get("item").found()+" a second time", "every thing once")
		}
		l = l.With(p)
	}
	return l
}

// band reads low and high; high may be left out.
func band(o *object) doc.Band {
	if o.y != nil {
		o.need("low", "an amount such as 31.50")
	}
	low, high := money(o, "low"), money(o, "high")
	if !high.Known {
		high = low
	}
	if high.Value < low.Value {
		n := o.get("high")
		n.fail(n.found(), "at least "+low.Value.String())
	}
	return doc.Band{Low: low.Value, High: high.Value}
}

// readRunning reads what running the lights depends on.
func readRunning(n node) doc.Running {
	o := n.object()
	v := doc.Running{
		Latitude:  parsed(o, "latitude", "a latitude such as 51.5 deg", doc.ParseLatitude),
		Longitude: parsed(o, "longitude", "a longitude such as -1.8 deg", doc.ParseLongitude),
		Tariff:    parsed(o, "tariff", "the price of one kWh such as 0.2735", doc.ParseTariff),
		Ahead:     parsed(o, "ahead", "hours such as 1 h", doc.ParseAhead),
		Summer:    o.text("summer"),
	}
	off := o.list("off")
	if len(off) > len(v.Off) {
		o.get("off").fail(strconv.Itoa(len(off))+" times", "at most "+strconv.Itoa(len(v.Off)))
		off = nil
	}
	for i, t := range off {
		v.Off[i], _ = read(t, `a time such as "22:00", or dawn`, doc.ParseOff)
	}
	o.done()
	return v
}

// offTime reads a time at which lights go out; left out it is not set.
func offTime(o *object, key, expected string) (v doc.Off) {
	if o.has(key) {
		v, _ = read(o.get(key), expected, doc.ParseOff)
	}
	return v
}

// prices writes what things cost and what running them depends on.
func (w *writer) prices(s *doc.Scheme) {
	w.running(&s.Running)
	w.priceList(&s.List)
	if len(s.Prices) > 0 {
		w.line(0, "prices", "")
	}
	for _, p := range s.Prices {
		w.dash = true
		w.line(2, "cable", written(p.Cable))
		if len(p.Coils) > 0 {
			w.line(2, "coils", "")
		}
		for _, c := range p.Coils {
			f := flow{"length: " + amount(c.Length, "m")}
			if c.Price.Known {
				f.add("price", c.Price.Value.String())
			}
			w.WriteString("      - " + f.String() + "\n")
		}
		if p.Metre.Known {
			w.line(2, "metre", p.Metre.Value.String())
		}
		if len(p.Left) > 0 {
			w.line(2, "left", "")
		}
		for _, l := range p.Left {
			w.WriteString("      - " + amount(l, "m") + "\n")
		}
	}
}

func (w *writer) priceList(l *doc.PriceList) {
	if l.Currency == "" && l.Hours == (doc.Span{}) && len(l.Items) == 0 {
		return
	}
	w.line(0, "price_list", "")
	w.text(1, "currency", l.Currency)
	if l.Hours != (doc.Span{}) {
		w.text(1, "hours", l.Hours.String())
	}
	if len(l.Items) > 0 {
		w.line(1, "items", "")
	}
	for _, p := range l.Items {
		f := flow{"group: " + p.Group}
		f.text("item", p.Item)
		f.add("low", p.Band.Low.String())
		if p.Band.High != p.Band.Low {
			f.add("high", p.Band.High.String())
		}
		w.WriteString("    - " + f.String() + "\n")
	}
}

func (w *writer) running(v *doc.Running) {
	if *v == (doc.Running{}) {
		return
	}
	w.line(0, "running", "")
	if v.Latitude.Known {
		w.line(1, "latitude", degrees(float64(v.Latitude.Value)))
	}
	if v.Longitude.Known {
		w.line(1, "longitude", degrees(float64(v.Longitude.Value)))
	}
	if v.Tariff.Known {
		w.line(1, "tariff", v.Tariff.Value.String())
	}
	if v.Ahead.Known {
		w.line(1, "ahead", v.Ahead.Value.String())
	}
	w.text(1, "summer", v.Summer)
	if v.Off == [3]doc.Off{} {
		return
	}
	w.line(1, "off", "")
	for _, o := range v.Off {
		text := o.String()
		if !o.Set {
			text = "usual"
		}
		w.WriteString("    - " + written(text) + "\n")
	}
}

// expectedIn returns what an error of the form "found …, expected …" asks for.
func expectedIn(err error) string {
	_, expected, _ := strings.Cut(err.Error(), ", expected ")
	return expected
}

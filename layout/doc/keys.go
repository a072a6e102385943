package doc

import "strconv"

// CheckStock returns every stock key of the scheme that is in neither the
// scheme's own stock nor the given stock book, in the order of the file.
func CheckStock(s *Scheme, book Stock) []*Problem {
	k := keys{book: book.Over(s.Stock)}
	for _, e := range s.Supplies.All() {
		k.r = report{s: s, id: e.ID, name: entityName(e, SupplyKind), list: k.r.list}
		k.device("upstream", e.Upstream)
		k.device("residual", e.Residual)
		k.device("fuse", e.Fuse)
		k.cable("indoor.cable", e.Indoor.Cable)
	}
	last := "" // a key that is there, lest every entity search the book for it
	for _, e := range s.Boxes.All() {
		if e.Stock == last && last != "" {
			continue
		}
		_, ok := k.book.Box(e.Stock)
		k.check(s, e, "stock", e.Stock, ok, "a box")
		last = found(e.Stock, ok)
	}
	last = ""
	for _, e := range s.Lamps.All() {
		if e.Stock == last && last != "" {
			continue
		}
		_, ok := k.book.Lamp(e.Stock)
		k.check(s, e, "stock", e.Stock, ok, "a lamp")
		last = found(e.Stock, ok)
	}
	for _, e := range s.Gear.All() {
		_, ok := k.book.GearItem(e.Stock)
		k.check(s, e, "stock", e.Stock, ok, "gear")
	}
	for _, e := range s.Sources.All() {
		_, ok := k.book.Converter(e.Stock)
		k.check(s, e, "stock", e.Stock, ok, "a source")
	}
	for _, e := range s.Runs.All() {
		k.r = report{s: s, e: e, id: e.ID, list: k.r.list}
		k.cable("cable", e.Cable)
	}
	for i, l := range s.Lights {
		if _, ok := k.book.Lamp(l.Lamp); !ok {
			k.r = report{s: s, name: lightEntry(i), list: k.r.list}
			k.r.add("lamp", strconv.Quote(l.Lamp), "a lamp of the stock book")
		}
	}
	return k.r.list
}

// found is a key when it is there, otherwise "".
func found(key string, ok bool) string {
	if !ok {
		return ""
	}
	return key
}

type keys struct {
	book Stock
	r    report
}

func (k *keys) check(s *Scheme, e Entity, field, key string, ok bool, what string) {
	k.r = report{s: s, e: e, id: e.Key(), list: k.r.list}
	if !ok {
		k.r.add(field, strconv.Quote(key), what+" of the stock book")
	}
}

func (k *keys) device(field, key string) {
	if _, ok := k.book.Device(key); key != "" && !ok {
		k.r.add(field, strconv.Quote(key), "a device of the stock book")
	}
}

func (k *keys) cable(field, key string) {
	if _, ok := k.book.Cable(key); key != "" && !ok {
		k.r.add(field, strconv.Quote(key), "a cable of the stock book")
	}
}

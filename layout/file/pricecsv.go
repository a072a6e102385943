package file

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"duskwire/layout/doc"
)

// priceColumns are the columns of a price list as CSV. Name and unit are for the
// reader: on the way in they are not looked at.
var priceColumns = []string{"group", "item", "name", "unit", "low", "high"}

// MaxPriceBytes is the largest list of prices that is read.
const MaxPriceBytes = 1 << 20

// WritePrices returns a price list as CSV after RFC 4180: a line for each thing
// listed, and one without a price for each further thing of want, which shows
// what to fill in. The order is that of a price list.
func WritePrices(l *doc.PriceList, stock *doc.Stock, want []doc.ItemPrice) []byte {
	all := doc.PriceList{}
	for _, p := range want {
		p.Band = doc.Band{Low: 1, High: 1} // takes its place, not its price
		all = all.With(p)
	}
	all = all.With(l.Items...)
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	line := func(cells ...string) {
		if err := w.Write(cells); err != nil {
			panic(err) // a buffer takes everything
		}
	}
	line(priceColumns...)
	for _, p := range all.Items {
		low, high := "", ""
		if band, ok := l.Of(p.Group, p.Item); ok {
			low, high = band.Low.String(), band.High.String()
		}
		name, unit := stock.PriceName(p.Group, p.Item)
		line(p.Group, guardedText(p.Item), guardedText(name), unit, low, high)
	}
	w.Flush()
	return b.Bytes()
}

// guardedText puts an apostrophe before a text that a spreadsheet might run as
// a formula (OWASP, "CSV Injection").
func guardedText(s string) string {
	if r, _ := utf8.DecodeRuneInString(s); s != "" && strings.ContainsRune("=+-@\t\r\n＝＋－＠", r) {
		return "'" + s
	}
	return s
}

// ReadPrices reads what WritePrices writes, or a spreadsheet made of it: columns
// may stand in any order, name, unit and high may be left out, a line without
// prices is passed over. name is for messages, stock is the book whose keys may
// be named. The first thing that is wrong refuses the whole list and is told
// with its line.
func ReadPrices(name string, data []byte, stock *doc.Stock) ([]doc.ItemPrice, error) {
	if len(data) > MaxPriceBytes {
		return nil, &Error{File: name, Line: 1, Found: fmt.Sprintf("%d bytes", len(data)), Expected: fmt.Sprintf("at most %d", MaxPriceBytes)}
	}
	if !utf8.Valid(data) {
		return nil, &Error{File: name, Line: 1, Found: "bytes that are not UTF-8", Expected: "a list saved as CSV in UTF-8"}
	}
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	r.FieldsPerRecord = -1
	p := &priceReader{name: name, stock: stock, seen: map[string]int{}}
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, p.csvFault(err)
		}
		line, _ := r.FieldPos(0)
		if fault := p.line(line, cells); fault != nil {
			return nil, fault
		}
	}
	if p.at == nil {
		return nil, &Error{File: name, Line: 1, Found: "nothing", Expected: "a first line with the columns " + strings.Join(priceColumns, ", ")}
	}
	return p.out, nil
}

// priceReader reads one list line by line.
type priceReader struct {
	name  string
	stock *doc.Stock
	at    map[string]int // column of each name; nil before the first line
	wide  int
	seen  map[string]int // line of each thing
	out   []doc.ItemPrice
}

// csvFault tells what encoding/csv found.
func (p *priceReader) csvFault(err error) error {
	line, found := 1, err.Error()
	var parse *csv.ParseError
	if errors.As(err, &parse) {
		line, found = parse.Line, parse.Err.Error()
	}
	return &Error{File: p.name, Line: line, Found: found, Expected: "a line of cells with commas between, after RFC 4180"}
}

// line reads one line.
func (p *priceReader) line(line int, cells []string) error {
	fail := func(field, found, expected, hint string) error {
		return &Error{File: p.name, Line: line, Field: field, Found: found, Expected: expected, Hint: hint}
	}
	if p.at == nil {
		return p.head(cells, fail)
	}
	if len(cells) > p.wide {
		return fail("", strconv.Itoa(len(cells))+" cells", "as many as the first line has", "")
	}
	cell := func(column string) string {
		i, ok := p.at[column]
		if !ok || i >= len(cells) {
			return ""
		}
		text := strings.TrimSpace(cells[i])
		if bare, ok := strings.CutPrefix(text, "'"); ok && guardedText(bare) == text {
			return bare
		}
		return text
	}
	quoted := func(column string) string { return strconv.Quote(doc.Short(cell(column))) }
	price := doc.ItemPrice{Group: cell("group"), Item: cell("item")}
	low, high := cell("low"), cell("high")
	if low == "" && high == "" {
		return nil // not filled in, or an empty line
	}
	if expected := p.stock.PriceItem(price.Group, price.Item); expected != "" {
		if !slices.Contains(doc.PriceGroups, price.Group) {
			return fail("group", quoted("group"), expected, nearest(doc.Short(price.Group), doc.PriceGroups))
		}
		return fail("item", quoted("item"), expected, nearest(doc.Short(price.Item), p.stock.PriceKeys(price.Group)))
	}
	if first, twice := p.seen[price.Group+" "+price.Item]; twice {
		return fail("item", quoted("item")+" a second time", fmt.Sprintf("every thing once (line %d)", first), "")
	}
	p.seen[price.Group+" "+price.Item] = line
	var err error
	if price.Band.Low, err = doc.ParseMoney(low); err != nil {
		return fail("low", quoted("low"), expectedIn(err), "")
	}
	price.Band.High = price.Band.Low
	if high != "" {
		if price.Band.High, err = doc.ParseMoney(high); err != nil {
			return fail("high", quoted("high"), expectedIn(err), "")
		}
	}
	if price.Band.High < price.Band.Low {
		return fail("high", quoted("high"), "at least "+price.Band.Low.String(), "")
	}
	if len(p.out) == doc.MostPrices {
		return fail("", "more things", "at most "+strconv.Itoa(doc.MostPrices), "")
	}
	p.out = append(p.out, price)
	return nil
}

// head reads the line of columns.
func (p *priceReader) head(cells []string, fail func(field, found, expected, hint string) error) error {
	p.at, p.wide = map[string]int{}, len(cells)
	for i, c := range cells {
		word := strings.ToLower(strings.TrimSpace(c))
		if !slices.Contains(priceColumns, word) {
			return fail("", "the column "+strconv.Quote(doc.Short(word)), "the columns "+strings.Join(priceColumns, ", "), nearest(doc.Short(word), priceColumns))
		}
		if _, twice := p.at[word]; twice {
			return fail("", "the column "+word+" a second time", "every column once", "")
		}
		p.at[word] = i
	}
	for _, needed := range []string{"group", "item", "low"} {
		if _, ok := p.at[needed]; !ok {
			return fail("", "no column "+needed, "the columns "+strings.Join(priceColumns, ", "), "")
		}
	}
	return nil
}

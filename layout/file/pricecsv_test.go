package file

import (
	"reflect"
	"strings"
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/doc"
)

func priceStock() *doc.Stock {
	return &doc.Stock{
		Lamps: []doc.LampStock{{Key: "spike-5w-12", Name: "=Spike, 5 W"}, {Key: "brick-3w"}}, Boxes: []doc.BoxStock{{Key: "box-85", Name: "Box 85 mm"}},
		Cables: []*network.Cable{{Key: "swa-3x1.5", Name: "Armoured 3 x 1.5"}},
	}
}

// TestPriceCSV: what is written is read again, what has no price is passed over,
// and no name is taken for a formula.
func TestPriceCSV(t *testing.T) {
	list := doc.PriceList{}.With(
		doc.ItemPrice{Group: "lamp", Item: "spike-5w-12", Band: doc.Band{Low: 1850, High: 2400}},
		doc.ItemPrice{Group: "labour", Item: "hand dig", Band: doc.Band{Low: 1400, High: 1400}},
		doc.ItemPrice{Group: "gland", Item: "CW 20", Band: doc.Band{Low: 310, High: 320}})
	text := WritePrices(&list, priceStock(), []doc.ItemPrice{{Group: "lamp", Item: "spike-5w-12"}, {Group: "lamp", Item: "brick-3w"}})
	want := "group,item,name,unit,low,high\r\n" +
		"lamp,brick-3w,brick-3w,each,,\r\n" +
		"lamp,spike-5w-12,\"'=Spike, 5 W\",each,18.50,24.00\r\n" +
		"gland,CW 20,Gland CW 20,each,3.10,3.20\r\n" +
		"labour,hand dig,Trench by hand among roots,m,14.00,14.00\r\n"
	if string(text) != want {
		t.Errorf("written\n%s\nwant\n%s", text, want)
	}
	items, err := ReadPrices("p.csv", text, priceStock())
	if err != nil || !reflect.DeepEqual(doc.PriceList{}.With(items...), list) {
		t.Errorf("read %+v, %v", items, err)
	}
	moved := "\ufefflow,Item,GROUP\n1.2,tape,way\n\n"
	if items, err = ReadPrices("p.csv", []byte(moved), priceStock()); err != nil || len(items) != 1 || items[0].Band != (doc.Band{Low: 120, High: 120}) {
		t.Errorf("columns in another order: %+v, %v", items, err)
	}
}

// TestPriceCSVRefused: the first thing wrong is told with its line, and nothing
// is taken.
func TestPriceCSVRefused(t *testing.T) {
	head := "group,item,low,high\n"
	for _, c := range []struct{ text, says string }{
		{"", "p.csv:1:"},
		{"group,item,price\n", `p.csv:1: found the column "price"`},
		{"group,item\n", "no column low"},
		{"group,item,low,low\n", "a second time"},
		{head + "lamp,spike-5w-12,18,24\nlump,x,1,2\n", `p.csv:3: group: found "lump", expected one of the groups`},
		{head + "lamp,spike-5w-21,18,24\n", `did you mean "spike-5w-12"?`},
		{head + "lamp,spike-5w-12,18.555,24\n", `p.csv:2: low: found "18.555", expected an amount`},
		{head + "lamp,spike-5w-12,\"18,50\",24\n", `low: found "18,50"`},
		{head + "lamp,spike-5w-12,24,18\n", `p.csv:2: high: found "18", expected at least 24.00`},
		{head + "lamp,spike-5w-12,,18\n", `p.csv:2: low: found ""`},
		{head + "lamp,spike-5w-12,1,2\nlamp,spike-5w-12,1,2\n", "p.csv:3: item:"},
		{head + "lamp,spike-5w-12,1,2,3\n", "5 cells"},
		{head + "gland,XX 20,1,2\n", "M20, or kind and size"},
		{head + "gland,CW " + strings.Repeat("x", 5000) + ",1,2\n", "M20, or kind and size"},
		{head + "gland,CW \u202e20,1,2\n", "M20, or kind and size"},
		{head + "gland,\"CW 2\n0\",1,2\n", "M20, or kind and size"},
		{head + "labour,sing,1,2\n", "expected one of dig, hand dig, hour"},
		{head + "lamp,\"spike\n", "p.csv:2:"},
		{head + "lamp,\xff,1,2\n", "not UTF-8"},
		{head + strings.Repeat("way,tape,,\n", 200000), "bytes, expected at most"},
	} {
		items, err := ReadPrices("p.csv", []byte(c.text), priceStock())
		if err == nil || !strings.Contains(err.Error(), c.says) || items != nil {
			t.Errorf("%.60q: %v, %v; want it to say %q", c.text, items, err, c.says)
		}
	}
}

// Whatever is read is a price list that the scheme takes, and reads back the same.
func FuzzReadPrices(f *testing.F) {
	f.Add([]byte("group,item,low,high\nlamp,spike-5w-12,18,24\nway,tape,1,\n"))
	f.Add([]byte("\"group\",item,name,unit,low,high\r\ngland,CW 20,\"a\nb\",m,3.10,4\r\n"))
	f.Add([]byte("group,item,low\n'=x,,\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		items, err := ReadPrices("p.csv", data, priceStock())
		if err != nil {
			if items != nil || !strings.HasPrefix(err.Error(), "p.csv:") {
				t.Fatalf("%v, %v", items, err)
			}
			return
		}
		s := doc.New("uk-18")
		s.List = s.List.With(items...)
		if err := doc.Validate(s); err != nil {
			t.Fatal(err)
		}
		again, err := ReadPrices("p.csv", WritePrices(&s.List, priceStock(), nil), priceStock())
		if err != nil || !reflect.DeepEqual(doc.PriceList{}.With(again...), s.List) {
			t.Fatalf("%v: %+v, want %+v", err, again, s.List)
		}
	})
}

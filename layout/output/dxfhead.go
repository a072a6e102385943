package output

import (
	"bytes"
	"strconv"
	"strings"

	"duskwire/layout/geom"
)

// head writes what comes before the entities: header, tables, no blocks.
func (d *dxf) head(w *bytes.Buffer) {
	group(w, 999, "one unit is one metre; x right, y up the sheet")
	section(w, "HEADER")
	group(w, 9, "$ACADVER")
	group(w, 1, "AC1009")
	lo, hi := d.extent.Min, d.extent.Max
	for _, c := range []struct {
		name string
		p    geom.Point
	}{{"$EXTMIN", lo}, {"$EXTMAX", hi}} {
		group(w, 9, c.name)
		group(w, 10, inMetres(c.p.X))
		group(w, 20, inMetres(c.p.Y))
		group(w, 30, inMetres(0))
	}
	group(w, 9, "$LUNITS")
	group(w, 70, "2") // decimal
	group(w, 9, "$LUPREC")
	group(w, 70, "3") // shown to the millimetre
	group(w, 0, "ENDSEC")
	section(w, "TABLES")
	d.lineTypes(w)
	d.layerTable(w)
	d.styles(w)
	group(w, 0, "ENDSEC")
	section(w, "BLOCKS")
	group(w, 0, "ENDSEC")
	section(w, "ENTITIES")
}

func section(w *bytes.Buffer, name string) {
	group(w, 0, "SECTION")
	group(w, 2, name)
}

func tableHead(w *bytes.Buffer, name string, entries int) {
	group(w, 0, "TABLE")
	group(w, 2, name)
	group(w, 70, strconv.Itoa(entries))
}

func (d *dxf) lineTypes(w *bytes.Buffer) {
	tableHead(w, "LTYPE", 1)
	group(w, 0, "LTYPE")
	group(w, 2, "CONTINUOUS")
	group(w, 70, "64")
	group(w, 3, "Solid line")
	group(w, 72, "65")
	group(w, 73, "0")
	group(w, 40, "0.0")
	group(w, 0, "ENDTAB")
}

// layerColours are numbers of the colours of layers by the start of the name:
// 1 red, 3 green, 4 cyan, 5 blue, 6 magenta, 7 black or white, 8 grey.
var layerColours = []struct {
	start  string
	number int
}{{"AREA-BUILDING", 7}, {"AREA-WATER", 4}, {"AREA", 8}, {"LINE-BURIED", 6}, {"LINE", 7}, {"MARK", 3}, {"TEXT-GROUND", 8}, {layerMains, 1}, {layerLow, 5}}

func (d *dxf) layerTable(w *bytes.Buffer) {
	tableHead(w, "LAYER", len(d.layers)+1)
	for _, name := range append([]string{"0"}, d.layers...) {
		colour := 7
		for _, c := range layerColours {
			if strings.HasPrefix(name, c.start) {
				colour = c.number
				break
			}
		}
		group(w, 0, "LAYER")
		group(w, 2, name)
		group(w, 70, "64")
		group(w, 62, strconv.Itoa(colour))
		group(w, 6, "CONTINUOUS")
	}
	group(w, 0, "ENDTAB")
}

func (d *dxf) styles(w *bytes.Buffer) {
	tableHead(w, "STYLE", 1)
	group(w, 0, "STYLE")
	group(w, 2, "STANDARD")
	group(w, 70, "64")
	for _, g := range []struct {
		code  int
		value string
	}{{40, "0.0"}, {41, "1.0"}, {50, "0.0"}, {71, "0"}, {42, "0.2"}, {3, "txt"}, {4, ""}} {
		group(w, g.code, g.value)
	}
	group(w, 0, "ENDTAB")
}

package file

import "duskwire/layout/doc"

// readOwnStock reads the stock section of a scheme: items that travel with
// it, in the form of the shipped files. Its gear may name devices of the
// section and of the shipped stock book. Cables are not taken: what they can
// carry comes from tables that a scheme has not got.
func readOwnStock(n node, shipped doc.Stock) doc.Stock {
	o := n.object()
	if c := o.get("cables"); c.present() {
		c.fail("cables", "lamps, boxes, sources, gear or devices: cables belong into the stock book")
		return doc.Stock{}
	}
	b := &stockBook{tables: &tableSet{}}
	gear := b.read(o)
	o.done()
	if len(n.log.list) == 0 {
		// What it reports is in the log, where it is told by line.
		_ = b.settleGear(gear, shipped)
	}
	return b.Stock
}

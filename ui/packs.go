package ui

import (
	"context"
	"io"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/packs"
)

// packMenu holds the packs, each a file.
func (w *Window) packMenu(m *menus) *entry {
	one := func(name, key string) *entry {
		return w.item(name, "", nil, func() { w.savePack(key) })
	}
	return w.within(m, "Save pack", one("Client pack…", "client"), one("Site pack…", "site"), one("Test pack…", "test"))
}

// savePack asks for a place and writes one pack there.
func (w *Window) savePack(key string) {
	w.settle()
	w.exportSlow(key+"-pack", []string{".pdf"}, func(ctx context.Context, report Report, out io.Writer, _ string, f *layout.Frame, rules *check.Rules, date string) error {
		made, err := packs.Make(ctx, packs.Input{Frame: f, Rules: rules, Date: date}, packs.Report(report), key)
		if err != nil {
			return err
		}
		report(0.8, "putting the pages together")
		return made[0].PDF(out)
	})
}

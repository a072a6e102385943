package ui

import (
	"context"
	"io"
	"time"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/output"
	"duskwire/layout/packs"
)

// packMenu holds the packs, each a file.
func (w *Window) packMenu(m *menus) *entry {
	one := func(name, key string) *entry {
		return w.item(name, "", nil, func() { w.savePack(key) })
	}
	return w.within(m, "Save pack", one("Client pack…", "client"), one("Site pack…", "site"), one("Test pack…", "test"),
		w.item("Client pack beside another scheme…", "", nil, w.savePackBeside))
}

// packInput is what packs and data files are made from as things stand.
func (w *Window) packInput() packs.Input {
	f := w.desk.Frame()
	return packs.Input{Frame: f, Rules: output.RulesOf(w.desk.Rules(), f.Scheme), Date: w.cfg.Now().Format(time.DateOnly)}
}

// savePack asks for a place and writes one pack there.
func (w *Window) savePack(key string) {
	w.settle()
	in := w.packInput()
	whole := w.desk.Whole(in.Frame)
	w.exportSlow(key+"-pack", []string{".pdf"}, func(ctx context.Context, report Report, out io.Writer, _ string, _ *layout.Frame, _ *check.Rules, _ string) error {
		in.Frame = whole()
		made, err := packs.Make(ctx, in, packs.Report(report), key)
		if err != nil {
			return err
		}
		report(0.8, "putting the pages together")
		return made[0].PDF(out)
	})
}

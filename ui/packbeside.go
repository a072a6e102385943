package ui

import (
	"context"
	"errors"
	"path/filepath"

	"duskwire/layout"
	"duskwire/layout/output"
	"duskwire/layout/packs"
)

// workBeside is the reading of a second scheme.
const workBeside = "beside"

// savePackBeside asks for a second scheme and shows the pages of the client pack with
// both side by side, from where it is saved. The second one is only read: what is open
// stays.
func (w *Window) savePackBeside() {
	w.settle()
	in := w.packInput()
	w.chooseFrom(choice{title: "The scheme to put beside this one", verb: "Choose", endings: []string{fileEnding}}, func(path string) {
		read, prepare, all := w.cfg.Load, w.desk.Preparer(), w.desk.Rules()
		name := filepath.Base(path)
		RunTask(w.bridge, Task{Key: workBeside, Title: "Reading " + name}, func(ctx context.Context, report Report) (*packs.Input, error) {
			report(0.1, stepReading)
			s, err := read(path)
			if err == nil {
				err = ctx.Err()
			}
			if err != nil {
				return nil, err
			}
			report(0.5, stepCircuits)
			lights, err := layout.ReadLights(ctx, &layout.LightCache{}, path, s)
			if err != nil {
				return nil, err
			}
			return &packs.Input{Frame: prepare(s, path).WithLights(lights).Frame(), Rules: output.RulesOf(all, s), Date: in.Date}, nil
		}, func(other *packs.Input, err error) {
			switch {
			case errors.Is(err, context.Canceled):
				w.status.SetHint("Cancelled: no pack was made", true)
			case err != nil:
				w.fail(name+" cannot be put beside this scheme", err)
			default:
				in.Other = other
				w.showPagesOf(in)
			}
		})
	})
}

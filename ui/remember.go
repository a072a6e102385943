package ui

import (
	"context"
	"os"

	"duskwire/layout/journal"
)

// Names of the work on the state folder.
const (
	workRemember = "remember"
	workMissing  = "missing"
	workLost     = "lost"
)

// recall takes over what was remembered at the last start; without a state
// folder nothing is.
func recall(cfg *Config) journal.Memory {
	if cfg.State == "" {
		return journal.Memory{}
	}
	m, _ := journal.Recall(cfg.State) // what cannot be read counts as nothing
	cfg.Dark = cfg.Dark || m.Dark
	cfg.Welcome = cfg.Welcome && !m.Cautions
	return m
}

// remember changes what is remembered, in a worker. The change is made again
// on what another window may have written in the meantime.
func (w *Window) remember(change func(*journal.Memory)) {
	change(&w.memory)
	w.menus.listRecent(w)
	if w.cfg.State == "" {
		return
	}
	state, before := w.cfg.State, w.lastRemember
	ended := make(chan struct{})
	w.lastRemember = ended
	Run(w.bridge, workRemember, func(context.Context) (journal.Memory, error) {
		defer close(ended)
		if before != nil {
			<-before // one after the other, as they were asked for
		}
		return journal.Remember(state, change)
	}, func(m journal.Memory, err error) {
		if err != nil {
			w.status.SetHint("The recent files could not be remembered: "+err.Error(), true)
			return
		}
		w.memory = m
		w.lookForMissing()
	})
}

// opened remembers a file that was opened or written.
func (w *Window) opened(path string) {
	if path != "" {
		w.remember(func(m *journal.Memory) { m.Opened(path) })
	}
}

// lookForMissing finds out in a worker which recent files are gone and lists
// them as such.
func (w *Window) lookForMissing() {
	list := w.memory.Recent
	Run(w.bridge, workMissing, func(context.Context) (map[string]bool, error) {
		gone := map[string]bool{}
		for _, p := range list {
			if _, err := os.Stat(p); err != nil {
				gone[p] = true
			}
		}
		return gone, nil
	}, func(gone map[string]bool, _ error) {
		w.missing = gone
		w.menus.listRecent(w)
	})
}

// shape gives the window the size and the dividers it had last.
func (w *Window) shape() {
	w.folds.hand = w.memory.Folded
	w.win.Resize(startSize(w.personScale(), &w.memory))
	if w.memory.Panel > 0 {
		w.middle.SetOffset(w.memory.Panel)
		w.menus.wide.Checked = w.memory.Panel <= widePanel
	}
	if w.folds.tray = w.memory.Tray; w.memory.Tray > 0 && !w.tray.lean.narrow {
		w.outer.SetOffset(w.memory.Tray)
	}
	w.foldPanel()
}

// rememberShape keeps size and dividers for the next start. It writes at once,
// because the program ends.
func (w *Window) rememberShape() {
	if w.cfg.State == "" {
		return
	}
	if w.lastRemember != nil {
		<-w.lastRemember
	}
	size, folder := w.win.Canvas().Size(), w.memory.Folder
	_, _ = journal.Remember(w.cfg.State, func(m *journal.Memory) {
		m.Width, m.Height, m.Scale = size.Width, size.Height, w.personScale()
		m.Panel, m.Tray = w.middle.Offset, w.outer.Offset
		if w.tray.lean.narrow {
			m.Tray = w.folds.tray
		}
		m.Folder = folder
	})
}

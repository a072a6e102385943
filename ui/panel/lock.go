package panel

import (
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// lockRow adds whether the entity stays as it is drawn.
func lockRow(f *form) {
	on := f.on
	name := "Locked: it is not moved, bent or deleted"
	f.check(name, func() bool {
		e, kind := doc.Find(on.scheme(), on.id)
		return kind != doc.NoKind && doc.Locked(e)
	}, func(v bool) edit.Operation { return edit.SetLock{IDs: []doc.ID{on.id}, On: v} })
}

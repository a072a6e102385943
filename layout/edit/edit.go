// Package edit changes the plan: operations with names, the store that keeps
// the current scheme, and the history that undo walks through.
package edit

import "duskwire/layout/doc"

// Operation is one change of the scheme. Apply is pure: it returns a new
// scheme that shares what stays the same, or an error and no scheme; it never
// half-applies. Name is the menu entry and undo step ("Move L7").
type Operation interface {
	Name() string
	Apply(*doc.Scheme) (*doc.Scheme, error)
}

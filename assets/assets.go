// Package assets holds the data files that are built into the program: the
// tables, the rule sets and the stock book, each value with its source, and the
// example schemes. There is no logic here; layout/file reads them.
package assets

import "embed"

// FS is the tree of data files: tables/, rules/, stock/ and examples/.
//
//go:embed tables rules stock examples
var FS embed.FS

package file

import "strconv"

// version is the file version that this program writes.
const version = 1

// migration changes the node tree of a file from one version to the next.
type migration func(top *tree) error

// migrations[i] brings a file of version i+1 to version i+2. There is none
// yet: version 1 is the first. To change the format: raise version, append a
// function here that moves and renames fields in the tree, and keep
// testdata/full.yaml as it was in a test that it still reads as the same scheme.
var migrations []migration

// Words of the file for the enumerations; the position is the value.
var (
	earthingWords = []string{"unknown", "TN-S", "TN-C-S", "TT"}
	supportWords  = []string{"clipped", "buried", "duct", "structure", "tree", "indoors"}
	sideWords     = []string{"any", "primary", "secondary", "far end"}
	supplyWords   = []string{"spur", "own way"}
)

// supportWanted is what a leg without support is told, ready for all legs.
var supportWanted = oneOf(supportWords)

// readVersion checks the first field and returns the version.
func readVersion(top node) (int, error) {
	if top.y.shape != mapping || len(top.y.items) < 2 {
		top.fail(top.found(), `a scheme that starts with "duskwire: 1"`)
		return 0, top.log.first()
	}
	key, val := &top.y.items[0], &top.y.items[1]
	n := node{y: val, log: top.log, field: "duskwire"}
	if key.text != "duskwire" {
		n.y, n.field = key, ""
		n.fail("the field "+strconv.Quote(key.text), `"duskwire: 1" as the first field`)
		return 0, top.log.first()
	}
	v, err := strconv.Atoi(val.text)
	switch {
	case err != nil || v < 1 || val.shape != scalar:
		n.fail(n.found(), "a file version from 1 to "+strconv.Itoa(version))
	case v > version:
		n.failHint("file version "+val.text, "at most "+strconv.Itoa(version), "written by a newer version of the program; this one reads up to "+strconv.Itoa(version))
	}
	return v, top.log.first()
}

// migrate brings the tree from version v to version to by the table.
func migrate(top *tree, v, to int, table []migration) error {
	for ; v < to; v++ {
		if err := table[v-1](top); err != nil {
			return err
		}
	}
	return nil
}

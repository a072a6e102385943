package file

import (
	"gopkg.in/yaml.v3"
)

// shape says what a value of a file is.
type shape uint8

const (
	scalar shape = iota + 1
	mapping
	sequence
)

// tree is one value of a file with all that is in it. The fields of a mapping
// stand in items as key, value, key, value.
type tree struct {
	shape shape
	plain bool // a scalar written without quotes, which YAML may take for more than a text
	line  int32
	text  string // of a scalar
	items []tree
	later *body // of a list that is not scanned yet; see quick
}

// isNull reports whether YAML takes the scalar for no value.
func (t *tree) isNull() bool {
	if t.shape != scalar || !t.plain {
		return false
	}
	switch t.text {
	case "", "~", "null", "Null", "NULL":
		return true
	}
	return false
}

// isText reports whether YAML takes the scalar for a text.
func (t *tree) isText() bool {
	return t.shape == scalar && (!t.plain || (&yaml.Node{Kind: yaml.ScalarNode, Value: t.text}).ShortTag() == "!!str")
}

// quoted are the styles in which every scalar is a text.
const quoted = yaml.SingleQuotedStyle | yaml.DoubleQuotedStyle | yaml.LiteralStyle | yaml.FoldedStyle

// treeOf turns what the library has read into a tree, and refuses constructs
// of YAML that we do not use.
func treeOf(log *problems, y *yaml.Node, depth int) tree {
	t := tree{line: int32(y.Line), text: y.Value, plain: y.Style&quoted == 0}
	n := node{y: &t, log: log}
	switch {
	case depth > maxDepth:
		n.fail("nesting deeper than "+plainFloat(maxDepth), "a flat file")
		return t
	case y.Kind == yaml.AliasNode:
		n.fail("an alias", "the value itself")
		return t
	case y.Anchor != "":
		n.fail("an anchor", "a plain value")
		return t
	case y.Style&yaml.TaggedStyle != 0:
		n.fail("an explicit type", "a plain value")
		return t
	}
	switch y.Kind {
	case yaml.MappingNode:
		t.shape = mapping
	case yaml.SequenceNode:
		t.shape = sequence
	default:
		t.shape = scalar
		return t
	}
	t.items = make([]tree, len(y.Content))
	for i, child := range y.Content {
		t.items[i] = treeOf(log, child, depth+1)
	}
	return t
}

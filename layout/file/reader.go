package file

import (
	"path/filepath"

	"duskwire/assets"
	"duskwire/calc/check"
	"duskwire/layout/doc"
)

const example = "examples/townhouse.yaml" // opened when no file is named

// Reader reads schemes against one stock book and one list of rule sets.
type Reader struct {
	Stock doc.Stock
	Rules []*check.Rules
}

// NewReader returns a reader with what Shipped returns for the same paths.
func NewReader(stockPath, rulesPath string) (*Reader, error) {
	stock, rules, err := Shipped(stockPath, rulesPath)
	if err != nil {
		return nil, err
	}
	return &Reader{Stock: stock, Rules: rules}, nil
}

// Text reads a scheme from a text that errors call by name; see ReadScheme.
func (r *Reader) Text(name string, data []byte) (*doc.Scheme, error) {
	return ReadScheme(name, data, r.Stock, Keys(r.Rules)...)
}

// Load reads a scheme file, the example when path is ""; see LoadScheme.
func (r *Reader) Load(path string) (*doc.Scheme, error) {
	if path == "" {
		return r.Example()
	}
	return LoadScheme(path, r.Stock, Keys(r.Rules)...)
}

// Example reads the example that comes with the program.
func (r *Reader) Example() (*doc.Scheme, error) {
	data, err := assets.FS.ReadFile(example)
	if err != nil {
		return nil, err
	}
	return r.Text(filepath.Base(example), data)
}

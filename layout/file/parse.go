// Package file reads and writes everything that Duskwire keeps in YAML: the
// scheme file, and the rule sets and stock book of the assets. Reading is
// strict: what is not understood is an error with its line, never a guess.
// No other package touches the YAML library, so that it can be exchanged.
package file

import (
	"bytes"
	"errors"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Limits on what is read at all.
const (
	maxBytes = 16 << 20
	maxDepth = 32
)

// parseYAML checks the raw bytes and returns the top node of the one document
// in them. Anchors, aliases and explicit types are refused: a scheme needs
// none, and they are how a small file grows into a huge one.
func parseYAML(name string, data []byte) (node, error) {
	log := &problems{file: name}
	top := node{log: log}
	if err := checkBytes(name, data); err != nil {
		return top, err
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if t, ok := scan(string(data), false); ok {
		top.y = &t
		return top, nil
	}
	return parseAll(top, data)
}

// parseAll reads a file with the library, which knows all of YAML.
func parseAll(top node, data []byte) (node, error) {
	name, log := top.log.file, top.log
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var doc, more yaml.Node
	if err := dec.Decode(&doc); err != nil {
		return top, syntaxError(name, err)
	}
	if len(doc.Content) != 1 {
		return top, &Error{File: name, Found: "an empty file", Expected: "a map of fields"}
	}
	if err := dec.Decode(&more); err == nil {
		return top, &Error{File: name, Line: more.Line, Found: "a second document", Expected: "one document in a file"}
	} else if !errors.Is(err, io.EOF) {
		return top, syntaxError(name, err)
	}
	t := treeOf(log, doc.Content[0], 1)
	top.y = &t
	return top, log.first()
}

// checkBytes refuses what must not reach the parser.
func checkBytes(name string, data []byte) error {
	if len(data) > maxBytes {
		return &Error{File: name, Found: "more than 16 MiB", Expected: "a file of at most 16 MiB"}
	}
	if len(bytes.TrimSpace(data)) == 0 {
		return &Error{File: name, Found: "an empty file", Expected: "a map of fields"}
	}
	for line, rest := 1, data; len(rest) > 0; line++ {
		text := rest
		if i := bytes.IndexByte(rest, '\n'); i >= 0 {
			text, rest = rest[:i], rest[i+1:]
		} else {
			rest = nil
		}
		if !utf8.Valid(text) {
			return &Error{File: name, Line: line, Found: "bytes that are not UTF-8", Expected: "text in UTF-8"}
		}
		if bytes.IndexByte(text, '\t') >= 0 {
			return &Error{File: name, Line: line, Found: "a tab", Expected: "spaces"}
		}
	}
	return nil
}

// syntaxError puts the parser's complaint into our form. It reads
// "yaml: line 12: did not find expected ..."; the line may be missing.
func syntaxError(name string, err error) error {
	if errors.Is(err, io.EOF) {
		return &Error{File: name, Found: "an empty file", Expected: "a map of fields"}
	}
	e := &Error{File: name, Expected: "YAML"}
	text := strings.TrimPrefix(err.Error(), "yaml: ")
	if rest, ok := strings.CutPrefix(text, "line "); ok {
		if number, words, ok := strings.Cut(rest, ": "); ok {
			if n, err := strconv.Atoi(number); err == nil {
				e.Line, text = n, words
			}
		}
	}
	text = strings.Join(strings.Fields(text), " ")
	e.Found = "text that cannot be read (" + text + ")"
	return e
}

package file

import (
	"bytes"
	"fmt"
	"strconv"

	"duskwire/layout/doc"
)

// fragmentVersion is the version of the clipboard form that is written.
const fragmentVersion = 1

// Limits on a fragment: a text that is pasted comes from anywhere.
const (
	maxFragment = 4 << 20
	maxPasted   = 5000 // entities
)

const fragmentKey = "duskwire-fragment"

// WriteFragment returns a fragment as the text that goes on the clipboard: the
// sections of a scheme file behind another first field, and the list of the
// things left behind that ends of runs are on. One that could not be read
// again is refused.
func WriteFragment(f *doc.Fragment) ([]byte, error) {
	if list := fragmentProblems(f); len(list) > 0 {
		return nil, fmt.Errorf("this part cannot be copied: %w", list[0])
	}
	if n := countEntities(f.Scheme); n > maxPasted {
		return nil, fmt.Errorf("this part cannot be copied: found %d things, expected at most %d", n, maxPasted)
	}
	w := &writer{}
	w.line(0, fragmentKey, strconv.Itoa(fragmentVersion))
	w.text(0, "title", f.Title)
	w.sections(f.Scheme)
	if len(f.Outside) > 0 {
		w.line(0, "outside", "")
	}
	for _, o := range f.Outside {
		w.dash = true
		w.line(2, "id", written(string(o.ID)))
		w.line(2, "tag", written(o.Tag))
		w.line(2, "kind", o.Kind.String())
		w.place(o.At)
	}
	if w.Len() > maxFragment {
		return nil, fmt.Errorf("this part cannot be copied: it is longer than 4 MiB as text")
	}
	return w.Bytes(), nil
}

// fragmentHead is what a fragment lacks to be checked as a scheme.
func fragmentHead(f *doc.Fragment) *doc.Scheme {
	s := f.Bare()
	s.Title, s.Rules, s.Plan = f.Title, "fragment", doc.New("").Plan
	return s
}

func fragmentProblems(f *doc.Fragment) []*doc.Problem { return doc.Problems(fragmentHead(f)) }

func countEntities(s *doc.Scheme) int {
	n := 0
	doc.Each(s, func(doc.Entity, doc.Kind) { n++ })
	return n
}

// IsFragment reports whether a text means to be a fragment: it need not be a
// right one.
func IsFragment(data []byte) bool {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	return bytes.HasPrefix(bytes.TrimSpace(data[:min(len(data), 4096)]), []byte(fragmentKey+":"))
}

// ReadFragment reads the text of a fragment. name is only for messages; stock
// is the stock book of the scheme that it shall go into, own items included.
// Nothing that comes with a clipboard is trusted: the text is limited to 4 MiB
// and 5,000 things and checked like a file. The error is of type *Error and the
// first in the order of the text.
func ReadFragment(name string, data []byte, stock doc.Stock) (*doc.Fragment, error) {
	if len(data) > maxFragment {
		return nil, &Error{File: name, Found: "more than 4 MiB", Expected: "a part of a scheme of at most 4 MiB"}
	}
	if !IsFragment(data) {
		return nil, &Error{File: name, Found: "something else", Expected: `a part of a scheme, a text that starts with "` + fragmentKey + `: 1"`}
	}
	top, err := parseYAML(name, data)
	if err != nil {
		return nil, err
	}
	r := &reader{log: top.log, spots: map[spot]node{}, ids: map[doc.ID]node{}}
	o := top.object()
	if v := o.need(fragmentKey, "a version").whole(1, 1000000); v > fragmentVersion {
		o.get(fragmentKey).failHint("version "+strconv.Itoa(v), "at most "+strconv.Itoa(fragmentVersion), "copied by a newer version of the program")
	}
	f := &doc.Fragment{Title: o.text("title"), Scheme: &doc.Scheme{}}
	r.spots[spot{}] = o.node
	r.sections(f.Scheme, o)
	f.Outside = r.outside(o.list("outside"))
	o.done()
	if err := top.log.first(); err != nil {
		return nil, err
	}
	if n := countEntities(f.Scheme); n > maxPasted || n == 0 {
		o.fail(strconv.Itoa(n)+" things", "from 1 to "+strconv.Itoa(maxPasted))
		return nil, top.log.first()
	}
	r.check(fragmentHead(f), stock)
	if err := top.log.first(); err != nil {
		return nil, err
	}
	return f, nil
}

// outside reads the things that were left behind.
func (r *reader) outside(list []node) []doc.Outside {
	var words []string
	for _, k := range doc.Kinds {
		if k.Joinable() {
			words = append(words, k.String())
		}
	}
	kinds := map[string]doc.Kind{}
	for _, k := range doc.Kinds {
		kinds[k.String()] = k
	}
	out := make([]doc.Outside, 0, min(len(list), maxPasted))
	for i, n := range list {
		o := n.within("thing left behind " + strconv.Itoa(i+1)).object()
		id := doc.ID(o.needText("id"))
		e := doc.Outside{
			ID: id, Tag: o.needText("tag"),
			Kind: kinds[words[o.need("kind", oneOf(words)).word(words)]], At: place(o),
		}
		o.done()
		if id != "" && r.ownID(o.get("id"), id) {
			out = append(out, e)
		}
	}
	return out
}

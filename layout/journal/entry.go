package journal

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// Entry says what a kept state is.
type Entry struct {
	Form  int       `json:"duskwire_journal"` // of this file
	Path  string    `json:"path"`             // of the scheme's file, "" for none
	Title string    `json:"title"`
	Lamps int       `json:"lamps"`
	Time  time.Time `json:"time"` // of the last edit in it
	PID   int       `json:"pid"`
	Hash  string    `json:"sha256"` // of the scheme's text
	Bytes int       `json:"bytes"`  // of the same
	// Saved is the hash of what saving to Path writes, where that is another text:
	// a file names its picture and photometric files from its own folder. "" otherwise.
	Saved string `json:"saved_sha256,omitempty"`
}

const (
	form      = 1
	mostBytes = 32 << 20 // twice what a scheme file may have
)

func entryOf(s *doc.Scheme, path string, text []byte, at time.Time) Entry {
	e := Entry{
		Form: form, Path: path, Title: s.Title, Lamps: s.Lamps.Len(), Time: at, PID: os.Getpid(),
		Hash: Hash(text), Bytes: len(text),
	}
	if path != "" && (s.Plan.Underlay.File != "" || len(s.Lights) > 0) {
		if saved, err := file.SchemeText(path, s); err == nil {
			e.Saved = Hash(saved)
		}
	}
	return e
}

// SavedAs reports whether a scheme file with this text holds the work.
func (e Entry) SavedAs(text []byte) bool {
	h := Hash(text)
	return h == e.Hash || h == e.Saved
}

// Hash names the text of a scheme.
func Hash(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// Name says what the work belongs to: its file, or what stands for it.
func (e Entry) Name() string {
	switch {
	case e.Path != "":
		return filepath.Base(e.Path)
	case e.Title != "":
		return e.Title + " (no file yet)"
	}
	return "a scheme without name or file"
}

// Words tells of an entry in one sentence, seen from now.
func (e Entry) Words(now time.Time) string {
	lamps := " lamps"
	if e.Lamps == 1 {
		lamps = " lamp"
	}
	return "Work from " + When(e.Time, now) + " that was not saved: " + e.Name() + ", " + strconv.Itoa(e.Lamps) + lamps + "."
}

// When is a time of day, with the day when that is another one.
func When(t, now time.Time) string {
	t = t.In(now.Location())
	if t.Format(time.DateOnly) == now.Format(time.DateOnly) {
		return t.Format("15:04")
	}
	return t.Format("15:04 on 2 January 2006")
}

// encode puts an entry, on one line, before the text of its scheme.
func encode(e Entry, text []byte) ([]byte, error) {
	head, err := json.Marshal(e)
	if err != nil {
		return nil, err
	}
	return append(append(head, '\n'), text...), nil
}

// decode is the way back; it refuses what is torn.
func decode(data []byte) (Entry, []byte, error) {
	if len(data) > mostBytes {
		return Entry{}, nil, fmt.Errorf("found more than %d MB", mostBytes>>20)
	}
	head, text, ok := bytes.Cut(data, []byte("\n"))
	var e Entry
	if !ok || json.Unmarshal(head, &e) != nil {
		return Entry{}, nil, fmt.Errorf("line 1: found no description of the work")
	}
	if e.Form != form {
		return Entry{}, nil, fmt.Errorf("line 1: found form %d, expected %d", e.Form, form)
	}
	if len(text) != e.Bytes {
		return Entry{}, nil, fmt.Errorf("found %d bytes of the scheme, expected %d", len(text), e.Bytes)
	}
	if Hash(text) != e.Hash {
		return Entry{}, nil, fmt.Errorf("the scheme does not fit its checksum")
	}
	return e, text, nil
}

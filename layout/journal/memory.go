package journal

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"duskwire/layout/file"
)

// Memory is what the program remembers from one start to the next.
type Memory struct {
	Recent []string `json:"recent,omitempty"` // scheme files, the last one first
	Folder string   `json:"folder,omitempty"` // where the file sheet was last
	// Width and Height of the window and Panel and Tray, the places of its
	// dividers as shares of the width; 0 for never moved.
	Width  float32 `json:"width,omitempty"`
	Height float32 `json:"height,omitempty"`
	Panel  float64 `json:"panel,omitempty"`
	Tray   float64 `json:"tray,omitempty"`

	// Scale of a unit when the size was remembered, 0 for 1; Folded is a panel
	// that the person folded away, NoSteps a closed strip of first steps.
	Scale   float32 `json:"scale,omitempty"`
	Folded  bool    `json:"folded,omitempty"`
	NoSteps bool    `json:"no_steps,omitempty"`

	Dark     bool `json:"dark,omitempty"`
	Cautions bool `json:"cautions_read,omitempty"`
}

// mostRecent is how many files are remembered.
const mostRecent = 10

const memoryName = "remembered.json"

// Opened puts a file at the head of the recent ones.
func (m *Memory) Opened(path string) {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	m.Forget(path)
	m.Recent = slices.Insert(m.Recent, 0, path)
	m.Recent = m.Recent[:min(len(m.Recent), mostRecent)]
	m.Folder = filepath.Dir(path)
}

// Forget takes a file from the recent ones.
func (m *Memory) Forget(path string) {
	m.Recent = slices.DeleteFunc(slices.Clone(m.Recent), func(p string) bool { return p == path })
}

// Recall reads what was remembered. What cannot be read counts as nothing
// remembered, with the reason.
func Recall(state string) (Memory, error) {
	path := filepath.Join(state, memoryName)
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return Memory{}, nil
	}
	if err != nil {
		return Memory{}, err
	}
	if !info.Mode().IsRegular() || info.Size() > memoryBytes { // to open a pipe is to wait for ever
		return Memory{}, fmt.Errorf("%s: found something else, expected a small file", path)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return Memory{}, err
	}
	var m Memory
	if err := json.Unmarshal(data, &m); err != nil {
		return Memory{}, fmt.Errorf("%s: %w", path, err)
	}
	m.Recent = slices.DeleteFunc(m.Recent, func(p string) bool { return !pathlike(p) })
	m.Recent = m.Recent[:min(len(m.Recent), mostRecent)]
	if !pathlike(m.Folder) {
		m.Folder = ""
	}
	if !(m.Scale >= 0.1 && m.Scale <= 20) {
		m.Scale = 0
	}
	if !(m.Width > 0 && m.Width < 1e5 && m.Height > 0 && m.Height < 1e5) {
		m.Width, m.Height = 0, 0
	}
	if !(m.Panel > 0 && m.Panel < 1) {
		m.Panel = 0
	}
	if !(m.Tray > 0 && m.Tray < 1) {
		m.Tray = 0
	}
	return m, nil
}

// memoryBytes is far more than a memory needs.
const memoryBytes = 1 << 20

// pathlike reports whether a text may be the full path of a file: those of a
// menu are shown as they are.
func pathlike(p string) bool {
	return filepath.IsAbs(p) && len(p) <= 4096 && !strings.ContainsFunc(p, unicode.IsControl)
}

// How often and how long the lock of the memory is waited for. A process holds
// it for a few milliseconds; after that we write without it.
const (
	memoryTries = 20
	memoryWait  = 10 * time.Millisecond
)

// Remember changes what is remembered and returns it. It reads what is there
// anew, because another window may have added to it.
func Remember(state string, change func(*Memory)) (Memory, error) {
	if err := os.MkdirAll(state, 0o700); err != nil {
		return Memory{}, err
	}
	for range memoryTries {
		lock, err := tryLock(filepath.Join(state, memoryName+".lock"))
		if err == nil {
			defer lock.Close()
			break
		}
		time.Sleep(memoryWait)
	}
	m, _ := Recall(state) // a torn memory starts anew
	change(&m)
	data, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return m, err
	}
	return m, file.WriteFile(filepath.Join(state, memoryName), append(data, '\n'))
}

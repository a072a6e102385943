package file

import (
	"runtime"
	"strings"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// A folded text of very many lines is put together once: done line by line its
// memory, and time, would grow with the square of the lines (1.6 GB here).
func TestFoldedTextOfManyLines(t *testing.T) {
	text := "a: >\n" + strings.Repeat("  b\n", 40000)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	got, ok := scan(text, false)
	runtime.ReadMemStats(&after)
	if !ok || len(got.items) != 2 || got.items[1].text != strings.Repeat("b ", 39999)+"b\n" {
		t.Fatalf("not scanned as it stands")
	}
	if used := (after.TotalAlloc - before.TotalAlloc) >> 20; used > 16 {
		t.Errorf("took %d MB for a text of 160 kB", used)
	}
}

// A scheme that is longer than what is read is not written either: it could
// not be opened again.
func TestTooLongToBeOpenedIsNotWritten(t *testing.T) {
	ring := make([]geom.Point, 5000)
	for i := range ring {
		ring[i] = geom.Point{X: geom.Length(i)*1234567 + 1, Y: geom.Length(i*i) + 1}
	}
	s := doc.New("uk-18")
	var lines []*doc.Line
	for i := range 200 {
		id := doc.ID("W" + string(rune('A'+i%26)) + strings.Repeat("x", i/26))
		lines = append(lines, &doc.Line{ID: id, Tag: string(id), Kind: doc.LineKinds[0], Path: ring})
	}
	s.Lines = doc.NewSet(lines...)
	data, err := WriteScheme(s)
	if err == nil || !strings.Contains(err.Error(), "expected at most 16") {
		t.Errorf("%d bytes, error %v", len(data), err)
	}
}

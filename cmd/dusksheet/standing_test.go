package main

import (
	"bytes"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// TestStandingFile: an eye point by tag, by name and by figures gives the same
// bytes, and a picture.
func TestStandingFile(t *testing.T) {
	var first []byte
	for i, words := range [][]string{{"--from", "V1"}, {"--from", "From the kitchen door"}, {"--eye", "3.5,0.3,1.6", "--look", "5"}} {
		out := filepath.Join(t.TempDir(), "v.png")
		var said, failed bytes.Buffer
		if code := run(append([]string{"dusk", example, "--out", out}, words...), &said, &failed); code != exitClean || !bytes.Contains(said.Bytes(), []byte("standing view written")) {
			t.Fatalf("%v: exit %d, %s%s", words, code, said.String(), failed.String())
		}
		data, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		if i == 0 {
			first = data
			img, err := png.Decode(bytes.NewReader(data))
			if err != nil || img.Bounds().Dx() != 1280 {
				t.Fatalf("%v, %v", img.Bounds(), err)
			}
		} else if !bytes.Equal(first, data) {
			t.Errorf("%v gives another picture", words)
		}
	}
}

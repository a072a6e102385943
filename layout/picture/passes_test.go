package picture

import (
	"bytes"
	"strings"
	"testing"
)

// A file that goes over its pixels again and again is refused before it is
// decoded; what stands behind the end of a picture is not counted.
func TestPassesAreCounted(t *testing.T) {
	whole := jpegOf(t, quarters(64, 64))
	at := bytes.Index(whole, []byte{0xFF, 0xDA})
	head, scan := whole[:at], whole[at:len(whole)-2]
	with := func(n int, behind string) []byte {
		return append(append(append(bytes.Clone(head), bytes.Repeat(scan, n)...), 0xFF, 0xD9), behind...)
	}
	for _, c := range []struct {
		name  string
		data  []byte
		count int
		fails bool
	}{
		{"as encoded", whole, 1, false},
		{"as many as may be", with(mostPasses, ""), mostPasses, false},
		{"one more", with(mostPasses+1, ""), mostPasses + 1, true},
		{"a film behind the picture", with(1, strings.Repeat("\xFF\xDA\x00\x08abcdef", 500)), 1, false},
	} {
		if n := passes(c.data); n != c.count {
			t.Errorf("%s: %d passes, expected %d", c.name, n, c.count)
		}
		_, err := read(write(t, "a.jpg", c.data))
		if refused := err != nil && strings.Contains(err.Error(), "passes"); refused != c.fails {
			t.Errorf("%s: error %v", c.name, err)
		}
	}
	for n := range whole { // cut off anywhere: no more than there is, and it ends
		if passes(whole[:n]) > 1 {
			t.Fatalf("%d passes in %d bytes", passes(whole[:n]), n)
		}
	}
}

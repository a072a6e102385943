package tool

import (
	"testing"

	"duskwire/layout/geom"
)

func TestEntryRead(t *testing.T) {
	tests := []struct {
		text    entry
		length  geom.Length
		degrees float64
		turned  bool
		fails   bool
	}{
		{text: "3.2", length: 3200 * geom.Millimetre},
		{text: "3.2m", length: 3200 * geom.Millimetre},
		{text: "3.2 m", length: 3200 * geom.Millimetre},
		{text: "600mm", length: 600 * geom.Millimetre},
		{text: "45cm", length: 450 * geom.Millimetre},
		{text: "3.2m<45", length: 3200 * geom.Millimetre, degrees: 45, turned: true},
		{text: "3.2<-90", length: 3200 * geom.Millimetre, degrees: -90, turned: true},
		{text: "1mm", length: geom.Millimetre},
		{text: "10000m", length: longest},
		{text: "10001m", fails: true},
		{text: "0", fails: true},
		{text: "0.5mm", fails: true},
		{text: "-3", fails: true},
		{text: "3..2", fails: true},
		{text: "m", fails: true},
		{text: "3m<", fails: true},
		{text: "3m<400", fails: true},
		{text: "3mc", fails: true},
	}
	for _, tt := range tests {
		l, d, turned, err := tt.text.read()
		if tt.fails {
			if err == nil {
				t.Errorf("%q: read as %v, expected an error", tt.text, l)
			}
			continue
		}
		if err != nil || l != tt.length || d != tt.degrees || turned != tt.turned {
			t.Errorf("%q: got %v %v %v %v", tt.text, l, d, turned, err)
		}
	}
}

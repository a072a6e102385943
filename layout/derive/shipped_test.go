package derive_test

import (
	"testing"

	"duskwire/calc/network"
	"duskwire/layout/file"
)

// A wound source stands above its nominal voltage until it is loaded, so each
// shipped one asks for half its rating (trade notes section 4: loaded at least
// half; trade habit). Without it a single small lamp on it would raise nothing.
func TestWoundSourcesAskForALoad(t *testing.T) {
	stock, _, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	wound := 0
	for _, s := range stock.Sources {
		cv := s.Converter
		if cv.Kind() != network.Wound {
			continue // an electronic one says what it needs itself
		}
		wound++
		if least, half := float64(cv.MinimumLoad), float64(cv.Rated)/2; least < half-1 || least > half {
			t.Errorf("%s asks for %v W of %v", s.Key, least, cv.Rated)
		}
	}
	if wound == 0 {
		t.Error("no wound source in the stock book")
	}
}

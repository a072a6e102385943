package doc

import (
	"reflect"
	"testing"

	q "duskwire/calc/quantity"
)

// What is written is read again; what is wrong is refused.
func TestMoneyTexts(t *testing.T) {
	for text, want := range map[string]Band{"31.5": {3150, 3150}, "28 to 35": {2800, 3500}, "28-35.25": {2800, 3525}, "0.01 – 100000": {1, 10_000_000}} {
		if got, err := ParseBand(text); err != nil || got != want {
			t.Errorf("%q: %v, %v, want %v", text, got, err, want)
		} else if again, err := ParseBand(got.String()); err != nil || again != got {
			t.Errorf("%q is written %q", text, got)
		}
	}
	for _, bad := range []string{"", "0", "-3", "35 to 28", "1.234", "1e3", "£3", "3 to", "1,50", "100000.01", "NaN"} {
		if got, err := ParseBand(bad); err == nil {
			t.Errorf("%q was taken as %v", bad, got)
		}
	}
	for text, want := range map[string]Tariff{"0.2735": 27.35, "1": 100, "0.3 a kWh": 30} {
		if got, err := ParseTariff(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for text, want := range map[string]Off{"22:00": {true, false, 1320}, "23": {true, false, 1380}, " 7 ": {true, false, 420}, "0": {Set: true}, "24": {Set: true}, "0:05": {true, false, 5}, "midnight": {Set: true}, "Dawn": {Set: true, Dawn: true}, "usual": {}} {
		if got, err := ParseOff(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, bad := range []string{"24:30", "25", "230", "2.5", "+7", ":", "7:", ":30", "12:60", "12:5", "-1:00", "dusk", "1:2:3"} {
		if got, err := ParseOff(bad); err == nil {
			t.Errorf("%q was taken as %v", bad, got)
		}
	}
	for text, want := range map[string]Degrees{"51.5": 51.5, "51.5°": 51.5, "33.9 S": -33.9, "51.5 deg": 51.5, "-33.9": -33.9, "−2.5°": -2.5} {
		if got, err := ParseLatitude(text); err != nil || got != want {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, bad := range []string{"91", "1 W", "-5 S", "five", "5.1234567"} {
		if got, err := ParseLatitude(bad); err == nil {
			t.Errorf("%q was taken as %v", bad, got)
		}
	}
}

// The line of offers is read back as it was written.
func TestOffers(t *testing.T) {
	want := Price{Cable: "c", Coils: []Coil{{25, q.Some(Money(3150))}, {100, q.Some(Money(11000))}}, Metre: q.Some(Money(145)), Left: []q.Metre{8.4}}
	text := "25 m at 31.50, 100 m at 110.00, metre at 1.45, left 8.4 m"
	if got := want.Offers(); got != text {
		t.Errorf("written %q", got)
	}
	if got, err := ParseOffers("c", "25 at 31.5; 100 m at 110, metre at 1.45, left 8.4"); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("read %+v, %v", got, err)
	}
	for _, bad := range []string{"25 m at 31.50, 100 m", "metre at 1.45, 25 m", "25 W", "left 8 m at 3", "metre", "-3 m", "metre at 1, metre at 2", "25 m at x"} {
		if got, err := ParseOffers("c", bad); err == nil {
			t.Errorf("%q was taken as %+v", bad, got)
		}
	}
}

// The word for the money stands in headings and on lines of print: what cannot be
// seen in it, such as a letter that turns what follows around, is refused.
func TestCurrency(t *testing.T) {
	for word, good := range map[string]bool{"pounds": true, "£": true, "kr": true, "cash\u202eabc": false, "a\u200bb": false, "a\x1b[31m": false, "a\nb": false} {
		s := New("uk-18")
		s.List.Currency = word
		if err := Validate(s); (err == nil) != good {
			t.Errorf("%q: %v", word, err)
		}
	}
}

package quantity

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestString(t *testing.T) {
	for _, row := range []struct {
		got  fmt.Stringer
		want string
	}{
		{Volt(12), "12 V"}, {Volt(9.794), "9.79 V"}, {Volt(-0.001), "0 V"}, {Volt(-1.5), "-1.5 V"}, {Volt(230.006), "230.01 V"},
		{Ampere(0.104348), "0.104 A"}, {Ampere(16), "16 A"}, {Ampere(0.03), "0.03 A"}, {Ampere(6000), "6000 A"},
		{Ohm(0.35), "0.35 Ω"}, {Ohm(1.0088), "1.009 Ω"}, {Ohm(180), "180 Ω"},
		{OhmPerMetre(0.0121), "12.1 mΩ/m"}, {OhmPerMetre(0.00461), "4.61 mΩ/m"},
		{Watt(12), "12 W"}, {Watt(0.04), "0 W"}, {Watt(4.45), "4.5 W"}, {VoltAmpere(60), "60 VA"},
		{Metre(12.5), "12.5 m"}, {Metre(0.6), "0.6 m"}, {Metre(100), "100 m"},
		{SquareMillimetres(1.5), "1.5 mm²"}, {SquareMillimetres(0.75), "0.75 mm²"},
		{Celsius(70), "70 °C"}, {Celsius(-5.5), "-5.5 °C"},
		{Second(0.4), "0.4 s"}, {AmpereSquaredSecond(15000.4), "15000 A²s"},
		{Lumen(300), "300 lm"}, {Lux(1.26), "1.3 lx"}, {KelvinMetrePerWatt(2.5), "2.5 K·m/W"},
	} {
		if row.got.String() != row.want {
			t.Errorf("%T %g: %q, want %q", row.got, row.got, row.got.String(), row.want)
		}
	}
	for ratio, want := range map[float64]string{0.05: "5 %", 0.0002: "0.02 %", 0.15583: "15.58 %"} {
		if got := Percent(ratio); got != want {
			t.Errorf("Percent(%g) = %q, want %q", ratio, got, want)
		}
	}
}

// reader is a Parse function of any quantity, as a plain number.
type reader func(string) (float64, error)

func plain[T ~float64](parse func(string) (T, error)) reader {
	return func(s string) (float64, error) { v, err := parse(s); return float64(v), err }
}

var readers = map[string]reader{
	"volt": plain(ParseVolt), "ampere": plain(ParseAmpere), "ohm": plain(ParseOhm), "ohm per metre": plain(ParseOhmPerMetre),
	"watt": plain(ParseWatt), "volt-ampere": plain(ParseVoltAmpere), "metre": plain(ParseMetre), "square metre": plain(ParseSquareMetre),
	"second": plain(ParseSecond), "celsius": plain(ParseCelsius), "lumen": plain(ParseLumen), "soil": plain(ParseSoil),
}

func TestParse(t *testing.T) {
	for _, row := range []struct {
		what, text string
		want       float64
	}{
		{"volt", "12 V", 12}, {"volt", "800mV", 0.8}, {"volt", "0.4 kV", 400}, {"volt", " 230 V ", 230},
		{"ampere", "30 mA", 0.03}, {"ampere", "6 kA", 6000}, {"ampere", "+1.5A", 1.5},
		{"ohm", "0.35 Ω", 0.35}, {"ohm", "0.35 ohm", 0.35}, {"ohm", "350 mΩ", 0.35}, {"ohm", "1 kΩ", 1000},
		{"ohm per metre", "12.1 mΩ/m", 0.0121}, {"ohm per metre", "12.1 ohm/km", 0.0121}, {"ohm per metre", "0.0121 Ω/m", 0.0121},
		{"watt", "5 W", 5}, {"watt", "1.2kW", 1200}, {"watt", "300 mW", 0.3}, {"volt-ampere", "60 VA", 60},
		{"metre", "12.5 m", 12.5}, {"metre", "600mm", 0.6}, {"metre", "45 cm", 0.45}, {"metre", "0.1 km", 100}, {"metre", "1.2e1 m", 12}, {"metre", "-0.3 m", -0.3}, {"metre", ".5 m", 0.5},
		{"square metre", "1.5 mm²", 1.5e-6}, {"square metre", "2.5mm2", 2.5e-6}, {"square metre", "3 m²", 3},
		{"second", "40 ms", 0.04}, {"celsius", "20 °C", 293.15}, {"celsius", "-5 C", 268.15},
		{"lumen", "300 lm", 300}, {"lumen", "1.2 klm", 1200}, {"volt-ampere", "1 kVA", 1000}, {"soil", "2.5 K·m/W", 2.5},
	} {
		got, err := readers[row.what](row.text)
		if err != nil || math.Abs(got-row.want) > 1e-12*math.Max(1, math.Abs(row.want)) {
			t.Errorf("%s %q: %g, %v; want %g", row.what, row.text, got, err, row.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, row := range []struct{ what, text string }{
		{"metre", ""}, {"metre", "12.5"}, {"metre", "m"}, {"metre", "12,5 m"}, {"metre", "12.5 M"}, {"metre", "12.5 ft"},
		{"metre", "12.5 m wide"}, {"metre", "1e999 m"}, {"metre", "1e308 km"}, {"metre", "NaN m"}, {"metre", "Inf m"}, {"metre", "0x10 m"},
		{"metre", "1_000 m"}, {"metre", "--1 m"}, {"metre", "5 W"}, {"volt", "12 VA"}, {"volt", "12 v"}, {"ohm", "3 Ω/km"},
		{"second", "0.4 sec"}, {"celsius", "20 K"}, {"ampere", "1.5.2 A"}, {"watt", "\xff5 W"},
	} {
		_, err := readers[row.what](row.text)
		var bad *Error
		if !errors.As(err, &bad) {
			t.Errorf("%s %q: %v, want it refused", row.what, row.text, err)
			continue
		}
		if bad.Found != row.text || len(bad.Units) == 0 {
			t.Errorf("%s %q: error %+v", row.what, row.text, bad)
		}
	}
	_, err := ParseMetre("12.5")
	const want = `found "12.5", expected a length with one of the units m, mm, cm, km`
	if err == nil || err.Error() != want {
		t.Errorf("error %q, want %q", err, want)
	}
	const single = `found "120", expected a share from 0 to 100 with the unit %`
	if got := (&Error{Found: "120", Kind: "share from 0 to 100", Units: []string{"%"}}).Error(); got != single {
		t.Errorf("error %q, want %q", got, single)
	}
}

// What String writes, Parse reads back to within what String rounds off.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(-1e5, 1e5).Draw(t, "value")
		for _, row := range []struct {
			what  string
			text  fmt.Stringer
			value float64
			step  float64 // of the last digit written, SI
		}{
			{"volt", Volt(v), v, 1e-2}, {"ampere", Ampere(v), v, 1e-3}, {"ohm", Ohm(v), v, 1e-3},
			{"ohm per metre", OhmPerMetre(v), v, 1e-6}, {"watt", Watt(v), v, 0.1}, {"volt-ampere", VoltAmpere(v), v, 0.1},
			{"metre", Metre(v), v, 1e-2}, {"square metre", SquareMetre(v * 1e-6), v * 1e-6, 1e-8}, {"second", Second(v), v, 1e-3},
			{"celsius", Kelvin(v), v, 0.1}, {"lumen", Lumen(v), v, 1}, {"soil", KelvinMetrePerWatt(v), v, 1e-2},
		} {
			got, err := readers[row.what](row.text.String())
			if err != nil || math.Abs(got-row.value) > row.step*0.5001+1e-9 {
				t.Fatalf("%s: %g written %q read %g, %v", row.what, row.value, row.text, got, err)
			}
		}
	})
}

// Whatever is typed, reading ends in a finite number or in an Error that
// quotes it and names the units.
func FuzzParse(f *testing.F) {
	for _, s := range []string{"12 V", "800mV", "1e308 km", "-.5 m", "20 °C", "2.5 mm²", "", "e", "+ m", "\xc2", "Ω", "9e9e9 A"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for what, read := range readers {
			v, err := read(s)
			if err == nil {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("%s %q: %g", what, s, v)
				}
				continue
			}
			var bad *Error
			if !errors.As(err, &bad) || bad.Found != s || !strings.Contains(err.Error(), strings.Join(bad.Units, ", ")) {
				t.Errorf("%s %q: %v", what, s, err)
			}
		}
	})
}

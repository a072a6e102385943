package ui

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"duskwire/layout/scene"
	"duskwire/ui/panel"
)

// luminance is the relative luminance of sRGB, WCAG 2.1 definition.
func luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	lin := func(v uint32) float64 {
		s := float64(v) / 0xffff
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(r) + 0.7152*lin(g) + 0.0722*lin(b)
}

// contrast is the contrast ratio of WCAG 2.1, 1 to 21.
func contrast(a, b color.Color) float64 {
	x, y := luminance(a), luminance(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

func over(top, under color.Color) color.Color {
	t, ok := top.(color.NRGBA)
	if !ok || t.A == 0xff {
		return top
	}
	u := color.NRGBAModel.Convert(under).(color.NRGBA)
	mix := func(a, b uint8) uint8 { return uint8((int(a)*int(t.A) + int(b)*(255-int(t.A))) / 255) }
	return color.NRGBA{R: mix(t.R, u.R), G: mix(t.G, u.G), B: mix(t.B, u.B), A: 0xff}
}

func TestContrastFormula(t *testing.T) {
	// WCAG 2.1: black on white is 21:1.
	if got := contrast(color.White, color.Black); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white is %.3f, expected 21", got)
	}
}

// TestContrast holds every text colour to 4.5:1 on every ground it is used on
// (WCAG 2.1, success criterion 1.4.3), also when hovered, and the level marks
// and input borders to 3:1 (1.4.11).
func TestContrast(t *testing.T) {
	texts := []fyne.ThemeColorName{
		theme.ColorNameForeground, theme.ColorNamePlaceHolder, theme.ColorNameDisabled, theme.ColorNameError,
		theme.ColorNameHyperlink, panel.ColourStop, panel.ColourDecide, panel.ColourNote, panel.ColourHeld, panel.ColourQuiet,
	}
	grounds := []fyne.ThemeColorName{
		theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameMenuBackground,
		theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground,
	}
	for _, dark := range []bool{false, true} {
		th := NewTheme(dark)
		get := func(n fyne.ThemeColorName) color.Color { return th.Color(n, theme.VariantLight) }
		need := func(least float64, text, ground color.Color, what ...any) {
			if got := contrast(text, ground); got < least {
				t.Errorf("dark=%v %v: contrast %.2f, expected at least %.1f", dark, what, got, least)
			}
		}
		for _, g := range grounds {
			for _, x := range texts {
				need(4.5, get(x), get(g), x, "on", g)
			}
			need(4.5, get(theme.ColorNameForeground), over(get(theme.ColorNameHover), get(g)), "hovered on", g)
		}
		need(4.5, get(theme.ColorNameForeground), get(theme.ColorNameButton), "button")
		need(4.5, get(theme.ColorNameForegroundOnPrimary), get(theme.ColorNamePrimary), "primary button")
		need(4.5, get(theme.ColorNameForegroundOnError), get(theme.ColorNameError), "danger button")
		need(3, get(theme.ColorNameInputBorder), get(theme.ColorNameInputBackground), "input border")
		// The ring of the focus: its outer line on what lies about it, one of its two
		// lines on the button it lies on, and the lines on one another.
		for _, g := range append(grounds, theme.ColorNameButton) {
			need(3, get(panel.ColourRing), get(g), "ring on", g)
			need(3, get(panel.ColourRing), over(get(theme.ColorNameHover), get(g)), "ring hovered on", g)
		}
		need(3, get(panel.ColourRing), get(panel.ColourRingInner), "the two lines of the ring")
		for _, g := range []fyne.ThemeColorName{theme.ColorNamePrimary, theme.ColorNameError} {
			best := max(contrast(get(panel.ColourRing), get(g)), contrast(get(panel.ColourRingInner), get(g)))
			if best < 3 {
				t.Errorf("dark=%v: no line of the ring stands out on %s: %.2f", dark, g, best)
			}
		}
	}
}

// TestLevelColours: a finding has the colours of the plan, which are measured there
// for people who lack a kind of cone (layout/scene).
func TestLevelColours(t *testing.T) {
	for dark, p := range map[bool]*scene.Palette{false: scene.Light(), true: scene.Dark()} {
		th := NewTheme(dark)
		for name, want := range map[fyne.ThemeColorName]scene.Colour{panel.ColourStop: p.Stop, panel.ColourDecide: p.Decide,
			panel.ColourNote: p.Note, theme.ColorNameError: p.Stop} {
			if got := th.Color(name, theme.VariantLight); got != onPlan(want) {
				t.Errorf("dark=%v %s is %v, on the plan it is %v", dark, name, got, want)
			}
		}
	}
}

// TestFont checks that the text font is ours for every style a label uses, so
// that Ω ² ≤ ≥ → never depend on the machine's fonts.
func TestFont(t *testing.T) {
	th := NewTheme(false)
	for _, s := range []fyne.TextStyle{{}, {Bold: true}, {Italic: true}, {Bold: true, Italic: true}, {Monospace: true}} {
		if name := th.Font(s).Name(); len(name) < 3 || name[:3] != "Go-" {
			t.Errorf("style %+v uses %q", s, name)
		}
	}
}

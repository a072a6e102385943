package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gobolditalic"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"

	"duskwire/layout/scene"
	"duskwire/ui/panel"
)

// Theme is the look of the window. Its text font has Ω, ², ≤, ≥ and → on
// every machine, and every text colour has a contrast of at least 4.5:1 on
// the grounds it is used on (checked by a test), for work outdoors.
type Theme struct {
	base fyne.Theme
	dark bool
}

// NewTheme returns the light or the dark theme.
func NewTheme(dark bool) *Theme { return &Theme{base: theme.DefaultTheme(), dark: dark} }

// SetDark changes the colours in place. What is shown has to be refreshed; the
// toolkit need not be given another theme, which would make it read all fonts
// again and lay everything out several times.
func (t *Theme) SetDark(dark bool) { t.dark = dark }

// Dark reports which of the two it is.
func (t *Theme) Dark() bool { return t.dark }

var (
	regular    = fyne.NewStaticResource("Go-Regular.ttf", goregular.TTF)
	bold       = fyne.NewStaticResource("Go-Bold.ttf", gobold.TTF)
	italic     = fyne.NewStaticResource("Go-Italic.ttf", goitalic.TTF)
	boldItalic = fyne.NewStaticResource("Go-Bold-Italic.ttf", gobolditalic.TTF)
	mono       = fyne.NewStaticResource("Go-Mono.ttf", gomono.TTF)
)

// Font implements fyne.Theme with the Go fonts.
func (t *Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Monospace:
		return mono
	case s.Symbol:
		return t.base.Font(s)
	case s.Bold && s.Italic:
		return boldItalic
	case s.Bold:
		return bold
	case s.Italic:
		return italic
	}
	return regular
}

// Icon implements fyne.Theme. The toolkit keeps drawn icons by their names, so the
// names tell which colours they are drawn in.
func (t *Theme) Icon(n fyne.ThemeIconName) fyne.Resource {
	if r, ok := t.base.Icon(n).(fyne.ThemedResource); ok {
		return &icon{r, t}
	}
	return t.base.Icon(n)
}

// icon is an icon of the toolkit in the colours of the moment.
type icon struct {
	fyne.ThemedResource
	of *Theme
}

// Name implements fyne.Resource.
func (i *icon) Name() string {
	if i.of.dark {
		return "dark-" + i.ThemedResource.Name()
	}
	return i.ThemedResource.Name()
}

// Size implements fyne.Theme: a little tighter than usual, because the plan
// should have the window.
func (t *Theme) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameText:
		return 13
	case theme.SizeNameCaptionText:
		return 11
	case theme.SizeNameSubHeadingText:
		return 15
	case theme.SizeNameHeadingText:
		return 19
	case theme.SizeNamePadding:
		return 3
	case theme.SizeNameInnerPadding:
		return 6
	case theme.SizeNameInlineIcon:
		return 18
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius, theme.SizeNameButtonRadius:
		return 3
	case theme.SizeNameScrollBar:
		return 10
	case theme.SizeNameModalBlurRadius:
		return 0 // blurring the plan costs a frame and says nothing
	}
	return t.base.Size(n)
}

// Color implements fyne.Theme. The variant of the desktop is not asked: the
// electrician chooses by the light they stand in.
func (t *Theme) Color(n fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	table, variant := lightColours, theme.VariantLight
	if t.dark {
		table, variant = darkColours, theme.VariantDark
	}
	if c, ok := table[n]; ok {
		return c
	}
	return t.base.Color(n, variant)
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 0xff}
}

func rgba(v uint32, a uint8) color.NRGBA {
	c := rgb(v)
	c.A = a
	return c
}

// onPlan takes a colour from the palette of the plan, so that a finding has one
// colour wherever it is shown.
func onPlan(c scene.Colour) color.NRGBA { return color.NRGBA{R: c.R, G: c.G, B: c.B, A: 0xff} }

var lightColours = map[fyne.ThemeColorName]color.Color{
	theme.ColorNameBackground:          rgb(0xf1f2ef),
	theme.ColorNameForeground:          rgb(0x1b2126),
	theme.ColorNameInputBackground:     rgb(0xffffff),
	theme.ColorNameInputBorder:         rgb(0x7d858a),
	theme.ColorNameButton:              rgb(0xd0d8d6),
	theme.ColorNameDisabledButton:      rgb(0xe8eae6),
	theme.ColorNameDisabled:            rgb(0x5f676c),
	theme.ColorNamePlaceHolder:         rgb(0x5f676c),
	theme.ColorNamePrimary:             rgb(0x0b5c7a),
	theme.ColorNameForegroundOnPrimary: rgb(0xffffff),
	theme.ColorNameHyperlink:           rgb(0x0b5c7a),
	theme.ColorNameError:               onPlan(scene.Light().Stop),
	theme.ColorNameForegroundOnError:   rgb(0xffffff),
	theme.ColorNameWarning:             rgb(0x7a5200),
	theme.ColorNameSuccess:             rgb(0x00664c),
	theme.ColorNameSeparator:           rgb(0xc5cac4),
	theme.ColorNameMenuBackground:      rgb(0xfafbf9),
	theme.ColorNameOverlayBackground:   rgb(0xfafbf9),
	theme.ColorNameHeaderBackground:    rgb(0xe6e9e4),
	theme.ColorNameHover:               rgba(0x0b5c7a, 0x18),
	theme.ColorNamePressed:             rgba(0x0b5c7a, 0x30),
	theme.ColorNameFocus:               rgba(0x0b5c7a, 0x40),
	theme.ColorNameSelection:           rgba(0x0b5c7a, 0x30),
	theme.ColorNameScrollBar:           rgba(0x1b2126, 0x80),
	theme.ColorNameShadow:              rgba(0x000000, 0x3c),
	panel.ColourStop:                   onPlan(scene.Light().Stop),
	panel.ColourDecide:                 onPlan(scene.Light().Decide),
	panel.ColourNote:                   onPlan(scene.Light().Note),
	panel.ColourHeld:                   rgb(0x00664c),
	panel.ColourQuiet:                  rgb(0x51595e),
	panel.ColourRing:                   rgb(0x1b2126),
	panel.ColourRingInner:              rgb(0xffffff),
}

var darkColours = map[fyne.ThemeColorName]color.Color{
	theme.ColorNameBackground:          rgb(0x1c2125),
	theme.ColorNameForeground:          rgb(0xe9ecea),
	theme.ColorNameInputBackground:     rgb(0x12161a),
	theme.ColorNameInputBorder:         rgb(0x7f888e),
	theme.ColorNameButton:              rgb(0x3a434b),
	theme.ColorNameDisabledButton:      rgb(0x252b30),
	theme.ColorNameDisabled:            rgb(0x9aa3a8),
	theme.ColorNamePlaceHolder:         rgb(0x9aa3a8),
	theme.ColorNamePrimary:             rgb(0x6cc4e8),
	theme.ColorNameForegroundOnPrimary: rgb(0x10181c),
	theme.ColorNameHyperlink:           rgb(0x6cc4e8),
	theme.ColorNameError:               onPlan(scene.Dark().Stop),
	theme.ColorNameForegroundOnError:   rgb(0x1c1008),
	theme.ColorNameWarning:             rgb(0xf0c04c),
	theme.ColorNameSuccess:             rgb(0x5fd3ae),
	theme.ColorNameSeparator:           rgb(0x3b444a),
	theme.ColorNameMenuBackground:      rgb(0x252b30),
	theme.ColorNameOverlayBackground:   rgb(0x252b30),
	theme.ColorNameHeaderBackground:    rgb(0x262c32),
	theme.ColorNameHover:               rgba(0x6cc4e8, 0x20),
	theme.ColorNamePressed:             rgba(0x6cc4e8, 0x38),
	theme.ColorNameFocus:               rgba(0x6cc4e8, 0x48),
	theme.ColorNameSelection:           rgba(0x6cc4e8, 0x38),
	theme.ColorNameScrollBar:           rgba(0xe9ecea, 0x80),
	theme.ColorNameShadow:              rgba(0x000000, 0x90),
	panel.ColourStop:                   onPlan(scene.Dark().Stop),
	panel.ColourDecide:                 onPlan(scene.Dark().Decide),
	panel.ColourNote:                   onPlan(scene.Dark().Note),
	panel.ColourHeld:                   rgb(0x5fd3ae),
	panel.ColourQuiet:                  rgb(0xaab2b7),
	panel.ColourRing:                   rgb(0xffffff),
	panel.ColourRingInner:              rgb(0x10181c),
}

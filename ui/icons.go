package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"duskwire/layout/tool"
	"duskwire/ui/panel"
)

func drawing(name, body string) fyne.Resource {
	return panel.NewDrawing(name, body, theme.ColorNameForeground)
}

const stroke = `fill="none" stroke="#000000" stroke-width="1.8"`

// toolIcons are drawn after the plan symbols: a lamp is a crossed circle and a
// transformer two rings (IEC 60617); the others are plain shapes.
var toolIcons = map[string]fyne.Resource{
	tool.NameSelect: drawing("select", `<path fill="#000000" d="M5 2L5 19L9.6 15L12.6 21.4L15.4 20.1L12.4 13.9L18.6 13.4Z"/>`),
	tool.NameSupply: drawing("supply", `<path `+stroke+` d="M3 3H21V21H3Z"/>`+
		`<path fill="#000000" d="M13.4 5L7.4 13.2H11.4L10.4 19L16.6 10.6H12.5Z"/>`),
	tool.NameBox: drawing("box", `<path `+stroke+` d="M4 4H20V20H4Z"/><circle fill="#000000" cx="12" cy="12" r="2.6"/>`+
		`<path `+stroke+` d="M4 12H1M20 12H23M12 20V23"/>`),
	tool.NameLamp: drawing("lamp", `<circle `+stroke+` cx="12" cy="12" r="9"/>`+
		`<path `+stroke+` d="M5.6 5.6L18.4 18.4M18.4 5.6L5.6 18.4"/>`),
	tool.NameRun: drawing("run", `<path `+stroke+` d="M4 19L9 9L15 14L20 5"/>`+
		`<circle fill="#000000" cx="4" cy="19" r="2.4"/><circle fill="#000000" cx="20" cy="5" r="2.4"/>`),
	tool.NameGear: drawing("gear", `<path `+stroke+` d="M3 4H21V20H3Z"/><path `+stroke+` d="M5 12H9L15 7.5M15 12H19"/>`+
		`<circle fill="#000000" cx="9" cy="12" r="1.6"/><circle fill="#000000" cx="15" cy="12" r="1.6"/>`),
	tool.NameSource:    drawing("source", `<circle `+stroke+` cx="8.5" cy="12" r="6.5"/><circle `+stroke+` cx="15.5" cy="12" r="6.5"/>`),
	tool.NameArea:      drawing("area", `<path `+stroke+` d="M3 6L14 3L21 11L17 21L5 18Z"/><path `+stroke+` d="M8 18.6L18 9M5.6 12L12 5"/>`),
	tool.NameLine:      drawing("line", `<path `+stroke+` d="M2 7H22V18H2ZM2 12.5H22M9 7V12.5M16 7V12.5M12 12.5V18M5 12.5V18M19 12.5V18"/>`),
	tool.NameDimension: drawing("dimension", `<path `+stroke+` d="M4 5V21M20 5V21M2 9H22M1.5 11.5L6.5 6.5M17.5 11.5L22.5 6.5"/>`),
	tool.NameMark:      drawing("mark", `<circle `+stroke+` cx="12" cy="9" r="7"/><path `+stroke+` stroke-width="2.6" d="M12 9V22M12 14L16 10"/>`),
}

// toolKey is the letter that takes a tool in hand, as the tray shows it.
func toolKey(name string) string { return strings.ToUpper(string(tool.Letter(name))) }

// toolOrder is the order in the tray and in the Place menu.
var toolOrder = []string{
	tool.NameSelect, tool.NameSupply, tool.NameBox, tool.NameLamp, tool.NameRun, tool.NameGear, tool.NameSource,
}

// groundOrder is the order of the tools for the ground, below the others.
var groundOrder = []string{tool.NameArea, tool.NameLine, tool.NameMark, tool.NameDimension}

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
	tool.NameSource: drawing("source", `<circle `+stroke+` cx="8.5" cy="12" r="6.5"/><circle `+stroke+` cx="15.5" cy="12" r="6.5"/>`),
}

// toolKey is the letter that takes a tool in hand, as the tray shows it.
func toolKey(name string) string { return strings.ToUpper(string(tool.Letter(name))) }

// toolOrder is the order in the tray and in the Place menu.
var toolOrder = []string{
	tool.NameSelect, tool.NameSupply, tool.NameBox, tool.NameLamp, tool.NameRun, tool.NameGear, tool.NameSource,
}

package panel

import (
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

// TestUnitsStayWithTheirNumbers: no line of a label ends between a number and its
// unit, however wide it is, and when it is wide again it reads as it was.
func TestUnitsStayWithTheirNumbers(t *testing.T) {
	test.NewTempApp(t)
	const text = "R3 needs 16 m more at 230 V, which is 0.55 % of 12.5 V\nand 3 × 1.5 mm² at 90 °C for 8.25 m"
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	parted := regexp.MustCompile(`\d\n(m|V|%|mm²|°C)\b|\d\n×|×\n\d`)
	broke := 0
	for width := float32(80); width < 700; width += 7 {
		keepUnits(l, width)
		l.Resize(fyne.NewSize(width, 10))
		l.Resize(fyne.NewSize(width, l.MinSize().Height))
		var lines []string
		for _, o := range test.LaidOutObjects(l) {
			if line, ok := o.(*canvas.Text); ok {
				lines = append(lines, line.Text)
			}
		}
		shown := strings.ReplaceAll(strings.Join(lines, "\n"), " \n", "\n")
		if m := parted.FindString(shown); m != "" && width > 100 {
			t.Errorf("%g wide: %q in\n%s", width, m, shown)
		}
		if strings.Contains(l.Text, madeEnd) {
			broke++
		}
		if strings.ReplaceAll(l.Text, madeEnd, " ") != text {
			t.Fatalf("%g wide: the words changed: %q", width, l.Text)
		}
	}
	if broke < 5 {
		t.Errorf("only %d widths needed an end of our own", broke)
	}
	if l.Text != text {
		t.Errorf("wide again it reads %q", l.Text)
	}
}

package panel

import (
	"regexp"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"duskwire/calc/finding"
)

// TestMarksByShape: with every colour taken away the marks of the levels, of what
// holds and of what was not read yet are different drawings.
func TestMarksByShape(t *testing.T) {
	test.NewTempApp(t)
	colour := regexp.MustCompile(`#[0-9a-fA-F]{3,8}`)
	seen := map[string]string{}
	marks := map[string]fyne.Resource{"not read": unread}
	for _, l := range []finding.Level{finding.Stop, finding.Decide, finding.Note, finding.Held} {
		marks[l.String()] = Mark(l)
	}
	for name, m := range marks {
		shape := colour.ReplaceAllString(string(m.Content()), "#")
		if other, there := seen[shape]; there || shape == "" {
			t.Errorf("%s and %s differ in nothing but colour", name, other)
		}
		seen[shape] = name
	}
}

package output

import (
	"encoding/json"
	"strings"
	"testing"

	"duskwire/layout"
)

// What could not be planned has no figures: nothing to buy would read as if
// there were enough.
func TestWhatIsNotPlannedHasNoFigures(t *testing.T) {
	rows := plansOf([]layout.CablePlan{{Cable: "swa-3x1.5"}})
	var b strings.Builder
	rows[0].text(&b)
	if got := b.String(); !strings.Contains(got, "swa-3x1.5: not planned") || strings.Contains(got, "0.0") || strings.Contains(got, "least") {
		t.Errorf("%q", got)
	}
	data, err := json.Marshal(rows[0])
	if err != nil || !strings.Contains(string(data), `"bought_m":null,"left_over_m":null,"price":null`) {
		t.Errorf("%s, %v", data, err)
	}
}

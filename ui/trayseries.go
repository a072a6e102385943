package ui

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2/container"

	"duskwire/layout/doc"
	"duskwire/layout/geom"
)

// usualCounts are the numbers of lamps to choose from; any other is typed while
// the row is drawn.
var usualCounts = []int{2, 3, 4, 5, 6, 8, 10, 12, 15, 20}

// seriesChoices are those for rows and arcs of lamps: what stands there, how
// many or how far apart, and whether runs join them.
func (t *tray) seriesChoices() *choices {
	series := &t.set.Series
	c := &choices{box: container.NewVBox()}
	t.addPick(c, "Fitting", func() []item { return items(t.frame.Stock.Choices(doc.LampKind)) },
		func() string { return t.set.Lamp }, func(key string) { t.set.Lamp = key })
	t.addPick(c, "How many", func() []item {
		list := []item{{"", "As many as fit"}}
		counts := usualCounts
		if !slices.Contains(counts, series.Number()) {
			counts = append(slices.Clone(counts), series.Number())
		}
		for _, n := range counts {
			list = append(list, item{strconv.Itoa(n), strconv.Itoa(n) + " lamps"})
		}
		return list
	}, func() string {
		if series.Spacing > 0 {
			return ""
		}
		return strconv.Itoa(series.Number())
	}, func(key string) {
		n, err := strconv.Atoi(key)
		if err != nil {
			series.Spacing = geom.Metre
			return
		}
		series.Count, series.Spacing = n, 0
	})
	t.addLength(c, func() string { return "Spacing, 0 to go by number" }, func() *geom.Length { return &series.Spacing })
	t.addPick(c, "Joined", func() []item { return []item{{"", "Lamps alone"}, {"run", "With runs"}} }, func() string {
		if series.WithRun {
			return "run"
		}
		return ""
	}, func(key string) { series.WithRun = key == "run" })
	return c
}

// followSeries shows the choices anew after they were typed on the plan.
func (t *tray) followSeries() {
	if t.series != t.set.Series || t.round != t.set.Ground.Round {
		t.series, t.round = t.set.Series, t.set.Ground.Round
		t.refresh()
	}
}

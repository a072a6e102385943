package packs

import (
	"strconv"
	"strings"
	"testing"

	"duskwire/layout/doc"
)

// TestLongNames: names that nobody cut short, with and without a place to break
// them, stay inside the frame and off each other on every list.
func TestLongNames(t *testing.T) {
	for _, name := range []string{
		strings.Repeat("very long name of something in the garden ", 6),
		strings.Repeat("Donaudampfschifffahrtsgesellschaft", 5),
		strings.Repeat("WWWW/", 40),
		"Ωmega ² ° − “quoted” <b>&amp;</b> \x00\n\ttab",
	} {
		in := input(t, example)
		s := *in.Frame.Scheme
		s.Title, s.Author = name, name
		var zones []*doc.Zone
		for _, z := range s.Zones.All() {
			n := *z
			n.Name = name
			zones = append(zones, &n)
		}
		var areas []*doc.Area
		for _, a := range s.Areas.All() {
			n := *a
			n.Name = name
			areas = append(areas, &n)
		}
		var marks []*doc.Mark
		for _, m := range s.Marks.All() {
			n := *m
			n.Name = name
			marks = append(marks, &n)
		}
		s.Zones, s.Areas, s.Marks = doc.NewSet(zones...), doc.NewSet(areas...), doc.NewSet(marks...)
		for _, p := range makeAll(t, inputOf(t, &s, *in.Frame.Stock, "")) {
			for n, page := range p.Pages {
				if page.List.View.Denominator == 0 {
					apart(t, name[:10]+", "+p.Key+" page "+strconv.Itoa(n+1), page.List)
				}
			}
			pdf(t, p)
		}
	}
}

package output

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"duskwire/calc/check"
	"duskwire/calc/network"
	"duskwire/layout/derive"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// chainSheet is the circuit of a supply point with n lamps in a chain.
func chainSheet(n int) Sheet {
	s := doc.New("test")
	s.Title = "Chain"
	s.Supplies = doc.NewSet(&doc.Supply{ID: "SP", Tag: "SP", Nominal: 230})
	stock := &doc.Stock{Lamps: []doc.LampStock{{Key: "lamp", Load: network.Load{Power: 5, PowerFactor: 1, Nominal: 230}}},
		Cables: []*network.Cable{{Key: "cable", Cores: 3, Mains: true}}}
	var lamps []*doc.Lamp
	var runs []*doc.Run
	from := doc.ID("SP")
	for i := range n {
		id := doc.ID(fmt.Sprintf("L%d", i+1))
		lamps = append(lamps, &doc.Lamp{ID: id, Tag: string(id), Stock: "lamp", Place: doc.Place{At: geom.Pt(float64(i+1), 0)}})
		runs = append(runs, &doc.Run{ID: "R" + id, Tag: "R" + string(id), Cable: "cable", From: doc.End{On: from}, To: doc.End{On: id}, Legs: []doc.Leg{{}}})
		from = id
	}
	s.Lamps, s.Runs = doc.NewSet(lamps...), doc.NewSet(runs...)
	c := derive.Scheme(s, stock, &check.Rules{Key: "test"}, nil)
	return Sheet{Plan: scene.Input{Scheme: s, Stock: stock}, Circuit: &scene.OneLineInput{Scheme: s, Stock: stock, Circuits: c}}
}

// TestCircuitPaper: the smallest sheet of ISO 216 that holds the diagram, and
// one to measure beyond A0; everything lies within the frame.
func TestCircuitPaper(t *testing.T) {
	for _, c := range []struct {
		lamps int
		turn  string
		paper string // "" whatever is needed
	}{{3, "", "A4"}, {20, "", "A4"}, {40, "", "A4"}, {70, "", "A3"}, {3000, "", ""}} {
		l, err := CircuitPage(chainSheet(c.lamps))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range papers {
			if p.name == c.paper && !(l.Width == p.long && l.Height == p.short || l.Width == p.short && l.Height == p.long) {
				t.Errorf("%d lamps: sheet of %g × %g mm, expected %s", c.lamps, l.Width, l.Height, c.paper)
			}
		}
		if c.paper == "" && l.Height <= 841 {
			t.Errorf("%d lamps on %g × %g mm", c.lamps, l.Width, l.Height)
		}
		for _, it := range l.Items {
			for _, p := range it.Points {
				if p.X < edge-0.01 || p.Y < edge-0.01 || p.X > l.Width-edge+0.01 || p.Y > l.Height-edge+0.01 {
					t.Fatalf("%d lamps: %s %q at %v is outside the frame", c.lamps, it.Entity, it.Text, p)
				}
			}
		}
	}
	s := chainSheet(3000)
	s.Paper = "A4"
	if _, err := CircuitPage(s); err == nil || !strings.Contains(err.Error(), "does not fit A4") {
		t.Errorf("3000 lamps on A4: %v", err)
	}
	s.Paper = "A9"
	if _, err := CircuitPage(s); err == nil || !strings.Contains(err.Error(), "expected A4 to A0") {
		t.Errorf("A9: %v", err)
	}
}

// TestCircuitSVG looks for every lamp and run by its id, and for a statement
// that nobody measures in it.
func TestCircuitSVG(t *testing.T) {
	svg := string(picture(t, "svg", chainSheet(12)))
	for i := range 12 {
		for _, id := range []string{fmt.Sprintf("L%d", i+1), fmt.Sprintf("RL%d", i+1)} {
			if !regexp.MustCompile(`data-id="` + id + `"`).MatchString(svg) {
				t.Errorf("%s is not in the picture", id)
			}
		}
	}
	if !strings.Contains(svg, "Not to scale") || strings.Contains(svg, "Scale 1:") {
		t.Error("the sheet does not say that it is not to scale")
	}
}

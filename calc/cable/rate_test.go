package cable

import (
	"math"
	"strings"
	"testing"

	"duskwire/calc/network"
	q "duskwire/calc/quantity"

	"pgregory.net/rapid"
)

func site(air, ground, soil float64) network.Site {
	return network.Site{Air: q.Celsius(air), Ground: q.Celsius(ground), Soil: q.KelvinMetrePerWatt(soil)}
}

// Every factor just inside, on and just outside its rows. It = 28 A (method C)
// and 29 A (method D) at 70 °C terminals; factors from BS 7671 Tables 4B1 to
// 4B4, 4C1 to 4C3 and 52.2 as in the fixture.
func TestLegCapacityFactors(t *testing.T) {
	air := network.Leg{Support: network.Clipped, Method: "C"}
	ground := network.Leg{Support: network.Buried, Method: "D", Depth: 0.6}
	duct := network.Leg{Support: network.InDuct, Method: "D", Depth: 0.6}
	with := func(l network.Leg, f func(*network.Leg)) network.Leg { f(&l); return l }
	group := func(l network.Leg, n int) network.Leg {
		return with(l, func(l *network.Leg) { l.Group = n })
	}
	deep := func(l network.Leg, d q.Metre) network.Leg {
		return with(l, func(l *network.Leg) { l.Depth = d })
	}
	lagged := func(m q.Metre) network.Leg {
		return with(air, func(l *network.Leg) { l.Insulated = m })
	}
	tests := []struct {
		name string
		leg  network.Leg
		site network.Site
		want float64 // 0: not known
	}{
		{"air at the reference", air, site(30, 20, 2.5), 28},
		{"air 25, the coldest row", air, site(25, 20, 2.5), 28 * 1.03},
		{"air 20: no more credit below 25", air, site(20, 20, 2.5), 28 * 1.03},
		{"air just above 25: next worse row", air, site(25.1, 20, 2.5), 28},
		{"air 35", air, site(35, 20, 2.5), 28 * 0.94},
		{"air just above 30", air, site(30.1, 20, 2.5), 28 * 0.94},
		{"air 55: only the row for 60 is left and it has no 70 °C value", air, site(55, 20, 2.5), 0},
		{"air 60.1: beyond the table", air, site(60.1, 20, 2.5), 0},
		{"ground does not touch a leg in air", air, site(30, 25, 3), 28},
		{"ground at the reference", ground, site(40, 20, 2.5), 29},
		{"ground 15", ground, site(30, 15, 2.5), 29 * 1.05},
		{"ground 5: no more credit below 10", ground, site(30, 5, 2.5), 29 * 1.10},
		{"ground just above 20", ground, site(30, 20.1, 2.5), 29 * 0.95},
		{"ground 25.1: beyond the fixture", ground, site(30, 25.1, 2.5), 0},
		{"soil 1.0 direct", ground, site(30, 20, 1.0), 29 * 1.50},
		{"soil 1.0 duct", duct, site(30, 20, 1.0), 29 * 1.18},
		{"soil just above 1.0: next worse row", ground, site(30, 20, 1.01), 29},
		{"soil just above 2.5", ground, site(30, 20, 2.51), 29 * 0.90},
		{"soil 3.1: beyond the table", ground, site(30, 20, 3.1), 0},
		{"method D on a wall takes no soil", network.Leg{Support: network.Clipped, Method: "D"}, site(30, 20, 1.0), 0},
		{"method C in a duct in the ground", network.Leg{Support: network.InDuct, Method: "C", Depth: 0.5}, reference, 0},
		{"method C in a duct on a wall", network.Leg{Support: network.InDuct, Method: "C"}, reference, 28},
		{"two on a wall", group(air, 2), reference, 28 * 0.85},
		{"three on a wall: beyond the fixture", group(air, 3), reference, 0},
		{"one is alone", group(air, 1), reference, 28},
		{"two in the ground", group(ground, 2), reference, 29 * 0.75},
		{"two in one duct, as far as is known: bunched and not a duct each", group(duct, 2), reference, 29 * 0.80},
		{"ten bunched indoors: row for 12", network.Leg{Support: network.Indoors, Method: "C", Group: 10}, reference, 28 * 0.45},
		{"nine bunched indoors", network.Leg{Support: network.Indoors, Method: "C", Group: 9}, reference, 28 * 0.50},
		{"insulation 99 mm", lagged(0.099), reference, 28 * 0.78},
		{"insulation 100 mm", lagged(0.1), reference, 28 * 0.78},
		{"insulation 101 mm: next worse row", lagged(0.101), reference, 28 * 0.51},
		{"insulation 3 m: totally surrounded", lagged(3), reference, 28 * 0.50},
		{"0.8 m deep", deep(ground, 0.8), reference, 29},
		{"0.81 m deep", deep(ground, 0.81), reference, 29 * 0.97},
		{"0.81 m deep in a duct", deep(duct, 0.81), reference, 29 * 0.98},
		{"1.01 m deep: beyond the fixture", deep(ground, 1.01), reference, 0},
		{"method 100 has no column", network.Leg{Support: network.Indoors, Method: "100"}, reference, 0},
		{"buried but rated for air", network.Leg{Support: network.Buried, Method: "C"}, reference, 0},
		{"no method: follows from the support", network.Leg{Support: network.InTree}, reference, 31},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := LegCapacity(armoured(), tt.leg, tt.site, tables(), false)
			if got.Known != (tt.want > 0) || math.Abs(float64(got.Iz)-tt.want) > 1e-9 {
				t.Errorf("Iz = %v known %v, want %v; missing %q, applied %+v", got.Iz, got.Known, tt.want, got.Missing, got.Applied)
			}
			if !got.Known && got.Missing == "" {
				t.Error("not known without saying what is missing")
			}
		})
	}
}

// Cc = 0.9 only in the ground and only where overload protection is claimed.
// Source: BS 7671 Appendix 4, 5.1 and 5.2.
func TestBuriedOverload(t *testing.T) {
	buried := network.Leg{Support: network.Buried, Method: "D", Depth: 0.5}
	clipped := network.Leg{Support: network.Clipped, Method: "C"}
	for _, tt := range []struct {
		leg      network.Leg
		overload bool
		want     q.Ampere
	}{{buried, false, 29}, {buried, true, 26.1}, {clipped, true, 28}} {
		got := LegCapacity(armoured(), tt.leg, reference, tables(), tt.overload)
		if math.Abs(float64(got.Iz-tt.want)) > 1e-9 {
			t.Errorf("%v overload %v: Iz = %v, want %v", tt.leg.Support, tt.overload, got.Iz, tt.want)
		}
	}
}

// A 90 °C cable on 70 °C accessories takes the 70 °C rating and the 70 °C
// factors; on 90 °C accessories its own. Source: BS 7671 512.1.5, 523.1.
func TestTerminals(t *testing.T) {
	leg := network.Leg{Support: network.Clipped, Method: "C"}
	hot := site(35, 20, 2.5)
	if got := LegCapacity(armoured(), leg, hot, tables(), false).Iz; math.Abs(float64(got)-28*0.94) > 1e-9 {
		t.Errorf("70 °C terminals: %v, want 28 A x 0.94", got)
	}
	tb := tables()
	tb.Terminals = q.Celsius(90)
	if got := LegCapacity(armoured(), leg, hot, tb, false).Iz; math.Abs(float64(got)-36*0.96) > 1e-9 {
		t.Errorf("90 °C terminals: %v, want 36 A x 0.96", got)
	}
	c := armoured()
	c.Ratings = c.Ratings[:3]
	if got := LegCapacity(c, leg, hot, tables(), false); got.Known || got.Missing == "" {
		t.Errorf("no 70 °C rating on 70 °C terminals: got %+v, want not known", got)
	}
}

// Conditions that nobody gave are taken as the tables' own and said so.
func TestUnknownConditions(t *testing.T) {
	got := LegCapacity(armoured(), network.Leg{Support: network.Buried, Method: "D"}, network.Site{}, tables(), false)
	if !got.Known || got.Iz != 29 {
		t.Fatalf("got %+v, want 29 A", got)
	}
	for _, a := range got.Applied[:2] {
		if a.Note == "" || a.Value != 1 {
			t.Errorf("%s = %v %q, want 1 with a note", a.Symbol, a.Value, a.Note)
		}
	}
}

func TestGoverning(t *testing.T) {
	wall := network.Leg{Support: network.Clipped, Method: "C"}
	soil := network.Leg{Support: network.Buried, Method: "D", Depth: 0.5, Group: 2}
	tree := network.Leg{Support: network.InTree, Method: "E"}
	stray := network.Leg{Support: network.Indoors, Method: "102"}
	tests := []struct {
		name  string
		legs  []network.Leg
		leg   int
		iz    float64
		known bool
	}{
		{"the worst leg", []network.Leg{tree, wall, soil}, 2, 29 * 0.75, true},
		{"the first of equals", []network.Leg{tree, wall, wall}, 1, 28, true},
		{"an unknown leg before all", []network.Leg{soil, stray, wall}, 1, 0, false},
		{"no legs", nil, -1, 0, false},
	}
	for _, tt := range tests {
		got := Governing(armoured(), tt.legs, reference, tables(), false)
		if got.Leg != tt.leg || got.Known != tt.known || math.Abs(float64(got.Iz)-tt.iz) > 1e-9 {
			t.Errorf("%s: leg %d Iz %v known %v, want %d %v %v", tt.name, got.Leg, got.Iz, got.Known, tt.leg, tt.iz, tt.known)
		}
	}
	if got := Governing(nil, []network.Leg{wall}, reference, tables(), false); got.Known || got.Missing != "the cable" {
		t.Errorf("no cable: %+v", got)
	}
}

// Derating by hand. Sources, in the order of the rows: "when a number of
// correction factors applies" in a guide to the 16th edition (34 A, Ca 0.77,
// Cg 0.65, Ci 0.5 -> 8.5 A); a forum answer on sizing a cable for 5 kW (25 A
// device, Ca 0.94, Cg 0.80, Ci 0.51 -> It >= 65.18 A, so 64 A fails and 85 A
// passes); Basic Electrical Installation Work, house extension sub-main (32 A,
// Ca 0.94 -> 34.04 A, 44 A passes and 32 A fails).
func TestWorkedDerating(t *testing.T) {
	rated := func(iz, ca, cg, ci float64) q.Ampere {
		tb := tables()
		tb.Air = []TempRow{{q.Celsius(50), []Keyed{{"70C thermoplastic", ca}}, tb.Buried.Source}}
		tb.Grouping = []GroupRow{{Bunched, 2, cg, tb.Buried.Source}}
		tb.Insulation = []InsulationRow{{1, ci, tb.Buried.Source}}
		c := &network.Cable{Insulation: "70C thermoplastic", Conductor: q.Celsius(70),
			Ratings: []network.Rating{{Method: "A", Iz: q.Ampere(iz)}}}
		leg := network.Leg{Support: network.Indoors, Method: "A", Group: 2, Insulated: 0.3}
		return LegCapacity(c, leg, site(50, 20, 2.5), tb, true).Iz
	}
	if got := rated(34, 0.77, 0.65, 0.5); math.Abs(float64(got)-8.5085) > 0.0001 {
		t.Errorf("34 A derated = %v, want 8.5085 A, printed 8.5 A", got)
	}
	if got := 25 / float64(rated(1, 0.94, 0.80, 0.51)); math.Abs(got-65.18) > 0.01 {
		t.Errorf("It = %.3f A, printed 65.18 A", got)
	}
	if rated(64, 0.94, 0.80, 0.51) >= 25 || rated(85, 0.94, 0.80, 0.51) < 25 {
		t.Error("64 A must fail and 85 A must pass for a 25 A device")
	}
	if got := 32 / float64(rated(1, 0.94, 1, 1)); math.Abs(got-34.04) > 0.005 {
		t.Errorf("It = %.3f A, printed 34.04 A", got)
	}
	if rated(32, 0.94, 1, 1) >= 32 || rated(44, 0.94, 1, 1) < 32 {
		t.Error("32 A must fail and 44 A must pass for a 32 A device")
	}
}

// Laws: a worse condition never raises the capacity, and no leg added to a run
// raises what governs it.
func TestCapacityLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		leg := network.Leg{
			Support:   network.Support(rapid.IntRange(0, 5).Draw(t, "support")),
			Method:    rapid.SampledFrom([]string{"C", "D", "E"}).Draw(t, "method"),
			Depth:     q.Metre(rapid.Float64Range(0, 1.2).Draw(t, "depth")),
			Group:     rapid.IntRange(0, 13).Draw(t, "group"),
			Insulated: q.Metre(rapid.Float64Range(0, 1).Draw(t, "insulated")),
		}
		here := site(rapid.Float64Range(0, 65).Draw(t, "air"), rapid.Float64Range(0, 30).Draw(t, "ground"), rapid.Float64Range(0.1, 4).Draw(t, "soil"))
		worse := here
		worse.Air += q.Kelvin(rapid.Float64Range(0, 20).Draw(t, "warmer"))
		worse.Ground += q.Kelvin(rapid.Float64Range(0, 20).Draw(t, "warmer ground"))
		worse.Soil += q.KelvinMetrePerWatt(rapid.Float64Range(0, 2).Draw(t, "drier"))
		a := LegCapacity(armoured(), leg, here, tables(), false)
		b := LegCapacity(armoured(), leg, worse, tables(), true)
		if b.Iz > a.Iz+1e-9 {
			t.Fatalf("worse conditions raised %v to %v", a.Iz, b.Iz)
		}
		more := leg
		more.Group++
		legs := []network.Leg{leg}
		before := Governing(armoured(), legs, here, tables(), false)
		after := Governing(armoured(), append(legs, more), here, tables(), false)
		if after.Iz > before.Iz+1e-9 {
			t.Fatalf("a leg more raised %v to %v", before.Iz, after.Iz)
		}
	})
}

// What is said about a cable laid bare in the ground follows its own table: a
// duct is named only where it would help.
func TestBareInGround(t *testing.T) {
	rated, unrated := armoured(), armoured()
	rated.Buriable, unrated.Buriable = false, false
	unrated.Ratings = []network.Rating{{Method: "C", Iz: 28, Seventy: true}}
	for _, row := range []struct {
		c    *network.Cable
		duct bool
	}{{rated, true}, {unrated, false}} {
		leg := network.Leg{Support: network.Buried, Depth: 0.6, Length: 5}
		got := LegCapacity(row.c, leg, reference, tables(), false)
		if got.Known || strings.Contains(got.Missing, "in a duct only") != row.duct {
			t.Errorf("rated in a duct %v: %q", row.duct, got.Missing)
		}
	}
}

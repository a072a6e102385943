package check_test

import (
	"fmt"
	"strings"
	"testing"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

func length(v float64) q.Metre { return q.Metre(v) }

// glands is the 20S row of BS 6121 type CW (from memory).
func glands() []check.GlandRow { return []check.GlandRow{{Size: "20S", Least: 9.5e-3, Most: 15.9e-3}} }

// way is the head of the nets below: an own way on TN-S with a 30 mA RCBO.
const way = "way TN-S ze=0.35 pfc=660 ; board b6-rcbo-30 ; indoor te-2.5 0 C ; "

// presence rows hold the rules of earth path, boxes and glands that are a yes
// or no, or whole numbers: the last value that holds and the first that does
// not.
func TestEarthAndBoxes(t *testing.T) {
	for _, row := range []struct {
		name, net string
		code      finding.Code
		want      finding.Level
		subject   string
	}{
		{"armour tagged and linked", "R1 SP1 B1 swa-2x1.5 9 C ; R2 B1 L1 swa-2x1.5 9 C ; B1 = plastic ; L1 = post", "EAR-02", finding.Held, ""},
		{"no tag in a plastic box", "R1 SP1 B1 swa-2x1.5 9 C to:untagged ; R2 B1 L1 swa-2x1.5 9 C ; B1 = plastic ; L1 = post", "EAR-02", finding.Stop, "L1"},
		{"no tag in a metal box", "R1 SP1 B1 swa-2x1.5 9 C to:untagged ; R2 B1 L1 swa-2x1.5 9 C ; B1 = metal ; L1 = post", "EAR-02", finding.Held, ""},
		{"armours not linked", "R1 SP1 B1 swa-2x1.5 9 C ; R2 B1 L1 swa-2x1.5 9 C ; B1 = unlinked ; L1 = post", "EAR-02", finding.Stop, "L1"},
		{"no tag, but a core", "R1 SP1 B1 swa-3x1.5 9 C to:untagged ; R2 B1 L1 swa-3x1.5 9 C ; B1 = plastic ; L1 = post", "EAR-02", finding.Held, ""},
		{"metal box without earth", "R1 SP1 B1 swa-2x1.5 9 C from:untagged ; R2 B1 L1 swa-2x1.5 9 C ; B1 = metal ; L1 = brick", "EAR-02", finding.Stop, "B1"},
		{"class II beyond the break", "R1 SP1 B1 swa-2x1.5 9 C to:untagged ; R2 B1 L1 swa-2x1.5 9 C ; B1 = plastic ; L1 = brick", "EAR-02", finding.Held, ""},
		{"no protective conductor is FLT-04", "R1 SP1 L1 elv-2x1.5 9 C ; L1 = post", "EAR-02", finding.Held, ""},

		{"armour earthed at one end, a core", "R1 SP1 L1 swa-3x1.5 9 C to:untagged ; L1 = brick", "EAR-03", finding.Note, "R1"},
		{"armour earthed at neither", "R1 SP1 L1 swa-3x1.5 9 C from:untagged to:untagged ; L1 = brick", "EAR-03", finding.Stop, "R1"},
		{"armour earthed at both", "R1 SP1 L1 swa-3x1.5 9 C ; L1 = brick", "EAR-03", finding.Held, ""},
		{"armour beyond the break", "R1 SP1 B1 swa-2x1.5 9 C to:untagged ; R2 B1 L1 swa-2x1.5 9 C ; B1 = plastic ; L1 = brick", "EAR-03", finding.Stop, "R2"},
		{"12 V armour is not earthed", "R1 SP1 S1 swa-3x1.5 9 C ; R2 S1+ L1 swa-2x1.5 9 C from:untagged to:untagged ; S1 = dc60 ; L1 = spike", "EAR-03", finding.Held, ""},

		{"class II point without", "R1 SP1 L1 swa-2x1.5 9 C to:untagged ; L1 = brick", "EAR-04", finding.Decide, "L1"},
		{"class II point with", "R1 SP1 L1 swa-2x1.5 9 C ; L1 = brick", "EAR-04", finding.Held, ""},
		{"class I and II beyond the break", "R1 SP1 L1 swa-2x1.5 9 C to:untagged ; R2 L1 L2 swa-2x1.5 9 C ; L1 = post ; L2 = brick", "EAR-04", finding.Decide, "L2"},
		{"source beyond the break", "R1 SP1 S1 swa-2x1.5 9 C to:untagged ; R2 S1+ L1 elv-2x1.5 9 C ; S1 = dc60 ; L1 = spike", "EAR-04", finding.Decide, "S1"},
		{"nothing but a box beyond", "R1 SP1 B1 swa-2x1.5 9 C to:untagged ; B1 = plastic", "EAR-04", finding.Decide, "B1"},

		{"armour alone", "R1 SP1 B1 swa-2x1.5 9 C ; R2 B1 L1 swa-2x1.5 9 C ; B1 = plastic ; L1 = brick", "EAR-05", finding.Note, "L1"},
		{"a core all the way", "R1 SP1 B1 swa-3x1.5 9 C ; R2 B1 L1 swa-3x1.5 9 C ; B1 = plastic ; L1 = brick", "EAR-05", finding.Held, ""},

		{"as many cables as entries", boxed("plastic,entries=3", "brick", 2), "BOX-01", finding.Held, ""},
		{"one cable more", boxed("plastic,entries=3", "brick", 3), "BOX-01", finding.Stop, "B1"},
		{"entries not known", boxed("plastic,entries=0", "brick", 3), "BOX-01", finding.Held, ""},
		{"no open entry", boxed("plastic,open=0", "brick", 1), "BOX-02", finding.Held, ""},
		{"one open entry", boxed("plastic,open=1", "brick", 1), "BOX-02", finding.Stop, "B1"},
		{"no top entry", boxed("plastic,top=0", "brick", 1), "BOX-03", finding.Held, ""},
		{"one top entry", boxed("plastic,top=1", "brick", 1), "BOX-03", finding.Decide, "B1"},
		{"top entry indoors", boxed("top=1,indoors", "brick", 1), "BOX-03", finding.Held, ""},
		{"151 mm up", boxed("h=0.151", "brick", 1), "BOX-04", finding.Held, ""},
		{"150 mm up", boxed("h=0.15", "brick", 1), "BOX-04", finding.Held, ""},
		{"149 mm up", boxed("h=0.149", "brick", 1), "BOX-04", finding.Decide, "B1"},
		{"149 mm up, gel", boxed("h=0.149,fill=gel", "brick", 1), "BOX-04", finding.Held, ""},
		{"149 mm up, indoors", boxed("h=0.149,indoors", "brick", 1), "BOX-04", finding.Held, ""},
		{"below ground is not BOX-04", boxed("h=-0.1", "brick", 1), "BOX-04", finding.Held, ""},
		{"on the ground", boxed("h=0", "brick", 1), "BOX-05", finding.Held, ""},
		{"just below ground", boxed("h=-0.001", "brick", 1), "BOX-05", finding.Stop, "B1"},
		{"below ground, made for it", boxed("h=-0.3,burial", "brick", 1), "BOX-05", finding.Held, ""},
		{"below ground, resin", boxed("h=-0.3,fill=resin", "brick", 1), "BOX-05", finding.Held, ""},
		{"hidden", boxed("hidden,fill=none", "brick", 1), "BOX-06", finding.Stop, "B1"},
		{"hidden, gel", boxed("hidden,fill=gel", "brick", 1), "BOX-06", finding.Held, ""},
		{"hidden, made for it", boxed("hidden,burial", "brick", 1), "BOX-06", finding.Held, ""},
		{"five leads", boxed("entries=9", "brick", 5), "BOX-07", finding.Held, ""},
		{"six leads", boxed("entries=9", "brick", 6), "BOX-07", finding.Note, "B1"},

		{"BW outdoors", "R1 SP1 L1 swa-3x1.5 9 C to:BW ; L1 = brick", "GLD-01", finding.Decide, "R1"},
		{"BW indoors", "R1 SP1 L1 swa-3x1.5 9 C from:BW,indoors ; L1 = brick", "GLD-01", finding.Held, ""},
		{"CW outdoors", "R1 SP1 L1 swa-3x1.5 9 C to:CW ; L1 = brick", "GLD-01", finding.Held, ""},
		{"not said", "R1 SP1 L1 swa-3x1.5 9 C ; L1 = brick", "GLD-01", finding.Held, ""},
		{"BW of a cable without armour", "R1 SP1 L1 te-1.5 9 C to:BW ; L1 = brick", "GLD-01", finding.Held, ""},
		{"gland below ground", boxed("h=-0.3", "brick", 1), "GLD-01", finding.Decide, "R1"},
		{"joint made for burial has none", boxed("h=-0.3,burial", "brick", 1), "GLD-01", finding.Held, ""},
		{"cast in resin", boxed("h=-0.3,fill=resin", "brick", 1), "GLD-01", finding.Held, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			r := calc.Evaluate(input(way + row.net))
			if got := levelOf(r, row.code); got != row.want {
				t.Fatalf("%s is %v, want %v: %v", row.code, got, row.want, found(r, row.code))
			}
			if row.want == finding.Held {
				if n := len(found(r, row.code)); n > 0 {
					t.Errorf("%d findings about what holds", n)
				}
				return
			}
			f := found(r, row.code)[0]
			if f.Subject.ID != row.subject {
				t.Errorf("subject %s, want %s", f.Subject.ID, row.subject)
			}
			if f.Working == "" || f.Text == "" || f.Source.String() == "" {
				t.Errorf("incomplete: %+v", f)
			}
		})
	}
}

// boxed is a box with a feed and n lamps on it.
func boxed(box, lamp string, n int) string {
	out := "R1 SP1 B1 swa-3x1.5 9 C ; B1 = " + box
	for i := range n {
		k := string(rune('1' + i))
		out += " ; R1" + k + " B1 L" + k + " swa-3x1.5 1 C ; L" + k + " = " + lamp
	}
	return out
}

// Every metalwork within reach is named, of the nearest lamp in the text, of the
// others in the working; what is further off is not.
func TestAllMetalworkIsNamed(t *testing.T) {
	m := func(id string, d float64) network.Near {
		return network.Near{Subject: finding.Subject{ID: id, Label: id}, Distance: length(d)}
	}
	in := input(way + "R1 SP1 L1 swa-3x1.5 9 C ; R2 L1 L2 swa-3x1.5 9 C ; R3 L2 L3 swa-3x1.5 9 C ; L1 = post ; L2 = post ; L3 = brick")
	in.Net.Nodes[2].Place = &network.Place{Metals: []network.Near{m("M1", 0.7), m("M2", 2.5), m("M3", 2.51)}}
	in.Net.Nodes[3].Place = &network.Place{Metals: []network.Near{m("M4", 1.2), m("M5", 3)}}
	in.Net.Nodes[4].Place = &network.Place{Metals: []network.Near{m("M6", 0.1)}} // class II
	f := one(t, calc.Evaluate(in), "EAR-06")
	named := map[string]bool{}
	for _, s := range f.Also {
		named[s.ID] = true
	}
	for id, want := range map[string]bool{"M1": true, "M2": true, "M3": false, "M4": true, "M5": false, "M6": false, "L2": true} {
		if named[id] != want {
			t.Errorf("%s named: %v, want %v", id, named[id], want)
		}
	}
	if !strings.Contains(f.Text, "M2") || !strings.Contains(f.Working, "L2: M4 is 1.2 m away") {
		t.Errorf("%+v", f)
	}
}

// Source: the arm's reach of BS 7671 Part 2 (2.5 m, from memory), inside, on
// and outside, and a lamp that hangs higher than it.
func TestMetalwork(t *testing.T) {
	for _, row := range []struct {
		earthing     string
		distance, up float64
		lamp         string
		want         finding.Level
		text         string
	}{
		{"TN-S", 2.49, 0.5, "post", finding.Decide, "bond"}, {"TN-S", 2.5, 0.5, "post", finding.Decide, "bond"}, {"TN-S", 2.51, 0.5, "post", finding.Held, ""},
		{"TN-S", 0, 0.5, "post", finding.Decide, "bond"}, {"TN-C-S", 0.7, 0.5, "post", finding.Decide, "broken supply neutral"},
		{"TN-S", 1, 2.5, "post", finding.Decide, ""}, {"TN-S", 1, 2.51, "post", finding.Held, ""}, {"TN-S", 1, 0.5, "brick", finding.Held, ""},
	} {
		in := input(strings.Replace(way, "TN-S", row.earthing, 1) + "R1 SP1 L1 swa-3x1.5 9 C ; L1 = " + row.lamp)
		lamp := &in.Net.Nodes[2]
		lamp.Height = length(row.up)
		lamp.Place = &network.Place{Metals: []network.Near{{Subject: finding.Subject{ID: "M1", Label: "M1"}, Distance: length(row.distance)}}}
		r := calc.Evaluate(in)
		if got := levelOf(r, "EAR-06"); got != row.want {
			t.Errorf("%+v: %v", row, got)
		}
		if row.want == finding.Held {
			continue
		}
		f := one(t, r, "EAR-06")
		if f.Subject.ID != "L1" || f.Also[0].ID != "M1" || !strings.Contains(f.Text, row.text) {
			t.Errorf("%+v: %+v", row, f)
		}
	}
}

// The working of a class I lamp shows its whole way to the main earth terminal.
func TestExplainEarthPath(t *testing.T) {
	in := input(way + "R1 SP1 B1 swa-2x1.5 9 C ; R2 B1 L1 swa-3x1.5 9 C ; B1 = plastic ; L1 = post")
	r := calc.Evaluate(in)
	for _, f := range calc.Explain(in, r, "L1") {
		if f.Code != "EAR-02" {
			continue
		}
		want := "earth path from L1:\n  core of R2 to B1\n  armour of R1 to SP1: tag at B1, tag at SP1\n  core of indoor leg to board\n  main earth terminal"
		if f.Level != finding.Held || f.Working != want {
			t.Errorf("%v\n%s\nwant\n%s", f.Level, f.Working, want)
		}
		return
	}
	t.Error("nothing about the earth path")
}

// One break is one finding about the metal beyond it; the other lamps and the
// place are named with it, and the loop beyond is not passed.
func TestBreakIsOneFinding(t *testing.T) {
	in := input(way + `R1 SP1 B1 swa-2x1.5 9 C to:untagged ; R2 B1 L1 swa-3x1.5 1 C ; R3 B1 B2 swa-2x1.5 9 C from:untagged to:untagged
		R4 B2 L2 swa-3x1.5 1 C ; B1 = plastic ; B2 = plastic ; L1 = post ; L2 = post`)
	r := calc.Evaluate(in)
	f := one(t, r, "EAR-02")
	if f.Subject.ID != "L1" || f.Also[0].ID != "B1" || f.Also[1].ID != "R1" || f.Also[2].ID != "L2" {
		t.Errorf("about %v and %v", f.Subject, f.Also)
	}
	if got := f.Remedies[0].Figure; !strings.HasPrefix(got, "3 tags") {
		t.Errorf("remedy %q, want the three tags that are missing", got)
	}
	for _, id := range []string{"L1", "L2"} {
		if p := point(t, r, id); p.Loop.Known {
			t.Errorf("the loop at %s is shown as %v", id, p.Loop.Hot)
		}
	}
	if p := point(t, r, "SP1"); !p.Loop.Known {
		t.Error("the loop ahead of the break is lost too")
	}
	if lv := levelOf(r, "FLT-04"); lv != finding.Held {
		t.Error("FLT-04 speaks of a cable that has a protective conductor")
	}
}

// Two glands for every piece, in pairs; the size by the data sheets, else by
// the diameter, else a Note.
func TestGlandSizes(t *testing.T) {
	in := input(way + "R1 SP1 B1 swa-3x1.5 9 C ; R2 B1 L1 swa-3x1.5 9 C ; R3 B1 L2 te-1.5 1 C ; B1 = plastic ; L1 = brick ; L2 = brick")
	r := calc.Evaluate(in)
	if lv := levelOf(r, "GLD-02"); lv != finding.Held {
		t.Errorf("a size of the table raises %v", lv)
	}
	for id, want := range map[string]string{"SP1": "4 glands 20S, 2 pairs", "R2": "2 glands 20S, 1 pair", "R3": ""} {
		got := ""
		for _, f := range calc.Explain(in, r, id) {
			if f.Code == "GLD-02" {
				got = f.Figure
			}
		}
		if got != want {
			t.Errorf("%s: %q, want %q", id, got, want)
		}
	}
	for _, row := range []struct {
		diameter float64
		want     finding.Level
	}{{0, finding.Note}, {9.4e-3, finding.Note}, {9.5e-3, finding.Held}, {15.9e-3, finding.Held}, {16e-3, finding.Note}} {
		in := input(way + "R1 SP1 L1 swa-3x1.5 9 C ; L1 = brick")
		cable := *in.Net.Branches[1].Cable
		cable.Gland, cable.Diameter = "", length(row.diameter)
		in.Net.Branches[1].Cable = &cable
		in.Rules.Glands = glands()
		if lv := levelOf(calc.Evaluate(in), "GLD-02"); lv != row.want {
			t.Errorf("outside %v mm: %v, want %v", row.diameter*1e3, lv, row.want)
		}
	}
}

// The ends of a cable that two runs share count once: of two runs side by side
// four ends take a tag, in one cable two; a gland too; and one floating armour is
// one.
func TestSharedCableCountsOnce(t *testing.T) {
	for _, row := range []struct {
		how, ends  string
		tags, gone int
	}{{"apart", "from:untagged to:untagged", 4, 1}, {"in one cable", "from:shared,untagged to:shared,untagged", 2, 0}} {
		in := input("way TN-S ze=0.3 ; board b6-rcbo-30 ; indoor te-2.5 5 C ; L1 = brick ; L2 = brick\n" +
			"R1 SP1 L1 swa-3x1.5 9 C from:untagged to:untagged ; R2 SP1 L2 swa-3x1.5 9 C " + row.ends)
		r := calc.Evaluate(in)
		f := one(t, r, "EAR-03")
		if want := fmt.Sprintf("tag or earthing nut: %d,", row.tags); !strings.Contains(f.Working, want) || len(f.Also) != row.gone {
			t.Errorf("%s: %d more runs, want %d; %s", row.how, len(f.Also), row.gone, f.Working)
		}
		for _, f := range calc.Explain(in, r, "SP1") {
			if f.Code == "GLD-02" && !strings.HasPrefix(f.Figure, fmt.Sprint(row.tags)+" glands") {
				t.Errorf("%s: %s", row.how, f.Figure)
			}
		}
	}
}

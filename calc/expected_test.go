package calc_test

import (
	"math"
	"testing"

	"duskwire/calc"
	"duskwire/calc/cable"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// TestWarmRing: on a ring of lamps of constant current the expected volts are
// those of the resistive net with warm conductors, solved densely by gonum:
// G·V = -I with g = 1/(Ct·z) of every run and the output of the source as zero.
// The design alone (table temperature) is another answer.
func TestWarmRing(t *testing.T) {
	moved := false
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 9).Draw(t, "lamps")
		legs := make([]float64, n+1)
		for k := range legs {
			legs[k] = rapid.Float64Range(0.5, 20).Draw(t, "metres")
		}
		in := input(circle("dc100", "spike-c", rapid.SampledFrom([]string{"elv-2x1.5", "elv-2x2.5", "elv-2x6"}).Draw(t, "cable"), legs...))
		r := calc.Evaluate(in)
		at := map[int]int{} // node to row
		source := -1
		for i, node := range in.Net.Nodes {
			if node.System != 0 && len(node.Loads) > 0 {
				at[i] = len(at)
			}
		}
		for _, br := range in.Net.Branches {
			if br.Converter != nil {
				source = br.To
			}
		}
		g, i := mat.NewDense(len(at), len(at), nil), mat.NewVecDense(len(at), nil)
		for node, row := range at {
			i.SetVec(row, float64(in.Net.Nodes[node].Loads[0].Rated()))
		}
		for _, br := range in.Net.Branches {
			if br.Cable == nil || in.Net.Nodes[br.To].System == 0 {
				continue
			}
			op := ran0(r, br.ID).Operating
			if !op.Known {
				t.Skip("a run that carries more than its rating")
			}
			y := 1 / (float64(cable.LoopPerMetre(br.Cable, in.Net.Site)) * float64(br.Length) * cable.Ct(br.Cable, op.Value))
			for _, x := range [][2]int{{br.From, br.To}, {br.To, br.From}} {
				if x[0] == source {
					continue
				}
				row := at[x[0]]
				g.Set(row, row, g.At(row, row)+y)
				if x[1] != source {
					g.Set(row, at[x[1]], g.At(row, at[x[1]])-y)
				}
			}
		}
		var drop mat.VecDense
		if err := drop.SolveVec(g, i); err != nil {
			t.Skip(err)
		}
		for k, p := range r.Points {
			row, lamp := at[k+1] // points leave the board out
			if !lamp {
				continue
			}
			want := float64(p.Voltage+p.Drop) - drop.AtVec(row)
			if !p.Expected.Known || math.Abs(float64(p.Expected.Value)-want) > 1e-6 {
				t.Fatalf("%s: expected %+v, dense %g", p.Label, p.Expected, want)
			}
			moved = moved || math.Abs(float64(p.Expected.Value-p.Voltage)) > 1e-3
		}
	})
	if !moved {
		t.Error("warm conductors never gave other volts than the table")
	}
}

// TestWarmRingUnknown: a run of the ring that carries more than its rating has
// no temperature, and one moves the currents of all: nothing is said.
func TestWarmRingUnknown(t *testing.T) {
	in := input(circle("dc100", "spike-c", "elv-2x4", 5, 5, 5, 5, 5))
	for b := range in.Net.Branches {
		if in.Net.Branches[b].ID == "R3" {
			thin := *in.Net.Branches[b].Cable
			thin.Key = "thin"
			thin.Ratings = append(thin.Ratings[:0:0], thin.Ratings...)
			for k := range thin.Ratings {
				thin.Ratings[k].Iz = 0.01
			}
			in = recabled(in, b, &thin)
		}
	}
	r := calc.Evaluate(in)
	if ran(t, r, "R3").Operating.Known {
		t.Fatal("R3 has a temperature: the ring no longer holds a run over its rating")
	}
	if p := point(t, r, "L2"); p.Expected.Known {
		t.Errorf("L2 is expected to read %v though a run of its ring has no temperature", p.Expected.Value)
	}
}

package layout

import (
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
)

// EndReading is what a meter should read at one end of a run.
type EndReading struct {
	Volts q.Volt
	Amps  q.Ampere // through the run
	Known bool     // false where nothing feeds it or there is no answer
}

// RunEnds returns what should be read at the start and the end of a run, as it
// was drawn.
func (f *Frame) RunEnds(run doc.ID) (ends [2]EndReading) {
	r, ok := f.Scheme.Runs.Get(run)
	if !ok || f.Circuits == nil {
		return ends
	}
	for i := range f.Circuits.Circuits {
		c := &f.Circuits.Circuits[i]
		b, ok := c.Branch[run]
		if !ok || i >= len(f.Results) || f.Results[i] == nil {
			continue
		}
		net, res := c.Input.Net, f.Results[i]
		br := &net.Branches[b]
		nodes := [2]int{br.From, br.To}
		if from := net.Nodes[br.From].ID; r.From.On != "" && from != string(r.From.On) || r.From.On == "" && from == string(r.To.On) {
			nodes = [2]int{br.To, br.From}
		}
		for n, node := range nodes {
			if node > net.Root {
				node-- // the board has no reading
			} else if node == net.Root {
				continue
			}
			p := &res.Points[node]
			ends[n].Volts, ends[n].Known = p.Voltage, p.Trusted
		}
		for k := range res.Runs {
			if x := &res.Runs[k]; x.ID == string(run) {
				ends[0].Amps, ends[1].Amps = x.Current, x.Current
				ends[0].Known, ends[1].Known = ends[0].Known && x.Trusted, ends[1].Known && x.Trusted
			}
		}
		return ends
	}
	return ends
}

package panel

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
)

// supplyForm is the properties of the supply point: what the survey found.
func supplyForm(on *subject) *form {
	f := newForm(on)
	supply := func() *doc.Supply { e, _ := on.scheme().Supplies.Get(on.id); return e }
	set := func(change func(*doc.Supply)) edit.Operation {
		e := *supply()
		change(&e)
		return put(&e)
	}
	f.text("Label", func() string { return supply().Tag },
		func(v string) edit.Operation { return set(func(e *doc.Supply) { e.Tag = v }) })
	f.stock("Takes power from", func() []option {
		return []option{{"spur", "an existing circuit, by a fused spur"}, {"own", "its own way at the board"}}
	}, func() string {
		if supply().Spur {
			return "spur"
		}
		return "own"
	}, func(v string) edit.Operation {
		return set(func(e *doc.Supply) {
			if e.Spur = v == "spur"; !e.Spur {
				e.Fuse = ""
			}
		})
	})
	earthRows(f, supply, set)
	deviceRows(f, supply, set)
	indoorRows(f, supply, set)
	f.heading("Place")
	placeRows(f, func() doc.Place { return supply().Place }, func(p doc.Place) edit.Operation {
		return set(func(e *doc.Supply) { e.Place = p })
	})
	readings(f)
	return f
}

type supplySet func(change func(*doc.Supply)) edit.Operation

func earthRows(f *form, supply func() *doc.Supply, set supplySet) {
	f.heading("Earthing and loop")
	f.choice("Earthing", func() []option { return earthingOptions }, func() string { return supply().Earthing.String() },
		func(v string) edit.Operation {
			return set(func(e *doc.Supply) { e.Earthing = earthingByKey(v) })
		})
	tt := func() bool { return supply().Earthing == network.TT }
	maybe(f, "Ze, outside", q.ParseOhm, func() q.Maybe[q.Ohm] { return supply().Ze },
		func(v q.Maybe[q.Ohm]) edit.Operation { return set(func(e *doc.Supply) { e.Ze = v }) }).when = func() bool { return !tt() }
	maybe(f, "Electrode RA", q.ParseOhm, func() q.Maybe[q.Ohm] { return supply().Electrode },
		func(v q.Maybe[q.Ohm]) edit.Operation {
			return set(func(e *doc.Supply) { e.Electrode = v })
		}).when = tt
	maybe(f, "Zs measured here", q.ParseOhm, func() q.Maybe[q.Ohm] { return supply().MeasuredZs },
		func(v q.Maybe[q.Ohm]) edit.Operation {
			return set(func(e *doc.Supply) { e.MeasuredZs = v })
		})
	maybe(f, "Fault current", q.ParseAmpere, func() q.Maybe[q.Ampere] { return supply().FaultCurrent },
		func(v q.Maybe[q.Ampere]) edit.Operation {
			return set(func(e *doc.Supply) { e.FaultCurrent = v })
		})
	f.hint("An empty field means not known. Unknown is not zero: the findings say what is missing.")
}

func deviceRows(f *form, supply func() *doc.Supply, set supplySet) {
	on := f.on
	f.heading("Protection")
	f.stock("Device at the board", func() []option { return deviceOptions(on.frame.Stock, "not known", atBoard) },
		func() string { return supply().Upstream },
		func(v string) edit.Operation {
			return set(func(e *doc.Supply) { e.Upstream = v })
		})
	f.stock("Separate RCD", func() []option { return deviceOptions(on.frame.Stock, "none", residualOnly) },
		func() string { return supply().Residual },
		func(v string) edit.Operation { return set(func(e *doc.Supply) { e.Residual = v }) })
	f.stock("Fuse of the spur", func() []option { return deviceOptions(on.frame.Stock, "none", spurFuse) },
		func() string { return supply().Fuse },
		func(v string) edit.Operation { return set(func(e *doc.Supply) { e.Fuse = v }) }).when = func() bool { return supply().Spur }
	maybe(f, "Load already on it", q.ParseAmpere, func() q.Maybe[q.Ampere] { return supply().ExistingLoad },
		func(v q.Maybe[q.Ampere]) edit.Operation {
			return set(func(e *doc.Supply) { e.ExistingLoad = v })
		})
	maybe(f, "Leakage already on it", q.ParseAmpere, func() q.Maybe[q.Ampere] { return supply().Leakage },
		func(v q.Maybe[q.Ampere]) edit.Operation { return set(func(e *doc.Supply) { e.Leakage = v }) })
	f.number("Nominal voltage", "", func() string { return supply().Nominal.String() }, func(s string) error {
		v, err := q.ParseVolt(s)
		if err != nil {
			return err
		}
		return on.desk.Commit(set(func(e *doc.Supply) { e.Nominal = v }))
	})
}

func indoorRows(f *form, supply func() *doc.Supply, set supplySet) {
	on := f.on
	f.heading("Cable from the board")
	f.stock("Cable", func() []option {
		out := cableOptions(on.frame.Stock)
		out[0].name = "not known"
		return out
	}, func() string { return supply().Indoor.Cable },
		func(v string) edit.Operation {
			return set(func(e *doc.Supply) { e.Indoor.Cable = v })
		})
	maybe(f, "Length", q.ParseMetre, func() q.Maybe[q.Metre] { return supply().Indoor.Length },
		func(v q.Maybe[q.Metre]) edit.Operation {
			return set(func(e *doc.Supply) { e.Indoor.Length = v })
		})
	f.choice("Method", func() []option { return methodOptions(on.frame.Stock, supply().Indoor.Cable) },
		func() string { return supply().Indoor.Method },
		func(v string) edit.Operation {
			return set(func(e *doc.Supply) { e.Indoor.Method = v })
		})
}

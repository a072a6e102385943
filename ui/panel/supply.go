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
	f.choice("Takes power from", func() []option {
		return []option{{"spur", "A fused spur"}, {"own", "Its own way"}}
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
	f.hint("Enter what the survey found. Empty means not known, which is not zero: the findings say what is missing.")
	earthRows(f, supply, set)
	deviceRows(f, supply, set)
	indoorRows(f, supply, set)
	f.fold(named("Board and existing circuit"), func() { furtherRows(f, supply, set) })
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
	maybe(f, "Ze at the board", "Ω", q.ParseOhm, func() q.Maybe[q.Ohm] { return supply().Ze },
		func(v q.Maybe[q.Ohm]) edit.Operation { return set(func(e *doc.Supply) { e.Ze = v }) }).when = func() bool { return !tt() }
	maybe(f, "Electrode RA", "Ω", q.ParseOhm, func() q.Maybe[q.Ohm] { return supply().Electrode },
		func(v q.Maybe[q.Ohm]) edit.Operation {
			return set(func(e *doc.Supply) { e.Electrode = v })
		}).when = tt
	maybe(f, "Zs measured here", "Ω", q.ParseOhm, func() q.Maybe[q.Ohm] { return supply().MeasuredZs },
		func(v q.Maybe[q.Ohm]) edit.Operation {
			return set(func(e *doc.Supply) { e.MeasuredZs = v })
		})
}

func deviceRows(f *form, supply func() *doc.Supply, set supplySet) {
	on := f.on
	f.heading("Protection")
	f.stock("Device at the board", func() []option { return deviceOptions(on.frame.Stock, "Not known", atBoard) },
		func() string { return supply().Upstream },
		func(v string) edit.Operation {
			return set(func(e *doc.Supply) { e.Upstream = v })
		})
	f.stock("Separate RCD", func() []option { return deviceOptions(on.frame.Stock, "None", residualOnly) },
		func() string { return supply().Residual },
		func(v string) edit.Operation { return set(func(e *doc.Supply) { e.Residual = v }) })
	f.stock("Fuse of the spur", func() []option { return deviceOptions(on.frame.Stock, "None", spurFuse) },
		func() string { return supply().Fuse },
		func(v string) edit.Operation { return set(func(e *doc.Supply) { e.Fuse = v }) }).when = func() bool { return supply().Spur }
	f.check(switchedCaption, func() bool { return supply().Switched },
		func(v bool) edit.Operation { return set(func(e *doc.Supply) { e.Switched = v }) }).when = func() bool { return supply().Spur }
}

func indoorRows(f *form, supply func() *doc.Supply, set supplySet) {
	on := f.on
	f.heading("Indoor leg: cable from the board")
	f.stock("Cable", func() []option { return indoorOptions(on.frame.Stock) }, func() string { return supply().Indoor.Cable },
		func(v string) edit.Operation {
			return set(func(e *doc.Supply) { e.Indoor.Cable = v })
		})
	maybe(f, "Length", "m", q.ParseMetre, func() q.Maybe[q.Metre] { return supply().Indoor.Length },
		func(v q.Maybe[q.Metre]) edit.Operation {
			return set(func(e *doc.Supply) { e.Indoor.Length = v })
		})
	f.choice("Method", func() []option { return methodOptions(on.frame.Stock, supply().Indoor.Cable) },
		func() string { return supply().Indoor.Method },
		func(v string) edit.Operation {
			return set(func(e *doc.Supply) { e.Indoor.Method = v })
		})
}

// furtherRows are what fewer findings ask for.
func furtherRows(f *form, supply func() *doc.Supply, set supplySet) {
	on := f.on
	maybe(f, "Load already on it", "A", q.ParseAmpere, func() q.Maybe[q.Ampere] { return supply().ExistingLoad },
		func(v q.Maybe[q.Ampere]) edit.Operation {
			return set(func(e *doc.Supply) { e.ExistingLoad = v })
		})
	maybe(f, "Leakage already on it", "mA", q.ParseAmpere, func() q.Maybe[q.Ampere] { return supply().Leakage },
		func(v q.Maybe[q.Ampere]) edit.Operation { return set(func(e *doc.Supply) { e.Leakage = v }) })
	f.count("Other circuits on the RCD", func() q.Maybe[q.Count] { return supply().OtherCircuits },
		func(v q.Maybe[q.Count]) edit.Operation {
			return set(func(e *doc.Supply) { e.OtherCircuits = v })
		})
	f.text("What else goes off with it", func() string { return supply().Shares },
		func(v string) edit.Operation { return set(func(e *doc.Supply) { e.Shares = v }) })
	f.number("Nominal voltage", "V", func() string { return supply().Nominal.String() }, func(s string) error {
		v, err := q.ParseVolt(s)
		if err != nil {
			return err
		}
		return on.desk.Commit(set(func(e *doc.Supply) { e.Nominal = v }))
	})
	maybe(f, "Fault current at the board", "kA", q.ParseAmpere, func() q.Maybe[q.Ampere] { return supply().FaultCurrent },
		func(v q.Maybe[q.Ampere]) edit.Operation {
			return set(func(e *doc.Supply) { e.FaultCurrent = v })
		})
}

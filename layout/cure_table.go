package layout

import "duskwire/calc/finding"

// wayOut is how the bench tries ways out of one code, from which level on.
type wayOut struct {
	from finding.Level
	try  func(*bench)
}

// waysOut has every code for which an edit of the scheme can be a way out. A
// code that can be a Stop is either here or in noEdit; a test walks them all.
var waysOut = map[finding.Code]wayOut{
	"CIR-01": {finding.Stop, (*bench).joinLoose},
	"CIR-02": {finding.Stop, (*bench).joinLoose},
	"CIR-03": {finding.Stop, (*bench).openEnd},
	"CIR-04": {finding.Stop, (*bench).openLoop},
	"CIR-05": {finding.Stop, (*bench).rightVoltage},
	"CIR-07": {finding.Stop, (*bench).partSupplies},
	"CIR-08": {finding.Stop, (*bench).chooseCable},
	"SOL-01": {finding.Decide, (*bench).volts},
	"SOL-02": {finding.Decide, (*bench).volts},
	"CAP-01": {finding.Decide, (*bench).deviceLoad},
	"CAP-02": {finding.Decide, (*bench).capacity},
	"CAP-03": {finding.Decide, (*bench).ratedCable},
	"VD-01":  {finding.Decide, (*bench).mainsDrop},
	"VD-02":  {finding.Decide, (*bench).volts},
	"VD-03":  {finding.Decide, (*bench).volts},
	"FLT-01": {finding.Decide, (*bench).faultLoop},
	"FLT-02": {finding.Decide, (*bench).supplyLoop},
	"FLT-03": {finding.Decide, (*bench).otherSources},
	"FLT-04": {finding.Decide, (*bench).earthedRun},
	"FLT-05": {finding.Decide, (*bench).residualDevice},
	"FLT-07": {finding.Decide, (*bench).faultLoop},
	"FLT-08": {finding.Note, (*bench).faultLoop},
	"RCD-01": {finding.Decide, (*bench).residualDevice},
	"RCD-04": {finding.Decide, (*bench).residualDevice},
	"INR-01": {finding.Note, (*bench).slowerDevice},
	"CTL-01": {finding.Decide, (*bench).otherGear},
	"DIM-01": {finding.Decide, (*bench).dimming},
	"DIM-02": {finding.Decide, (*bench).otherGear},
	"ISO-01": {finding.Decide, (*bench).isolation},
	"NEU-01": {finding.Decide, (*bench).ownCable},
	"LHD-01": {finding.Decide, (*bench).softerDevice},
	"ADI-01": {finding.Decide, (*bench).faultLoop},
	"ADI-02": {finding.Decide, (*bench).faultLoop},
	"ADI-03": {finding.Decide, (*bench).faultLoop},
	"BRK-01": {finding.Stop, (*bench).strongerDevice},
	"SRC-01": {finding.Decide, (*bench).sourceLoad},
	"SRC-03": {finding.Decide, (*bench).otherSources},
	"SRC-04": {finding.Decide, (*bench).drivers},
	"SRC-05": {finding.Decide, (*bench).drivers},
	"SRC-06": {finding.Decide, (*bench).drivers},
	"EAR-02": {finding.Decide, (*bench).earthPath},
	"EAR-03": {finding.Decide, (*bench).earthPath},
	"EAR-04": {finding.Decide, (*bench).earthPath},
	"BOX-01": {finding.Decide, (*bench).roomierBox},
	"BOX-02": {finding.Decide, (*bench).blankEntries},
	"BOX-03": {finding.Decide, (*bench).blankEntries},
	"BOX-04": {finding.Decide, (*bench).drierBox},
	"BOX-05": {finding.Decide, (*bench).drierBox},
	"BOX-06": {finding.Decide, (*bench).drierBox},
	"BOX-08": {finding.Decide, (*bench).roomierBox},
	"GLD-01": {finding.Decide, (*bench).sealedGlands},
	"DIG-01": {finding.Decide, (*bench).deeper},
	"DIG-02": {finding.Decide, (*bench).deeper},
	"DIG-03": {finding.Decide, (*bench).harder},
	"DIG-04": {finding.Decide, (*bench).taped},
	"DIG-05": {finding.Decide, (*bench).sleeved},
	"TRE-01": {finding.Decide, (*bench).roundTree},
	"PND-01": {finding.Decide, (*bench).pondLamp},
	"SUP-01": {finding.Decide, (*bench).offFence},
	"SUP-02": {finding.Decide, (*bench).sleeved},
	"SUP-04": {finding.Decide, (*bench).drilled},
	"LUX-02": {finding.Note, (*bench).offAtCurfew},
	"LUX-08": {finding.Note, (*bench).offAtCurfew},
	"LUX-09": {finding.Note, (*bench).offAtCurfew},
	"LUX-10": {finding.Note, (*bench).offAtCurfew},
}

// noEdit has the codes of Stops, and of drops and loops, out of which no edit
// of the scheme leads, with the reason.
var noEdit = map[finding.Code]string{
	"CIR-06": "where the garden takes its power only the survey tells: place the supply point there",
	"VD-04":  "the cable, its length and what else hangs on it have to be found out on site",
	"TST-01": "what was measured changes only when the work is put right and measured again",
	"FLT-06": "how steady the electrode is, only measuring in dry weather tells",
}

// NoEdit says why no change of the plan leads out of a finding, "" where one
// may.
func NoEdit(code finding.Code) string { return noEdit[code] }

// volts tries ways out of too few or too many volts.
func (b *bench) volts() {
	switch {
	case b.node < 0:
	case b.over:
		b.otherSources()
	case b.net.Nodes[b.node].System == 0:
		b.mainsDrop()
	default:
		b.moveSource()
		b.centreFeed()
		b.feedFarEnd()
		b.splitFeed()
		b.secondSource()
		b.doubleVoltage()
		b.cables()
	}
}

func (b *bench) mainsDrop() {
	b.splitFeed()
	b.cables()
}

func (b *bench) faultLoop() {
	b.softerDevice()
	b.cables()
}

func (b *bench) supplyLoop() {
	b.softerDevice()
	b.indoorLeg()
	b.ownWay()
}

func (b *bench) sourceLoad() {
	b.otherSources()
	b.secondSource()
}

// capacity tries ways out of a cable that carries too little.
func (b *bench) capacity() {
	if b.system() == 0 {
		b.softerDevice()
	} else {
		b.doubleVoltage()
	}
	b.cables()
}

// earthedRun tries cables with a protective conductor when the finding is about
// a run.
func (b *bench) earthedRun() {
	if _, isRun := b.circuit.Branch[b.subject()]; isRun {
		b.earthedCables()
	}
}

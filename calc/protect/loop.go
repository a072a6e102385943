package protect

import (
	"duskwire/calc/network"
	q "duskwire/calc/quantity"
)

// Loop is the earth-fault loop at one node. The figures of a loop that is not
// Known hold only the parts that are: they are for reading R1+R2 and never for
// a verdict.
type Loop struct {
	// Applies is false beyond a separated extra-low-voltage source and at
	// nodes the tree does not reach.
	Applies bool
	// Known is false when a part of the loop is not known (Ze, indoor leg,
	// broken earth path); Missing then says which.
	Known   bool
	Missing string
	// Path says which conductor returns the current in the last branch.
	Path network.EarthPath
	// Broken names the branch where the protective conductor ends: its cable has
	// none, or its armour is not joined at an end and Gap says why; -1.
	Broken   int
	Gap      string
	R1R2Cold q.Ohm // from the supply point to the node at 20 °C
	R1R2Hot  q.Ohm // the same at operating temperature
	// R1R2Armour is the part of R1R2Cold that is armour, its magnetic allowance
	// included; StartArmour the same of StartCold. Steel follows temperature
	// otherwise than copper.
	R1R2Armour, StartArmour q.Ohm
	Start                   q.Ohm // loop at the supply point, as measured or computed
	Measured                bool  // Start was measured cold
	// StartCold is Start with the indoor leg at 20 °C; the same as Start when
	// that was measured.
	StartCold q.Ohm
	Cold      q.Ohm // StartCold + R1R2Cold: what a cold measurement should read
	Hot       q.Ohm // Start + R1R2Hot: the design value
	// Device is the index of the nearest upstream overcurrent device in
	// Upstream; -1 when there is none.
	Device int
	// Upstream are the devices between the board and the node, board first.
	Upstream []network.Device
}

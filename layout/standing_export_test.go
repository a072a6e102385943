package layout

// Solids and Blockers are open to the tests of the package from outside.
var (
	SolidsOf   = solidsOf
	BlockersOf = blockersOf
	NewGaps    = newGaps
)

package check

// MeasuredRules are the entries of the TST codes for lists of codes: what was read
// is judged from the whole scheme, outside the circuit.
var MeasuredRules = []Rule{
	{Code: "TST-01", Title: "A measured value outside its limit"},
	{Code: "TST-02", Title: "A measured value far from the expected one"},
	{Code: "TST-03", Title: "A reading of what is no longer drawn"},
}

package layout

// TakenHeight is what the Dusk view takes, in metres, for the height of areas and
// lines of a kind that have none; 0 for kinds whose height of nothing is meant so, or
// plays no part (common practice, no source).
func TakenHeight(kind string) float64 {
	switch kind {
	case "building":
		return tallBuilding
	case "wall", "fence":
		return tallWall
	case "step":
		return stepHigh
	case "pergola":
		return pergolaHigh
	}
	return 0
}

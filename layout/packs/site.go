package packs

// site puts the site pack together.
func site(d *draft) string {
	d.cover([]string{
		"Lengths include the allowances shown: measure before cutting.",
		"Mark out, then show the client where it will be dug. Take photographs with a scale before backfilling.",
		"Write on these pages what was done otherwise: the as-built page of the test pack is made from it.",
	})
	d.routeDrawings()
	d.tapeDrawings()
	d.list("Setting out", false, d.settingOut)
	d.list("Trenches", true, d.trenches)
	d.list("Cut list", true, d.cutList)
	d.drums()
	d.list("Materials", false, d.materialList)
	d.list("Box sheets", false, d.boxSheets)
	d.list("Labels", false, d.labelPages)
	d.list("Tools", false, d.tools)
	return "Site pack"
}

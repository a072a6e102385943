package layout

// SmallDusk is NewDusk with few cells, for tests that make many pictures.
func SmallDusk() *Dusk {
	d := NewDusk()
	d.cells = 96 * 96
	return d
}

package panel

// Shown returns the rows that stand in the panel, top first, as they can be
// read there: "Stop  L3  CIR-01: ...", and the head of the notes, "8 Notes".
func (p *Findings) Shown() []string {
	out := []string{}
	head := func() {
		if p.noted.Visible() {
			out = append(out, p.notes.Text)
		}
	}
	for i, r := range p.rows {
		if i == p.worse {
			head()
		}
		if r.Visible() {
			out = append(out, r.head.Text+": "+r.text.Text)
		}
	}
	if p.worse >= len(p.rows) {
		head()
	}
	return out
}

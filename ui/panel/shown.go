package panel

// Shown returns the rows that stand in the panel, top first, as they can be
// read there: "Stop  L3  CIR-01: ...".
func (p *Findings) Shown() []string {
	out := []string{}
	for _, r := range p.rows {
		if r.Visible() {
			out = append(out, r.head.Text+": "+r.text.Text)
		}
	}
	return out
}

package scene

// Tone is how one kind of ground is painted.
type Tone struct{ Fill, Hatch Colour }

// Palette holds every colour of the plan. The colours are our own, picked so
// that the three kinds of colour blindness keep apart what differs (a test
// measures how far); no meaning hangs on colour alone (see the dashes, hatches
// and mark shapes).
type Palette struct {
	Paper Colour // background, and inside of symbols
	Ink   Colour // symbols, tags
	Soft  Colour // secondary text and lines
	Grid  Colour

	Ground map[string]Tone // by doc.AreaKinds
	Other  Tone            // any other kind

	Mains    Colour // runs at mains voltage
	Extra    Colour // runs at extra-low voltage
	Wall     Colour
	Service  Colour // buried services of others
	Planting Colour // trees

	Stop, Decide, Note Colour
	OnMark             Colour // sign inside a finding mark

	Zone map[string]Colour // by doc.ZoneColours
}

func rgb(hex uint32) Colour {
	return Colour{uint8(hex >> 16), uint8(hex >> 8), uint8(hex), 255}
}

// Light returns the palette for paper and for a light screen.
func Light() *Palette {
	return &Palette{
		Paper: rgb(0xFFFFFF), Ink: rgb(0x14181D), Soft: rgb(0x4A525C), Grid: rgb(0xE3E7EB),
		Ground: map[string]Tone{
			"building": {rgb(0xE4E4E6), rgb(0xA9ABB0)},
			"paving":   {rgb(0xF3EFE8), rgb(0xCFC6B7)},
			"lawn":     {rgb(0xECF4E6), rgb(0x9DB98A)},
			"border":   {rgb(0xE3EDDC), rgb(0x86A477)},
			"dug bed":  {rgb(0xF0E7DC), rgb(0xB79A7C)},
			"deck":     {rgb(0xF5EBDD), rgb(0xD2B993)},
			"gravel":   {rgb(0xF4F2EE), rgb(0xA8A298)},
			"drive":    {rgb(0xECECEA), rgb(0xB4B4B0)},
			"water":    {rgb(0xE1EFF6), rgb(0x7FA9C4)},
		},
		Other: Tone{rgb(0xF4F4F4), rgb(0xC4C4C4)},
		Mains: rgb(0xA83300), Extra: rgb(0x0058AB),
		Wall: rgb(0x3C4148), Service: rgb(0x892B76), Planting: rgb(0x4E7B42),
		Stop: rgb(0x970F1B), Decide: rgb(0x935C00), Note: rgb(0x00548F), OnMark: rgb(0xFFFFFF),
		Zone: map[string]Colour{
			"amber": rgb(0xAB6600), "blue": rgb(0x0C70D0), "green": rgb(0x0C7E64),
			"violet": rgb(0x743A91), "red": rgb(0xA7321D), "grey": rgb(0x5B6670),
		},
	}
}

// Dark returns the palette for a dark screen.
func Dark() *Palette {
	return &Palette{
		Paper: rgb(0x12161B), Ink: rgb(0xEEF1F4), Soft: rgb(0xAEB7C0), Grid: rgb(0x232A32),
		Ground: map[string]Tone{
			"building": {rgb(0x2A2E34), rgb(0x565D66)},
			"paving":   {rgb(0x25231F), rgb(0x4A453D)},
			"lawn":     {rgb(0x19241A), rgb(0x3F5A3B)},
			"border":   {rgb(0x1B2A1C), rgb(0x4C6B45)},
			"dug bed":  {rgb(0x2A211A), rgb(0x67523E)},
			"deck":     {rgb(0x2B241A), rgb(0x5A4A34)},
			"gravel":   {rgb(0x23221F), rgb(0x625E56)},
			"drive":    {rgb(0x202224), rgb(0x4E5255)},
			"water":    {rgb(0x12242F), rgb(0x3A647E)},
		},
		Other: Tone{rgb(0x1E2227), rgb(0x444A51)},
		Mains: rgb(0xFF8441), Extra: rgb(0x5FB5FF),
		Wall: rgb(0xB9C0C8), Service: rgb(0xDC84C6), Planting: rgb(0x88B87A),
		Stop: rgb(0xFF5C6E), Decide: rgb(0xF2B233), Note: rgb(0x62B5F0), OnMark: rgb(0x12161B),
		Zone: map[string]Colour{
			"amber": rgb(0xF2A92D), "blue": rgb(0x46A8FF), "green": rgb(0x1ED2AA),
			"violet": rgb(0xB482C4), "red": rgb(0xF67960), "grey": rgb(0xA3AEB8),
		},
	}
}

// tone returns the paint of a kind of ground.
func (p *Palette) tone(kind string) Tone {
	if t, ok := p.Ground[kind]; ok {
		return t
	}
	return p.Other
}

// zone returns the colour of a zone key; an unknown one is Soft.
func (p *Palette) zone(key string) Colour {
	if c, ok := p.Zone[key]; ok {
		return c
	}
	return p.Soft
}

// Grey returns the palette as a black-and-white printer shows it: every
// colour by its luminance 0.2126 R + 0.7152 G + 0.0722 B (the weights of
// ITU-R BT.709, here on sRGB values, which is near enough for a preview).
func (p *Palette) Grey() *Palette {
	g := *p
	for _, c := range []*Colour{&g.Paper, &g.Ink, &g.Soft, &g.Grid, &g.Other.Fill, &g.Other.Hatch,
		&g.Mains, &g.Extra, &g.Wall, &g.Service, &g.Planting, &g.Stop, &g.Decide, &g.Note, &g.OnMark} {
		*c = c.grey()
	}
	g.Ground = map[string]Tone{}
	for k, t := range p.Ground {
		g.Ground[k] = Tone{t.Fill.grey(), t.Hatch.grey()}
	}
	g.Zone = map[string]Colour{}
	for k, c := range p.Zone {
		g.Zone[k] = c.grey()
	}
	return &g
}

func (c Colour) grey() Colour {
	y := uint8(0.2126*float64(c.R) + 0.7152*float64(c.G) + 0.0722*float64(c.B) + 0.5)
	return Colour{y, y, y, c.A}
}

package packs

import "duskwire/calc/network"

const greenYellow = "green-yellow"

// core is one core of a cable: its colour, what it is used for and the sleeve
// that it gets.
type core struct{ colour, use, sleeve string }

// coresOf returns the cores of a cable and what each is for. Armoured cable of
// three cores is made in two ways, brown, black and grey or brown, blue and
// green-yellow; the first is taken, since only it asks for sleeves (data sheets
// of makers). Other colours: BS 7671 Table 51 (from memory). direct says that
// an extra-low-voltage run carries direct current.
func coresOf(c *network.Cable, mains, direct bool) []core {
	if !mains {
		names := [2]string{"first core", "second core"}
		if direct {
			names = [2]string{"+", "−"}
		}
		return []core{{"marked core", names[0], ""}, {"plain core", names[1], ""}}
	}
	l := core{"brown", "L", ""}
	switch {
	case c.Cores == 2 && c.Earth == network.EarthCore: // flat twin and earth
		return []core{l, {"blue", "N", ""}, {"bare", "protective", greenYellow}}
	case c.Cores == 2:
		return []core{l, {"blue", "N", ""}}
	case c.ArmourArea <= 0 && c.Cores == 3:
		return []core{l, {"blue", "N", ""}, {greenYellow, "protective", ""}}
	case c.Cores == 3:
		return []core{l, {"grey", "N", "blue"}, {"black", "protective", greenYellow}}
	case c.Cores == 4:
		return []core{l, {"blue", "N", ""}, {"black", "protective", greenYellow}, {"grey", "spare", ""}}
	case c.Cores == 5:
		return []core{l, {"blue", "N", ""}, {greenYellow, "protective", ""}, {"black", "spare", ""}, {"grey", "spare", ""}}
	}
	return nil
}

// coreText writes the cores in one line.
func coreText(list []core) string {
	s := ""
	for i, c := range list {
		if i > 0 {
			s += "; "
		}
		s += c.colour + " " + c.use
		if c.sleeve != "" {
			s += ", sleeved " + c.sleeve
		}
	}
	if s == "" {
		return "not known"
	}
	return s
}

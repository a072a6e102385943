package panel

import (
	"duskwire/calc/network"
	"duskwire/layout/doc"
)

// Lists to choose from, made from the stock book of the frame.

// offered turns stock to choose from into options.
func offered(list []doc.Choice) (out []option) {
	for _, c := range list {
		out = append(out, option{c.Key, c.Name})
	}
	return out
}

func lampOptions(s *doc.Stock) []option   { return offered(s.Choices(doc.LampKind)) }
func boxOptions(s *doc.Stock) []option    { return offered(s.Choices(doc.BoxKind)) }
func gearOptions(s *doc.Stock) []option   { return offered(s.Choices(doc.GearKind)) }
func sourceOptions(s *doc.Stock) []option { return offered(s.Choices(doc.SourceKind)) }

// cableOptions lists the cables.
func cableOptions(s *doc.Stock) []option {
	return append([]option{{"", "not chosen"}}, offered(s.Choices(doc.RunKind))...)
}

// sheathOptions lists the runs in whose cable a run may have its cores.
func sheathOptions(s *doc.Scheme, own doc.ID) []option {
	out := []option{{"", "A cable of its own"}}
	for _, r := range s.Runs.All() {
		if r.ID != own && r.With == "" {
			out = append(out, option{string(r.ID), r.Tag})
		}
	}
	return out
}

// indoorOptions lists the cables for the indoor leg: those not made for the
// ground first, because they are what a house is wired in.
func indoorOptions(s *doc.Stock) []option {
	out := []option{{"", "Not known"}}
	for _, ground := range []bool{false, true} {
		out = append(out, offered(s.CableChoices(func(c *network.Cable) bool {
			return (c.Buriable || !c.Mains) == ground
		}))...)
	}
	return out
}

// fillOptions lists what a box may be filled with.
func fillOptions() []option {
	return []option{{"", "Not said"}, {"none", "Nothing"}, {"gel", "Gel"}, {"resin", "Resin"}}
}

// holeOptions lists how a hole through a wall may fall.
func holeOptions() []option {
	return []option{{"", "None, or not said"}, {"out", "Falls to the outside"}, {"in", "Falls to the inside"}}
}

// glandOptions lists the kinds of gland for armour.
func glandOptions() []option {
	return []option{{"", "Not said (CW)"}, {"BW", "BW, for dry places"}, {"CW", "CW, sealed"}, {"E1W", "E1W, sealed twice"}}
}

// deviceOptions lists the devices that fit; none is the text for no device.
func deviceOptions(s *doc.Stock, none string, fits func(network.Device) bool) []option {
	out := []option{{"", none}}
	for _, d := range s.Devices {
		if fits(d.Device) {
			out = append(out, option{d.Key, d.Name})
		}
	}
	return out
}

func atBoard(d network.Device) bool {
	return d.Overcurrent() && d.Kind != network.FuseBS1362
}

func residualOnly(d network.Device) bool { return d.Kind == network.ResidualRCD }

func spurFuse(d network.Device) bool { return d.Kind == network.FuseBS1362 }

// supports are the ways a leg is carried, in the order people meet them.
var supports = []struct {
	value network.Support
	key   string
	name  string
}{
	{network.Buried, "buried", "Buried"},
	{network.InDuct, "in duct", "In duct"},
	{network.Clipped, "clipped", "Clipped to a wall"},
	{network.OnStructure, "on structure", "On a structure"},
	{network.InTree, "in tree", "In a tree"},
	{network.Indoors, "indoors", "Indoors"},
}

// SupportNames lists how a leg can be carried, for the tray.
func SupportNames() (out []string) {
	for _, s := range supports {
		out = append(out, s.name)
	}
	return out
}

// SupportName returns the words for a support.
func SupportName(v network.Support) string {
	for _, s := range supports {
		if s.value == v {
			return s.name
		}
	}
	return ""
}

// SupportOf returns the support with the words.
func SupportOf(name string) (network.Support, bool) {
	for _, s := range supports {
		if s.name == name {
			return s.value, true
		}
	}
	return 0, false
}

func supportOptions() (out []option) {
	for _, s := range supports {
		out = append(out, option{s.key, s.name})
	}
	return out
}

func supportKey(v network.Support) string {
	for _, s := range supports {
		if s.value == v {
			return s.key
		}
	}
	return ""
}

func supportByKey(key string) network.Support {
	for _, s := range supports {
		if s.key == key {
			return s.value
		}
	}
	return network.Clipped
}

// underground reports whether a leg has a depth rather than a height.
func underground(v network.Support) bool { return v == network.Buried || v == network.InDuct }

var earthingOptions = []option{
	{"unknown", "Not known yet"}, {"TN-S", "TN-S"}, {"TN-C-S", "TN-C-S"}, {"TT", "TT"},
}

func earthingByKey(key string) network.Earthing {
	for _, e := range []network.Earthing{network.TNS, network.TNCS, network.TT} {
		if e.String() == key {
			return e
		}
	}
	return network.EarthingUnknown
}

// methodNames are the reference methods in words; a method without a name is
// shown by its number alone.
var methodNames = map[string]string{
	"A": "in an insulated wall", "B": "in conduit", "C": "clipped direct", "D": "in the ground",
	"E": "free air", "100": "above a ceiling", "101": "under thick insulation",
	"102": "in an insulated stud wall", "103": "surrounded by insulation",
}

// methodOptions lists the methods that the cable has a rating for.
func methodOptions(s *doc.Stock, cable string) []option {
	out := []option{{"", "As the support asks"}}
	c, ok := s.Cable(cable)
	if !ok {
		return out
	}
	seen := map[string]bool{}
	for _, r := range c.Ratings {
		if seen[r.Method] {
			continue
		}
		seen[r.Method] = true
		name := r.Method
		if words := methodNames[r.Method]; words != "" {
			name += ", " + words
		}
		out = append(out, option{r.Method, name})
	}
	return out
}

package doc

import "duskwire/calc/network"

// Choice is one stock item to choose from: its key and the name people read.
type Choice struct{ Key, Name string }

// Choices returns the items that an entity of the kind may name as its stock,
// in the order of the book; of a run all cables.
func (s *Stock) Choices(k Kind) []Choice {
	switch k {
	case LampKind:
		return choices(s.Lamps, func(i LampStock) Choice { return Choice{i.Key, i.Name} })
	case BoxKind:
		return choices(s.Boxes, func(i BoxStock) Choice { return Choice{i.Key, i.Name} })
	case GearKind:
		return choices(s.Gear, func(i GearStock) Choice { return Choice{i.Key, i.Name} })
	case SourceKind:
		return choices(s.Sources, func(i SourceStock) Choice { return Choice{i.Key, i.Name} })
	case RunKind:
		return s.CableChoices(func(*network.Cable) bool { return true })
	}
	return nil
}

// CableChoices returns the cables that fit, in the order of the book.
func (s *Stock) CableChoices(fits func(*network.Cable) bool) []Choice {
	var out []Choice
	for _, c := range s.Cables {
		if fits(c) {
			out = append(out, Choice{c.Key, c.Name})
		}
	}
	return out
}

func choices[T any](items []T, of func(T) Choice) []Choice {
	out := make([]Choice, len(items))
	for i, item := range items {
		out[i] = of(item)
	}
	return out
}

package panel

import (
	"strings"

	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/layout"
)

// headroom returns what is left of everything. While something is dragged it
// stays as it was before and is brought up to date at the end.
func (s *subject) headroom() *layout.Rooms {
	if s.rooms == nil || s.roomsAt != s.frame.Seq && !s.frame.Preview {
		s.rooms, s.roomsAt = s.desk.Rooms(), s.frame.Seq
	}
	return s.rooms
}

// room returns what is left at the subject.
func (s *subject) room() (layout.Room, bool) { return s.headroom().At(s.id) }

// roomRows adds what is left at the subject before a finding turns.
func roomRows(f *form) {
	on := f.on
	have := func(want func(layout.Room) bool) func() bool {
		return func() bool {
			h, ok := on.room()
			return ok && want(h)
		}
	}
	metres := func(h layout.Room) bool { return h.Metres.Known }
	amperes := func(h layout.Room) bool { return h.Amperes.Known }
	lamps := func(h layout.Room) bool { return h.LampsText() != "" }
	f.heading("Room left").when = have(func(h layout.Room) bool { return metres(h) || amperes(h) })
	figure := func(name string, want func(layout.Room) bool, text func(layout.Room) string) {
		f.figure(name, func() string { h, _ := on.room(); return text(h) }).why(func() Tip { return whyRoom(name) }).when = have(want)
	}
	figure("Longer by", metres, func(h layout.Room) string { return left(layout.MetresText(h.Metres.Value), h.MetresBinds) })
	figure("More current", amperes, func(h layout.Room) string { return left(layout.AmperesText(h.Amperes.Value), h.AmperesBinds) })
	figure("More lamps", lamps, func(h layout.Room) string { return left(h.LampsText(), h.LampsBinds) })
	assumed := func(h layout.Room) bool { return h.Assumed != "" && (metres(h) || amperes(h)) }
	figure("Assumed", assumed, func(h layout.Room) string { return h.Assumed })
	f.figure("Leakage left", func() string {
		var out []string
		for _, l := range on.headroom().RCDs() {
			if l.ID == string(on.id) && l.Left.Known {
				out = append(out, l.Device+": "+left(layout.MilliampsText(l.Left.Value), l.Binds))
			}
		}
		return strings.Join(out, "\n")
	}).when = func() bool {
		for _, l := range on.headroom().RCDs() {
			if l.ID == string(on.id) && l.Left.Known {
				return true
			}
		}
		return false
	}
}

// left says how much is left and which rule binds then.
func left(text string, binds finding.Code) string {
	if binds == "" {
		return text
	}
	text += ", then " + string(binds)
	for _, r := range check.All() {
		if r.Code == binds {
			return text + ": " + strings.ToLower(r.Title[:1]) + r.Title[1:]
		}
	}
	return text
}

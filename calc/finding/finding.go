// Package finding is the language in which the calculation speaks: a coded,
// levelled statement about one subject, with the figure, the limit, the source
// of the limit and the working that led to the figure.
package finding

import (
	"sort"
	"strings"
)

// Level says what a finding asks of the reader.
type Level int

const (
	// Held is a checked statement that meets its limit. It is produced only
	// when the working of one subject is asked for and is never listed as a
	// finding of the scheme.
	Held Level = iota
	// Note tells something worth knowing.
	Note
	// Decide asks the electrician to decide and to record why.
	Decide
	// Stop means: do not build. It cannot be silenced, only overruled with a
	// recorded reason.
	Stop
)

// String returns the word shown to people.
func (l Level) String() string {
	switch l {
	case Held:
		return "Held"
	case Note:
		return "Note"
	case Decide:
		return "Decide"
	case Stop:
		return "Stop"
	}
	return "?"
}

// Code is the stable name of a rule, such as "VD-01". Codes are never reused.
type Code string

// Evidence says how a value was come by. It is shown with the figure.
type Evidence string

const (
	// Found was read in a public page that cites the standard.
	Found Evidence = "found"
	// Memory is a standard value recalled, not seen in print.
	Memory Evidence = "from memory"
	// Derived follows by the formula given.
	Derived Evidence = "derived"
	// Practice is trade habit without a written source.
	Practice Evidence = "common practice, no source"
)

// Source names where a limit or table value comes from.
type Source struct {
	Standard string   // "BS 7671:2018"
	Clause   string   // "Table 41.3", "525.1"
	Edition  string   // "18th edition, A2-era values"
	Evidence Evidence // how the number was come by
}

// String returns the source in one line with its evidence. A clause in words is
// set off by a comma; one that is a number or a table is not.
func (s Source) String() string {
	out := s.Standard
	if s.Clause != "" {
		if c := s.Clause[0]; out != "" && c >= 'a' && c <= 'z' {
			out += ", "
		} else if out != "" {
			out += " "
		}
		out += s.Clause
	}
	if s.Edition != "" {
		out += ", " + s.Edition
	}
	switch {
	case s.Evidence == "":
	case out == "":
		out = string(s.Evidence)
	default:
		out += " (" + string(s.Evidence) + ")"
	}
	return out
}

// Subject is the thing a finding is about: an entity of the plan by its id,
// with the label people use for it ("L7").
type Subject struct {
	ID    string
	Label string
}

// Action is a remedy that the program can carry out as one operation.
type Action struct {
	Kind  string // "cable": set the cable of run ID to stock item Value
	ID    string
	Value string
}

// Remedy is one way out, with the figure that it would give.
type Remedy struct {
	Text   string  // "use 2.5 mm² for this run"
	Figure string  // "4.6 % at L7"
	Action *Action // nil when it cannot be applied by the program
	// Tried says that the desk tries this way out on the whole scheme and gives
	// the figure that comes out, so that these words need not stand beside it.
	Tried bool
}

// Overrule records who decided against a finding, when and why.
type Overrule struct {
	By, On, Reason string
}

// Finding is one checked statement.
type Finding struct {
	Code      Code
	Level     Level
	Subject   Subject
	Also      []Subject // other things involved, nearest first
	Text      string    // one sentence: what was found
	Figure    string    // the figure with its unit, or "" when there is none
	Limit     string    // the limit with its unit, or ""
	Source    Source    // of the limit
	Working   string    // formula with the numbers in it, one step a line
	Assumed   []string  // what was not known and what was taken instead
	Remedies  []Remedy
	Overruled *Overrule // nil unless overruled in the scheme
}

// Sort orders findings worst first, then by code, then by subject label and
// id, so that the same scheme always prints the same list.
func Sort(fs []Finding) {
	sort.SliceStable(fs, func(i, j int) bool {
		a, b := &fs[i], &fs[j]
		if a.Level != b.Level {
			return a.Level > b.Level
		}
		if a.Code != b.Code {
			return a.Code < b.Code
		}
		if a.Subject.Label != b.Subject.Label {
			return LessLabel(a.Subject.Label, b.Subject.Label)
		}
		return a.Subject.ID < b.Subject.ID
	})
}

// LessLabel orders "L2" before "L10": a run of digits compares as a number,
// and of equal numbers the one with fewer leading zeros comes first.
func LessLabel(a, b string) bool {
	i, j := 0, 0
	for i < len(a) && j < len(b) {
		if isDigit(a[i]) && isDigit(b[j]) {
			da, db := digits(a[i:]), digits(b[j:])
			na, nb := strings.TrimLeft(da, "0"), strings.TrimLeft(db, "0")
			if len(na) != len(nb) {
				return len(na) < len(nb)
			}
			if na != nb {
				return na < nb
			}
			if len(da) != len(db) {
				return len(da) < len(db)
			}
			i, j = i+len(da), j+len(db)
			continue
		}
		if a[i] != b[j] {
			return a[i] < b[j]
		}
		i++
		j++
	}
	return len(a)-i < len(b)-j
}

// digits returns the run of digits that s starts with.
func digits(s string) string {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return s[:n]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// Count returns how many findings have the level and are not overruled.
func Count(fs []Finding, l Level) int {
	n := 0
	for i := range fs {
		if fs[i].Level == l && fs[i].Overruled == nil {
			n++
		}
	}
	return n
}

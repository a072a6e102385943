package scene

import (
	"strconv"
	"strings"

	"duskwire/calc/network"
)

// sentence returns words with a capital first letter.
func sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// cableText returns the short name of a cable on a plan: cores and size,
// "3 × 1.5 mm²".
func cableText(c *network.Cable) string {
	return strconv.Itoa(c.Cores) + " × " + c.Size.String()
}

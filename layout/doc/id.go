package doc

import (
	"strconv"
	"strings"

	"github.com/google/uuid"
)

// NewID returns a fresh random id.
func NewID() ID { return ID(uuid.NewString()) }

// MostNumber is more than tags are counted up to; a tag with a longer number is
// a name that somebody made up, and counting on from it would overflow.
const MostNumber = 1000000000

// NextTag returns the lowest unused tag with the prefix, "L8" after "L7".
// Numbers of deleted entities are not filled again below the highest in use,
// so that a label once printed keeps meaning the same lamp.
func NextTag[E Entity](s Set[E], prefix string) string {
	high := 0
	for _, e := range s.All() {
		n, err := strconv.Atoi(strings.TrimPrefix(e.Label(), prefix))
		if err == nil && n < MostNumber && strings.HasPrefix(e.Label(), prefix) {
			high = max(high, n)
		}
	}
	return prefix + strconv.Itoa(high+1)
}

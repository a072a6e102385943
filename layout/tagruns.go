package layout

import (
	"slices"
	"strconv"
	"strings"

	"duskwire/calc/finding"
)

// TagRuns writes a list of tags, "L1 to L4, L7".
func TagRuns(tags []string) string {
	sorted := slices.Clone(tags)
	slices.SortStableFunc(sorted, func(a, b string) int {
		switch {
		case finding.LessLabel(a, b):
			return -1
		case finding.LessLabel(b, a):
			return 1
		}
		return 0
	})
	var parts []string
	for i := 0; i < len(sorted); {
		j := i
		for j+1 < len(sorted) && follows(sorted[j], sorted[j+1]) {
			j++
		}
		if j-i >= 2 {
			parts = append(parts, sorted[i]+" to "+sorted[j])
		} else {
			parts = append(parts, sorted[i:j+1]...)
		}
		i = j + 1
	}
	return strings.Join(parts, ", ")
}

// follows reports whether b is a with the next number.
func follows(a, b string) bool {
	letters := strings.TrimRight(a, "0123456789")
	if letters != strings.TrimRight(b, "0123456789") {
		return false
	}
	n, _ := strconv.Atoi(a[len(letters):])
	return b == letters+strconv.Itoa(n+1)
}

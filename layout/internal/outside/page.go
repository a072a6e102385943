package outside

import (
	"fmt"
	"strconv"
	"strings"
)

// Page writes testdata/CHECKS.md. runs names, per file key, the test that runs
// its rows.
func Page(files []File, runs map[string]string) string {
	var s strings.Builder
	total, negative := 0, 0
	for _, f := range files {
		total += len(f.Rows)
		for _, r := range f.Rows {
			if r.Negative {
				negative++
			}
		}
	}
	fmt.Fprintf(&s, `# Outside check values

Written from testdata/checks by the test of layout/internal/outside; do not
edit. Every line is a value from outside the program that a test holds it to,
within the tolerance given: %d in all. %d of them are printed values known to be
wrong, marked *not*; the program must not come within the tolerance of those.

How sure a value is: *found* was read in print, *from memory* was not, *derived*
was worked out by the formula named. Beside these rows the solver is compared
with a dense nodal solution by gonum and with ngspice, net by net.

| file | rows | run by |
|---|---|---|
`, total, negative)
	for _, f := range files {
		fmt.Fprintf(&s, "| [%s](checks/%s.yaml) | %d | %s |\n", f.Title, f.Key, len(f.Rows), runs[f.Key])
	}
	for _, f := range files {
		fmt.Fprintf(&s, "\n## %s\n\n%s\n\n", f.Title, strings.TrimSpace(f.About))
		s.WriteString("| what | value | tolerance | source |\n|---|---|---|---|\n")
		for _, r := range f.Rows {
			value := strings.TrimSpace(number(r.Value) + " " + r.Unit)
			if r.Negative {
				value = "*not* " + value
			}
			what := r.What
			if r.Note != "" {
				what += " (" + r.Note + ")"
			}
			fmt.Fprintf(&s, "| %s | %s | %s | %s; %s |\n", cell(what), cell(value), number(r.Tolerance), cell(r.Source), r.Evidence)
		}
	}
	return s.String()
}

// number writes a value without a trailing mess of digits.
func number(v float64) string { return strconv.FormatFloat(v, 'g', 7, 64) }

// cell keeps a text from breaking out of its column.
func cell(s string) string {
	return strings.ReplaceAll(strings.Join(strings.Fields(s), " "), "|", `\|`)
}

package main

import (
	"fmt"
	"io"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/output"
)

// printing checks the words about what is printed.
func (o options) printing() error {
	if o.measured && o.command != "readings" {
		return fmt.Errorf("--measured: found with %s, expected only with readings", o.command)
	}
	switch {
	case o.format == "text", o.format == "json":
		return nil
	case o.format == "csv" && o.measured:
		return nil
	case o.format == "csv":
		return fmt.Errorf("--format: found %q, expected text or json; csv only with readings --measured", o.format)
	}
	return fmt.Errorf("--format: found %q, expected text or json", o.format)
}

// writeMeasured prints what was read and what that comes to.
func writeMeasured(o options, f *layout.Frame, rules *check.Rules, w io.Writer) error {
	r := output.MeasuredOf(f, rules)
	switch o.format {
	case "csv":
		return r.CSV(w)
	case "json":
		return output.JSON(w, r)
	}
	return r.Text(w)
}

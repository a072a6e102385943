package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"path/filepath"
	"strconv"
	"strings"

	"duskwire/calc/light"
	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
)

// night checks the words of lux and dusk.
func (o options) night() error {
	if o.command == "dusk" && !strings.EqualFold(filepath.Ext(o.out), ".png") {
		return errors.New("dusk: expected --out night.png")
	}
	if o.command == "lux" {
		if _, err := point("--at", o.at); err != nil {
			return err
		}
	}
	if o.command != "lux" && o.at != "" {
		return fmt.Errorf("--at: found with %s, expected only with lux", o.command)
	}
	if o.command != "dusk" && o.contours {
		return fmt.Errorf("--contours: found with %s, expected only with dusk", o.command)
	}
	if o.command != "dusk" && o.late {
		return fmt.Errorf("--after-curfew: found with %s, expected only with dusk", o.command)
	}
	return o.standing()
}

// point reads "x,y,z" in metres.
func point(word, s string) (light.Vec, error) {
	var v [3]float64
	parts := strings.Split(s, ",")
	for i, p := range parts {
		n, err := strconv.ParseFloat(strings.TrimSpace(p), 64)
		if i > 2 || err != nil || math.Abs(n) > 1e5 || math.IsNaN(n) {
			parts = nil
			break
		}
		v[i] = n
	}
	if len(parts) != 3 {
		return light.Vec{}, fmt.Errorf("%s: found %q, expected three numbers x,y,z in metres", word, s)
	}
	return light.Vec{X: v[0], Y: v[1], Z: v[2]}, nil
}

// dusk draws the night plan in memory and then puts the whole of it into the
// file, so that one that fails leaves an older one as it was.
func dusk(o options, f *layout.Frame, w io.Writer) error {
	var page bytes.Buffer
	made, what, err := o.draw(&page, f)
	if err != nil {
		return err
	}
	if err := file.WriteFile(o.out, page.Bytes()); err != nil {
		return err
	}
	if o.format == "json" {
		return output.JSON(w, struct {
			Picture   string                `json:"picture"`
			Caveat    string                `json:"caveat"`
			Assumed   []string              `json:"assumed"`
			Overruled []output.OverruledRow `json:"overruled,omitempty"`
		}{o.out, made.Caption, append([]string{}, made.Assumed...), output.OverruledOf(f)})
	}
	fmt.Fprintf(w, "%s written to %s: %s\n", what, output.OneLine(o.out), made.Caption)
	for _, a := range made.Assumed {
		fmt.Fprintf(w, "  assumed: %s\n", output.OneLine(a))
	}
	for _, o := range output.OverruledOf(f) {
		fmt.Fprintln(w, o.Line())
	}
	return nil
}

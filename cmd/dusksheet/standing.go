package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/geom"
	"duskwire/layout/output"
)

// standing checks the words that ask for a view from an eye point.
func (o options) standing() error {
	if o.command != "dusk" && o.from+o.eye+o.look != "" {
		return fmt.Errorf("--from, --eye and --look: found with %s, expected only with dusk", o.command)
	}
	switch {
	case o.contours && o.from+o.eye != "":
		return errors.New("--contours: found with a standing view, expected with the night plan")
	case o.from != "" && o.eye != "":
		return errors.New("found both --from and --eye, expected one of them")
	case (o.eye == "") != (o.look == ""):
		return errors.New("expected --eye x,y,z together with --look BEARING")
	case o.eye == "":
		return nil
	}
	_, err := o.looking()
	return err
}

// eyeOf returns the eye point that is asked for.
func (o options) eyeOf(s *doc.Scheme) (doc.Eye, error) {
	if o.from == "" {
		return o.looking()
	}
	var known []string
	for _, e := range s.Eyes {
		if e.Tag == o.from || e.Name == o.from {
			return e, nil
		}
		known = append(known, e.Tag)
	}
	if len(known) == 0 {
		return doc.Eye{}, fmt.Errorf("--from: found %q, but the scheme has no eye points; expected --eye x,y,z --look BEARING", o.from)
	}
	return doc.Eye{}, fmt.Errorf("--from: found %q, expected one of %s", o.from, strings.Join(known, ", "))
}

// looking reads --eye and --look.
func (o options) looking() (doc.Eye, error) {
	v, err := point("--eye", o.eye)
	if err != nil {
		return doc.Eye{}, err
	}
	b, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(o.look, "deg")), 64)
	if err != nil || math.IsNaN(b) || math.Abs(b) > 720 {
		return doc.Eye{}, fmt.Errorf("--look: found %q, expected degrees clockwise from up the sheet", o.look)
	}
	e := doc.Eye{Tag: "view", Place: doc.Place{At: geom.Pt(v.X, v.Y), Height: geom.Metres(v.Z)}, Bearing: b, Field: doc.UsualField}
	if v.Z < 0.01 || v.Z > 100 {
		return doc.Eye{}, fmt.Errorf("--eye: found a height of %g m, expected 0.01 to 100", v.Z)
	}
	return e, nil
}

// draw draws the night plan or what is asked for in its place, and returns what is to
// be said of it and a name for it.
func (o options) draw(w io.Writer, f *layout.Frame) (made output.DuskMade, what string, err error) {
	as := output.Dusk{Contours: o.contours, AfterCurfew: o.late}
	if o.from+o.eye == "" {
		made, err = output.DuskOf(context.Background(), w, f, as)
		return made, "night plan", err
	}
	e, err := o.eyeOf(f.Scheme)
	if err != nil {
		return made, "", err
	}
	made, err = output.StandingOf(context.Background(), w, f, e, as)
	return made, "standing view", err
}

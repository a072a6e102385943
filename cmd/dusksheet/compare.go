package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"duskwire/layout/output"
	"duskwire/layout/packs"
)

// second checks the words that name a second scheme.
func (o *options) second(words []string) error {
	if o.command == "compare" {
		if len(words) != 3 || words[1] == "" || words[2] == "" {
			return errors.New("compare: expected two files, A and B")
		}
		if o.with != "" {
			return errors.New("--with: found with compare, expected only with packs")
		}
		o.with = words[2]
		return nil
	}
	if len(words) != 2 {
		return nil // told elsewhere
	}
	if o.command != "packs" && o.with != "" {
		return fmt.Errorf("--with: found with %s, expected only with packs", o.command)
	}
	if o.with != "" && o.pack != "" && !slices.Contains(strings.Split(o.pack, ","), "client") {
		return fmt.Errorf("--with: found with --pack %s, expected with the client pack", o.pack)
	}
	return nil
}

// other opens the second scheme; nil when there is none.
func (o options) other() (*packs.Input, error) {
	if o.with == "" {
		return nil, nil
	}
	o.path = o.with
	desk, err := open(o)
	if err != nil {
		return nil, err
	}
	f := desk.Frame()
	return &packs.Input{Frame: f, Rules: output.RulesOf(desk.Rules(), f.Scheme), Date: o.date}, nil
}

// compare writes two schemes side by side and tells whether a Stop finding
// stands in either.
func compare(o options, stdout io.Writer) (code int, err error) {
	desk, err := open(o)
	if err != nil {
		return exitFailed, err
	}
	b, err := o.other()
	if err != nil {
		return exitFailed, err
	}
	f := desk.Frame()
	c := packs.Compare(packs.Input{Frame: f, Rules: output.RulesOf(desk.Rules(), f.Scheme)}, *b)
	if o.format == "json" {
		err = output.JSON(stdout, c)
	} else {
		err = c.Text(stdout)
	}
	switch {
	case err != nil:
		return exitFailed, err
	case output.Stops(f)+output.Stops(b.Frame) > 0:
		return exitStop, nil
	}
	return exitClean, nil
}

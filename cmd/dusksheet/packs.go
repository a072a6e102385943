package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
	"duskwire/layout/packs"
)

// writePacks makes the packs in memory and then puts them into the folder, so
// that packs that fail leave older ones as they were.
func writePacks(o options, f *layout.Frame, rules *check.Rules, w io.Writer) error {
	var keys []string
	if o.pack != "" {
		keys = strings.Split(o.pack, ",")
	}
	other, err := o.other()
	if err != nil {
		return err
	}
	made, err := packs.Make(context.Background(), packs.Input{Frame: f, Rules: rules, Date: o.date, Other: other}, nil, keys...)
	if err != nil {
		return err
	}
	data := make([]bytes.Buffer, len(made))
	for i, p := range made {
		if err := p.PDF(&data[i]); err != nil {
			return err
		}
	}
	if err := os.MkdirAll(o.out, 0o755); err != nil {
		return fmt.Errorf("packs: cannot make the folder %s: %w", o.out, err)
	}
	type written struct {
		Pack  string `json:"pack"`
		Pages int    `json:"pages"`
		File  string `json:"file"`
	}
	var list []written
	for i, p := range made {
		path := filepath.Join(o.out, p.Key+"-pack.pdf")
		if err := file.WriteFile(path, data[i].Bytes()); err != nil {
			return err
		}
		list = append(list, written{p.Key, len(p.Pages), path})
	}
	if o.format == "json" {
		return output.JSON(w, struct {
			Packs []written `json:"packs"`
		}{list})
	}
	for _, l := range list {
		if _, err := fmt.Fprintf(w, "%s pack, %d pages, written to %s\n", l.Pack, l.Pages, output.OneLine(l.File)); err != nil {
			return err
		}
	}
	return nil
}

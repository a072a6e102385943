package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
	"duskwire/layout/packs"
)

// dataReport is what data prints.
type dataReport struct {
	Files []dataFile `json:"files"`
}

type dataFile struct {
	File  string `json:"file"`
	Bytes int    `json:"bytes"`
}

// data checks the words of data.
func (o options) data() error {
	if o.command != "data" {
		if o.width != 0 {
			return fmt.Errorf("--width: found with %s, expected only with data", o.command)
		}
		return nil
	}
	if o.out == "" {
		return errors.New("data: expected --out FOLDER")
	}
	if o.width != 0 && (o.width < output.LeastWide || o.width > output.MostWide) {
		return fmt.Errorf("--width: found %d, expected %d to %d pixels", o.width, output.LeastWide, output.MostWide)
	}
	return nil
}

// writeData makes all files in memory and then puts each whole into the folder,
// so that data that fails leaves older files as they were.
func writeData(o options, f *layout.Frame, rules *check.Rules, w io.Writer) error {
	made, err := packs.DataFiles(context.Background(), packs.Input{Frame: f, Rules: rules, Date: o.date}, o.width)
	if err != nil {
		return err
	}
	for _, m := range made { // before the first is written
		path := filepath.Join(o.out, m.Name)
		if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("data: cannot write %s: it is not a file", path)
		}
	}
	if err := os.MkdirAll(o.out, 0o755); err != nil {
		return fmt.Errorf("data: cannot make the folder %s: %w", o.out, err)
	}
	r := dataReport{}
	for _, m := range made {
		path := filepath.Join(o.out, m.Name)
		if err := file.WriteFile(path, m.Data); err != nil {
			return err
		}
		r.Files = append(r.Files, dataFile{path, len(m.Data)})
	}
	if o.format == "json" {
		return output.JSON(w, r)
	}
	for _, d := range r.Files {
		if _, err := fmt.Fprintf(w, "%s written, %d bytes\n", output.OneLine(d.File), d.Bytes); err != nil {
			return err
		}
	}
	return nil
}

package ui

import (
	"bytes"
	"context"
	"errors"
	"io"
	"path/filepath"
	"strings"
	"time"
	"unicode"

	"duskwire/calc/check"
	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
)

// workExport is the writing of what is made from a scheme.
const workExport = "export"

// savePicture asks for a place and writes the plan there.
func (w *Window) savePicture() {
	w.settle()
	hatch := w.plan.Hatch()
	w.export("plan", []string{".pdf", ".svg", ".png"}, func(out io.Writer, ending string, f *layout.Frame, rules *check.Rules, date string) error {
		draw := output.PictureOf
		if hatch { // as the plan shows it
			draw = output.ZonesOf
		}
		return draw(out, strings.TrimPrefix(ending, "."), f, rules.Name, date)
	})
}

// report is one of the lists that can be written.
type report struct {
	name string
	of   func(*layout.Frame, *check.Rules) interface{ Text(io.Writer) error }
}

var (
	findingsReport = report{"findings", func(f *layout.Frame, r *check.Rules) interface{ Text(io.Writer) error } {
		return output.FindingsOf(f, r)
	}}
	readingsReport = report{"readings", func(f *layout.Frame, r *check.Rules) interface{ Text(io.Writer) error } {
		return output.ReadingsOf(f, r)
	}}
	measuredReport = report{"measured", func(f *layout.Frame, r *check.Rules) interface{ Text(io.Writer) error } {
		return output.MeasuredOf(f, r)
	}}
	lengthsReport = report{"lengths", func(f *layout.Frame, r *check.Rules) interface{ Text(io.Writer) error } {
		return output.LengthsOf(f, r)
	}}
)

// saveReport asks for a place and writes a list there.
func (w *Window) saveReport(r report) {
	w.settle()
	w.export(r.name, []string{".txt", ".json"}, func(out io.Writer, ending string, f *layout.Frame, rules *check.Rules, _ string) error {
		list := r.of(f, rules)
		if ending == ".json" {
			return output.JSON(out, list)
		}
		return list.Text(out)
	})
}

// export writes something made from the present frame, in a worker. It is made
// in memory first, so that what fails or is cancelled leaves an older file as
// it was.
func (w *Window) export(what string, endings []string, write func(io.Writer, string, *layout.Frame, *check.Rules, string) error) {
	w.exportSlow(what, endings, func(_ context.Context, report Report, out io.Writer, ending string, f *layout.Frame, rules *check.Rules, date string) error {
		report(-1, "making the "+what)
		return write(out, ending, f, rules, date)
	})
}

// exportSlow is export for what can say how far it is and be stopped on the way.
func (w *Window) exportSlow(what string, endings []string, write func(context.Context, Report, io.Writer, string, *layout.Frame, *check.Rules, string) error) {
	w.chooseFrom(choice{
		title: "Save the " + strings.ReplaceAll(what, "-", " ") + " as", verb: "Save", saving: true, endings: endings, name: w.stem() + "-" + what + endings[0],
		loses: "There is a file of this name already. What it holds is lost.",
	}, func(path string) {
		f, date := w.desk.Frame(), w.cfg.Now().Format(time.DateOnly)
		whole := w.desk.Whole(f)
		rules := output.RulesOf(w.desk.Rules(), f.Scheme)
		name := filepath.Base(path)
		RunTask(w.bridge, Task{Key: workExport + " " + path, Title: "Saving " + name, Whole: true}, func(ctx context.Context, report Report) (struct{}, error) {
			var data bytes.Buffer
			if err := write(ctx, report, &data, strings.ToLower(filepath.Ext(path)), whole(), rules, date); err != nil {
				return struct{}{}, err
			}
			if err := ctx.Err(); err != nil {
				return struct{}{}, err
			}
			report(0.9, "writing")
			return struct{}{}, file.WriteFile(path, data.Bytes())
		}, func(_ struct{}, err error) {
			switch {
			case errors.Is(err, context.Canceled):
				w.status.SetHint("Cancelled: "+name+" was not written", true)
			case err != nil:
				w.fail("The "+what+" could not be saved", err)
			default:
				w.status.SetHint("Saved "+name, false)
				w.preview.told("Saved " + name)
			}
		})
	})
}

// stem is the name of the scheme's file without its ending, for the names of
// what is made from it.
func (w *Window) stem() string {
	if p := w.desk.Frame().Path; p != "" {
		return strings.TrimSuffix(filepath.Base(p), filepath.Ext(p))
	}
	return plainName(w.desk.Frame().Scheme.Title)
}

// plainName makes a file name of a title: its letters and digits in lower case,
// a hyphen for the rest; "garden" when there are none.
func plainName(title string) string {
	words := strings.FieldsFunc(strings.ToLower(title), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if len(words) == 0 {
		return "garden"
	}
	const most = 40 // letters, so that the ending stays in sight
	name := []rune(strings.Join(words, "-"))
	return strings.Trim(string(name[:min(len(name), most)]), "-")
}

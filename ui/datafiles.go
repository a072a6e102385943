package ui

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"duskwire/layout/file"
	"duskwire/layout/packs"
)

// dataWidths are the widths of the PNG to choose from, pixels.
var dataWidths = []int{1200, packs.DataWide, 4800, 8000}

// saveData asks for a folder and writes there what other programs read: plan as
// DXF, SVG and PNG, lists as CSV and in one workbook.
func (w *Window) saveData() {
	w.settle()
	in, wide := w.packInput(), 1
	var names []string
	for _, n := range dataWidths {
		names = append(names, strconv.Itoa(n)+" pixels wide")
	}
	w.chooseFrom(choice{title: "Save data files into a folder", verb: "Save", saving: true, folder: true, name: w.stem() + "-data",
		more: func(s *sheet) fyne.CanvasObject {
			return captionedShort("PNG", newSheetSelect(s, names, wide, func(i int) { wide = i }).object())
		},
	}, func(folder string) { w.makeData(in, folder, dataWidths[wide]) })
}

// dataMade are the files with those of them that are there already.
type dataMade struct {
	files []packs.DataFile
	there []string
}

// makeData makes all files in memory and asks before any that is there is lost.
func (w *Window) makeData(in packs.Input, folder string, width int) {
	name, whole := filepath.Base(folder), w.desk.Whole(in.Frame)
	RunTask(w.bridge, Task{Key: workExport + " " + folder, Title: "Making the data files"}, func(ctx context.Context, report Report) (dataMade, error) {
		var out dataMade
		var err error
		in.Frame = whole()
		if out.files, err = packs.Data(ctx, in, width, packs.Report(report)); err != nil {
			return out, err
		}
		if info, err := os.Stat(folder); err == nil && !info.IsDir() {
			return out, fmt.Errorf("%s: found a file, expected a folder or a new name", folder)
		}
		for _, f := range out.files {
			path := filepath.Join(folder, f.Name)
			if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
				return out, fmt.Errorf("%s: found no plain file there, so it is not written over", path)
			}
			if exists(path) {
				out.there = append(out.there, f.Name)
			}
		}
		return out, nil
	}, func(m dataMade, err error) {
		switch {
		case errors.Is(err, context.Canceled):
			w.status.SetHint("Cancelled: no data file was written", true)
		case err != nil:
			w.fail("The data files could not be made", err)
		case len(m.there) == 0:
			w.writeData(m.files, folder)
		default:
			s := w.openSheet("Replace files in "+name+"?", fyne.NewSize(sheetWidth, 0), func(*sheet) fyne.CanvasObject {
				return wrapped("There already: " + strings.Join(m.there, ", ") + ". What they hold is lost.")
			}, answer{text: "Cancel", cancel: true}, answer{text: "Replace", main: true, then: func() { w.writeData(m.files, folder) }})
			s.focus(s.buttons[0])
		}
	})
}

// writeData puts the files into the folder, each whole.
func (w *Window) writeData(files []packs.DataFile, folder string) {
	name := filepath.Base(folder)
	RunTask(w.bridge, Task{Key: workExport + " " + folder, Title: "Writing " + name, Whole: true}, func(ctx context.Context, report Report) (int, error) {
		if err := os.MkdirAll(folder, 0o755); err != nil {
			return 0, err
		}
		for i, f := range files {
			if err := ctx.Err(); err != nil {
				return i, err
			}
			report(float64(i)/float64(len(files)), f.Name)
			if err := file.WriteFile(filepath.Join(folder, f.Name), f.Data); err != nil {
				return i, err
			}
		}
		return len(files), nil
	}, func(n int, err error) {
		switch {
		case errors.Is(err, context.Canceled):
			w.status.SetHint(fmt.Sprintf("Cancelled: %d of %d data files are in %s", n, len(files), name), true)
		case err != nil:
			w.fail(fmt.Sprintf("Only %d of %d data files were written", n, len(files)), err)
		default:
			w.status.SetHint(fmt.Sprintf("Saved %d data files in %s", n, name), false)
		}
	})
}

// Command duskwire is the desktop program: it reads its flags, the shipped
// tables and the scheme, and opens the window.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"duskwire/assets"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/journal"
	"duskwire/ui"
)

// version is set by the linker in a release build.
var version = "development"

const example = "examples/townhouse.yaml" // opened when no file is named

const usage = `duskwire [FLAGS] [FILE] opens the plan of a garden's lighting; without FILE an example.
  --stock FILE   stock items of your own, before the shipped ones
  --rules FILE   a rule set of your own
  --version      print the version
  --help         print this text
`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run returns the exit code: 0, or 2 when an input is unreadable.
func run(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("duskwire", flag.ContinueOnError)
	flags.SetOutput(errs)
	flags.Usage = func() { fmt.Fprint(errs, usage) }
	stockPath := flags.String("stock", "", "")
	rulesPath := flags.String("rules", "", "")
	showVersion := flags.Bool("version", false, "")
	switch err := flags.Parse(args); {
	case err == flag.ErrHelp:
		return 0
	case err != nil:
		return 2
	case *showVersion:
		fmt.Fprintln(out, "duskwire", version)
		return 0
	case flags.NArg() > 1:
		flags.Usage()
		return 2
	}
	desk, read, err := prepare(flags.Arg(0), *stockPath, *rulesPath)
	if err != nil {
		fmt.Fprintln(errs, "duskwire:", err)
		return 2
	}
	open(desk, read, out)
	return 0
}

// reader reads schemes: from a file, or from a text that errors call by name.
type reader struct {
	load func(path string) (*doc.Scheme, error) // the example when path is ""
	text func(name string, data []byte) (*doc.Scheme, error)
}

// prepare puts the named scheme, or the example, on a desk.
func prepare(path, stockPath, rulesPath string) (desk *layout.Desk, read reader, err error) {
	stock, rules, err := file.Shipped(stockPath, rulesPath)
	if err != nil {
		return nil, read, err
	}
	read.text = func(name string, data []byte) (*doc.Scheme, error) {
		return file.ReadScheme(name, data, stock, file.Keys(rules)...)
	}
	read.load = func(path string) (*doc.Scheme, error) {
		if path != "" {
			return file.LoadScheme(path, stock, file.Keys(rules)...)
		}
		data, err := assets.FS.ReadFile(example)
		if err != nil {
			return nil, err
		}
		return read.text(filepath.Base(example), data)
	}
	scheme, err := read.load(path)
	if err != nil {
		return nil, read, err
	}
	return layout.NewDesk(stock, rules, scheme, path), read, nil
}

// open shows the window until the program is closed.
func open(desk *layout.Desk, read reader, out io.Writer) {
	app.SetMetadata(fyne.AppMetadata{
		ID: "duskwire", Name: ui.ProgramName, Version: "0.1.0", Migrations: map[string]bool{"fyneDo": true},
	})
	a := app.NewWithID("duskwire")
	w := ui.New(ui.Config{
		App: a, Desk: desk, Version: version,
		Load: read.load, Save: file.SaveScheme, Example: func() (*doc.Scheme, error) { return read.load("") },
		Read: read.text, State: state(),
		Welcome: os.Getenv("DUSKWIRE_NO_WELCOME") == "",
		Quit: func() {
			// The driver was seen to hang at the end; work is saved by now.
			time.AfterFunc(3*time.Second, func() { os.Exit(0) })
			a.Quit()
		},
	})
	if path := os.Getenv("DUSKWIRE_TRACE"); path != "" {
		if err := startTrace(path, desk, w); err != nil {
			fmt.Fprintln(os.Stderr, "duskwire: trace:", err)
		}
	}
	if os.Getenv("DUSKWIRE_READY") == "1" { // a test waits for it
		a.Lifecycle().SetOnStarted(func() { fmt.Fprintln(out, "READY") })
	}
	w.Fyne().ShowAndRun()
}

// state is the folder for unsaved work and for what is remembered; without one
// the program works and remembers nothing.
func state() string {
	folder, err := journal.Folder()
	if err != nil {
		fmt.Fprintln(os.Stderr, "duskwire: nothing is kept against a crash:", err)
		return ""
	}
	return folder
}

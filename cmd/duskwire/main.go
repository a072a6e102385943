// Command duskwire is the desktop program: it reads its flags, the shipped
// tables and the scheme, and opens the window.
package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
	"duskwire/layout/journal"
	"duskwire/ui"
)

// version is set by the linker in a release build.
var version = "development"

const usage = `duskwire [FLAGS] [FILE] opens the plan of a garden's lighting; without FILE an example.
  --stock FILE   stock items of your own, before the shipped ones
  --rules FILE   a rule set of your own
  --version      print the version
  --help         print this text
`

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run returns the exit code: 0, or 2 when the flags or what they name are
// unreadable.
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
	read, err := file.NewReader(*stockPath, *rulesPath)
	if err != nil {
		fmt.Fprintln(errs, "duskwire:", err)
		return 2
	}
	path := flags.Arg(0)
	mark := ui.FileMark(path)
	scheme, err := read.Load(path)
	if err != nil { // told in the window too: a file manager shows no terminal
		fmt.Fprintln(errs, "duskwire:", err)
		scheme, path, mark = doc.New(read.Rules[0].Key), "", ""
	}
	open(layout.NewDesk(read.Stock, read.Rules, scheme, path), mark, err, read, out)
	return 0
}

// open shows the window until the program is closed; unread is why there is an empty
// scheme in it.
func open(desk *layout.Desk, mark string, unread error, read *file.Reader, out io.Writer) {
	ui.GiveWay()
	app.SetMetadata(fyne.AppMetadata{
		ID: "duskwire", Name: ui.ProgramName, Version: "0.1.0", Migrations: map[string]bool{"fyneDo": true},
	})
	a := app.NewWithID("duskwire")
	w := ui.New(ui.Config{
		App: a, Desk: desk, Mark: mark, Unread: unread, Version: version,
		Load: read.Load, Save: file.SaveScheme, Example: read.Example,
		Read: read.Text, State: state(),
		Welcome: os.Getenv("DUSKWIRE_NO_WELCOME") == "",
		Quit: func() {
			// The driver was seen to hang at the end; work is saved by now.
			time.AfterFunc(3*time.Second, func() { os.Exit(0) })
			a.Quit()
		},
	})
	if path := os.Getenv("DUSKWIRE_TRACE"); path != "" {
		if err := w.Trace(path); err != nil {
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

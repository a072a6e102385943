// Command dusksheet is Duskwire without a screen: it reads a scheme file and
// writes its findings, expected readings, cut list or plan picture.
package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"

	"duskwire/layout"
	"duskwire/layout/file"
	"duskwire/layout/output"
	under "duskwire/layout/picture"
)

// Exit codes, part of the documented interface.
const (
	exitClean  = 0 // no Stop finding stands
	exitStop   = 1 // at least one Stop finding stands
	exitFailed = 2 // the input could not be read or the output not written
)

const usage = `dusksheet: a garden-lighting scheme as sheets, without a window.

  dusksheet findings FILE   what was checked and does not hold, with working
  dusksheet readings FILE   what every point and run should read, with
                            --measured what was read and what it points to
  dusksheet lengths  FILE   the cut list
  dusksheet picture  FILE --out plan.png|plan.svg|plan.pdf
                            the plan to scale, or with --view circuit the
                            one-line diagram of its circuits, with --view
                            dig depths and clashes in the ground, with --view
                            zones the area of each zone
  dusksheet lux      FILE --at x,y,z
                            the light at a point and the lamps that give it
  dusksheet dusk     FILE --out night.png [--contours] [--after-curfew]
                            the plan at night, with lines of equal lux
  dusksheet dusk     FILE --out view.png --from EYEPOINT [--after-curfew]
                            the garden at night as seen by who stands there
  dusksheet packs    FILE --out FOLDER [--with OTHER]
                            client, site and test pack as PDF, the client pack
                            with a second scheme side by side
  dusksheet compare  A B    two schemes: what B has more or less than A
  dusksheet data     FILE --out FOLDER [--width PIXELS]
                            plan.dxf, .svg, .png; lists as .csv; data.xlsx

  --format text|json   of what is printed (text); of readings --measured also csv
  --out FILE           of picture; its ending chooses the kind. Of dusk the PNG, of
                       packs and data the folder
  --at x,y,z           of lux: metres right, up the sheet, above ground
  --from TAG           of dusk: an eye point of the scheme, by tag or name
  --after-curfew       of dusk: leaves dark what is off by curfew
  --eye x,y,z --look DEGREES   of dusk: any other, clockwise from up the sheet
  --view plan|circuit|dig|zones   of picture (plan)
  --stock FILE         a stock book of your own, laid over the shipped one
  --rules FILE         a rule set of your own, beside the shipped ones
  --width PIXELS       of data: of plan.png (2400)
  --with OTHER         of packs: a second scheme for the client pack
  --pack LIST          of packs: client, site, test with commas between (all)
  --date YYYY-MM-DD    printed on the picture and on every page

Exit: 0 no Stop finding, 1 Stop findings stand, 2 input unreadable.
Figures are a design aid: local code and a licensed or competent person decide.
`

// options are the words of the command line.
type options struct {
	command, path             string
	format, out, stock, rules string
	date, view, pack, with    string
	at, from, eye, look       string
	contours, measured, late  bool
	width                     int
}

// thrift is the memory below which the collector does nothing: one command is
// soon over. A scheme of 10,000 lamps stays below 200 MB with it. GOMEMLIMIT
// and GOGC have the last word.
const thrift = 150 << 20

func main() {
	if os.Getenv("GOMEMLIMIT") == "" && os.Getenv("GOGC") == "" {
		debug.SetMemoryLimit(thrift)
		debug.SetGCPercent(-1)
	}
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run does one command and returns the exit code.
func run(args []string, stdout, stderr io.Writer) int {
	o, err := parse(args)
	if errors.Is(err, flag.ErrHelp) {
		fmt.Fprint(stdout, usage)
		return exitClean
	}
	if err != nil {
		fmt.Fprintf(stderr, "dusksheet: %s (dusksheet --help lists the words)\n", output.OneLine(err.Error()))
		return exitFailed
	}
	if o.command == "compare" {
		code, err := compare(o, stdout)
		if err != nil {
			fmt.Fprintf(stderr, "dusksheet: %s\n", output.OneLine(err.Error()))
		}
		return code
	}
	desk, err := open(o)
	if err == nil {
		// A table is written cell by cell.
		page := bufio.NewWriterSize(stdout, 1<<16)
		if err = write(o, desk, page); err == nil {
			err = page.Flush()
		}
	}
	if err != nil {
		fmt.Fprintf(stderr, "dusksheet: %s\n", output.OneLine(err.Error()))
		return exitFailed
	}
	if output.Stops(desk.Frame()) > 0 {
		return exitStop
	}
	return exitClean
}

// parse reads options before and after the file name.
func parse(args []string) (options, error) {
	var o options
	fs := o.flags()
	var words []string
	for {
		if err := fs.Parse(args); err != nil {
			return o, err
		}
		if fs.NArg() == 0 {
			break
		}
		words = append(words, fs.Arg(0))
		args = fs.Args()[1:]
	}
	if len(words) == 0 || words[0] == "help" {
		return o, flag.ErrHelp
	}
	o.command = words[0]
	if err := o.second(words); err != nil {
		return o, err
	}
	if len(words) != 2 && o.command != "compare" {
		return o, fmt.Errorf("found %q, expected a command and a file", strings.Join(words, " "))
	}
	o.path = words[1]
	if err := o.printing(); err != nil {
		return o, err
	}
	if o.command == "picture" && o.out == "" {
		return o, errors.New("picture: expected --out plan.png, plan.svg or plan.pdf")
	}
	if o.command == "packs" && o.out == "" {
		return o, errors.New("packs: expected --out FOLDER")
	}
	if err := o.night(); err != nil {
		return o, err
	}
	if err := o.data(); err != nil {
		return o, err
	}
	if err := o.belonging(); err != nil {
		return o, err
	}
	return o, nil
}

// flags are the options that words begin with two hyphens for.
func (o *options) flags() *flag.FlagSet {
	fs := flag.NewFlagSet("dusksheet", flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	fs.StringVar(&o.format, "format", "text", "")
	fs.StringVar(&o.out, "out", "", "")
	fs.StringVar(&o.stock, "stock", "", "")
	fs.StringVar(&o.rules, "rules", "", "")
	fs.StringVar(&o.date, "date", "", "")
	fs.StringVar(&o.view, "view", "", "")
	fs.StringVar(&o.pack, "pack", "", "")
	fs.StringVar(&o.with, "with", "", "")
	fs.StringVar(&o.at, "at", "", "")
	fs.StringVar(&o.from, "from", "", "")
	fs.StringVar(&o.eye, "eye", "", "")
	fs.StringVar(&o.look, "look", "", "")
	fs.IntVar(&o.width, "width", 0, "")
	fs.BoolVar(&o.contours, "contours", false, "")
	fs.BoolVar(&o.late, "after-curfew", false, "")
	fs.BoolVar(&o.measured, "measured", false, "")
	return fs
}

// belonging refuses options that the command has no use for.
func (o options) belonging() error {
	if o.command != "picture" && o.command != "packs" && o.command != "data" && (o.out != "" && o.command != "dusk" || o.date != "") {
		return fmt.Errorf("--out and --date: found with %s, expected only with picture, packs or data; --out with dusk as well", o.command)
	}
	if o.command != "picture" && o.view != "" {
		return fmt.Errorf("--view: found with %s, expected only with picture", o.command)
	}
	if o.command != "packs" && o.pack != "" {
		return fmt.Errorf("--pack: found with %s, expected only with packs", o.command)
	}
	if o.view != "" && o.view != "plan" && o.view != "circuit" && o.view != "dig" && o.view != "zones" {
		return fmt.Errorf("--view: found %q, expected plan, circuit, dig or zones", o.view)
	}
	return nil
}

// open loads stock, rules and scheme and evaluates them.
func open(o options) (*layout.Desk, error) {
	scheme, stock, rules, err := file.Open(o.path, o.stock, o.rules)
	if err != nil {
		return nil, err
	}
	desk := layout.NewDesk(stock, rules, scheme, o.path)
	desk.SetUnder(layout.ReadUnder(context.Background(), &under.Cache{}, o.path, scheme))
	lights, err := layout.ReadLights(context.Background(), &layout.LightCache{}, o.path, scheme)
	if err != nil {
		return nil, err
	}
	desk.SetLights(lights)
	return desk, nil
}

// report is what the three listing commands write.
type report interface{ Text(io.Writer) error }

func write(o options, desk *layout.Desk, w io.Writer) error {
	f := desk.Frame()
	rules := output.RulesOf(desk.Rules(), f.Scheme)
	var r report
	switch o.command {
	case "findings":
		r = output.FindingsOf(f, rules)
	case "readings":
		if o.measured {
			return writeMeasured(o, f, rules, w)
		}
		r = output.ReadingsOf(f, rules)
	case "lengths":
		r = output.LengthsOf(f, rules)
	case "picture":
		return picture(o, f, rules.Name, w)
	case "packs":
		return writePacks(o, f, rules, w)
	case "data":
		return writeData(o, f, rules, w)
	case "dusk":
		return dusk(o, f, w)
	case "lux":
		at, err := point("--at", o.at)
		if err != nil {
			return err
		}
		if r, err = output.LuxOf(f, rules, at); err != nil {
			return err
		}
	default:
		return fmt.Errorf("found command %q, expected findings, readings, lengths, picture, lux, dusk, packs, data or compare", o.command)
	}
	if o.format == "json" {
		return output.JSON(w, r)
	}
	return r.Text(w)
}

// picture draws the plan in memory and then puts the whole of it into the
// file, so that a failed picture leaves an older one as it was.
func picture(o options, f *layout.Frame, rules string, w io.Writer) error {
	format := strings.TrimPrefix(strings.ToLower(filepath.Ext(o.out)), ".")
	var page bytes.Buffer
	draw, what := output.PictureOf, "plan"
	switch o.view {
	case "circuit":
		draw, what = output.CircuitOf, "circuit"
	case "dig":
		draw, what = output.DigOf, "dig plan"
	case "zones":
		draw, what = output.ZonesOf, "plan with zones"
	}
	if err := draw(&page, format, f, rules, o.date); err != nil {
		return err
	}
	if err := file.WriteFile(o.out, page.Bytes()); err != nil {
		return err
	}
	if o.format == "json" {
		return output.JSON(w, struct {
			Picture string `json:"picture"`
		}{o.out})
	}
	_, err := fmt.Fprintf(w, "%s written to %s\n", what, output.OneLine(o.out))
	return err
}

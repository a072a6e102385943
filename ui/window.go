// Package ui assembles the window: the plan in the middle, the tray of tools
// on its left, findings and properties on its right, the running totals along
// the bottom, and the menus over it. Everything here runs on the UI goroutine;
// bridge.go is the only way out of it and back.
package ui

import (
	"context"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/journal"
	"duskwire/layout/scene"
	"duskwire/layout/tool"
	"duskwire/ui/board"
	"duskwire/ui/panel"
)

// ProgramName is what the title bar ends with.
const ProgramName = "Duskwire"

// Config is what the program hands to its window.
type Config struct {
	App     fyne.App
	Desk    *layout.Desk
	Version string
	// Load, Save and Example do the file work; they run in workers.
	Load    func(path string) (*doc.Scheme, error)
	Save    func(path string, s *doc.Scheme) error
	Example func() (*doc.Scheme, error)
	// Read reads the text of a scheme that was kept by the journal; name is what
	// errors call it.
	Read func(name string, text []byte) (*doc.Scheme, error)
	// State is the folder of the journal and of what is remembered; "" for
	// neither. JournalAfter is how long the drawing rests before it is kept, 0 for
	// the usual time.
	State        string
	JournalAfter time.Duration
	Folder       string           // where the file sheet starts; "" the last one, or the home folder
	Post         func(func())     // brings results back to the UI goroutine; nil: fyne.Do
	Now          func() time.Time // nil: time.Now
	Quit         func()           // called once, after unsaved work is cared for
	// Welcome shows the cautions at the start; Welcomed is told when they were
	// read.
	Welcome  bool
	Welcomed func()
	// Dark starts with the dark colours; Darkened is told of another choice.
	Dark     bool
	Darkened func(bool)
}

// Window is the one window of the program.
type Window struct {
	cfg      Config
	win      fyne.Window
	desk     *layout.Desk
	bridge   *Bridge
	theme    *Theme
	defaults *tool.Defaults

	plan       *board.Board
	tray       *tray
	findings   *panel.Findings
	properties *panel.Properties
	workings   *panel.Workings
	lengths    *panel.Lengths
	status     *panel.Status
	tabs       *container.AppTabs
	middle     *container.Split // plan and panels
	workTab    *container.TabItem
	menus      menus
	sheets     []*sheet
	watch      func() // see Watch
	under      under

	history    *panel.History
	historyTab *container.TabItem
	outer      *container.Split // tray and the rest
	progress   *progressRow
	journal    *journal.Journal // nil without a state folder
	noted      *doc.Scheme      // handed to the journal last
	adopted    *journal.Lost    // work of an earlier window that is open here
	adoptedAt  time.Time
	memory     journal.Memory
	missing    map[string]bool // recent files that are gone
	saveNext   func()          // a save that was asked for during another

	lastRemember chan struct{} // closed when the last change was written
}

// New makes the window; ShowAndRun or Show of the Fyne window opens it.
func New(cfg Config) *Window {
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	memory := recall(&cfg)
	w := &Window{cfg: cfg, memory: memory, desk: cfg.Desk, bridge: NewBridge(cfg.Post), theme: NewTheme(cfg.Dark), defaults: tool.NewDefaults()}
	cfg.App.Settings().SetTheme(w.theme)
	w.win = cfg.App.NewWindow(ProgramName)
	w.makePanels()
	w.plan = board.New(w.desk, board.Config{ // calls its hooks at once
		Defaults: w.defaults, Now: cfg.Now, Modifiers: modifiers,
		OnSelect: w.selected, OnStatus: w.said, OnTool: w.taken, OnMenu: w.contextMenu,
		OnShortcut: w.shortcut, OnRune: w.letter,
	})
	w.assemble()
	w.buildMenus()
	w.bridge.OnShown = w.progress.show
	w.paintPaper()
	w.desk.Subscribe(w.frame)
	w.frame(w.desk.Frame())
	w.win.SetCloseIntercept(w.quit)
	w.win.SetOnDropped(w.dropped)
	c := w.win.Canvas()
	c.SetOnTypedKey(w.typedKey)
	c.SetOnTypedRune(w.typedRune)
	w.shape()
	w.focusPlan()
	if cfg.Welcome {
		w.welcome()
	}
	w.startJournal()
	if w.cfg.State != "" {
		w.opened(w.desk.Frame().Path)
	}
	return w
}

// Fyne returns the window for the driver.
func (w *Window) Fyne() fyne.Window { return w.win }

// makePanels makes everything around the plan.
func (w *Window) makePanels() {
	f := w.desk.Frame()
	w.tray = newTray(f, w.defaults, w.take)
	w.status = panel.NewStatus(f)
	w.findings = panel.NewFindings(w.desk)
	w.properties = panel.NewProperties(w.desk)
	w.workings = panel.NewWorkings(w.desk)
	w.lengths = panel.NewLengths(w.desk)
	w.history = panel.NewHistory(w.desk)
	w.progress = newProgressRow()
	w.properties.OnPicture = w.pictureAct
	w.properties.OnOpen = func(id doc.ID) {
		w.plan.Select(id)
		w.plan.FlyTo(id)
	}
	w.findings.OnPick = func(f finding.Finding) {
		w.flyTo(f)
		if panel.SchemeAsks(w.desk.Frame().Scheme, f.Code) {
			w.plan.Select() // its row is in the form of the whole scheme
		}
		if w.tabs.Selected() != w.workTab {
			w.tabs.SelectIndex(0) // where what is missing is entered
		}
		w.properties.Asked(f.Code)
	}
	w.findings.OnWorking = w.showWorking
	w.findings.OnEnter = w.enterAt
	w.findings.OnOverrule = w.overrule
	w.findings.OnCures = w.cures
	w.findings.OnRefused = func(err error) { w.status.SetHint(err.Error(), true) }
	w.lengths.OnPick = func(id doc.ID) {
		w.plan.Select(id)
		w.plan.FlyTo(id)
	}
}

// cures tries the ways out of a finding in a worker; an older question is
// dropped.
func (w *Window) cures(f finding.Finding, done func([]layout.Cure)) {
	frame := w.desk.Frame()
	RunTask(w.bridge, Task{Key: "cures", Title: "Trying ways out of " + string(f.Code)}, func(ctx context.Context, _ Report) ([]layout.Cure, error) {
		return layout.Cures(ctx, frame, f), nil
	}, func(list []layout.Cure, err error) {
		if err != nil {
			w.status.SetHint("Cancelled: open the finding again to try its ways out", true)
		}
		done(list)
		w.changed()
	})
}

// rightLeast is the least width of the panels right of the plan.
const rightLeast = 285

// Share of the plan beside a narrow and a wide panel.
const narrowPanel, widePanel = 0.68, 0.5

// assemble puts the parts together.
func (w *Window) assemble() {
	w.workTab = container.NewTabItem("Working", w.workings.Object())
	w.tabs = container.NewAppTabs(container.NewTabItem("Properties", w.properties.Object()),
		w.workTab, container.NewTabItem("Lengths", w.lengths.Object()))
	w.historyTab = container.NewTabItem("History", w.history.Object())
	w.tabs.Append(w.historyTab)
	w.tabs.OnSelected = func(t *container.TabItem) {
		w.workings.SetActive(t == w.workTab)
		w.history.SetActive(t == w.historyTab)
	}
	right := container.NewVSplit(w.findings.Object(), w.tabs)
	right.Offset = 0.42
	middle := container.NewHSplit(container.NewBorder(nil, container.NewStack(w.status.Help(), w.progress.box), nil, nil, w.plan),
		container.New(atLeast{fyne.NewSize(rightLeast, 0)}, right))
	middle.Offset = narrowPanel
	w.middle = middle
	all := container.NewHSplit(w.tray.box, middle)
	all.Offset = 0 // as narrow as the tray may be
	w.outer = all
	w.win.SetContent(container.NewBorder(nil, w.status.Object(), nil, nil, all))
}

// frame shows what the desk published.
func (w *Window) frame(f *layout.Frame) {
	w.plan.SetFrame(f)
	w.tray.setFrame(f)
	w.findings.SetFrame(f)
	w.properties.SetFrame(f)
	w.workings.SetFrame(f)
	w.lengths.SetFrame(f)
	w.history.SetFrame(f)
	w.status.SetFrame(f)
	w.retitle(f)
	w.menus.update(f)
	w.underFrame(f)
	w.keepUnsaved(f)
	w.changed()
}

// retitle writes the title bar: a dot for unsaved work, the file, the program.
func (w *Window) retitle(f *layout.Frame) {
	name := w.fileName()
	if f.Path != "" {
		name = filepath.Base(f.Path)
	}
	title := name + " — " + ProgramName
	if f.Unsaved {
		title = "• " + title
	}
	if w.win.Title() != title {
		w.win.SetTitle(title)
	}
}

// selected follows the selection of the plan.
func (w *Window) selected(ids []doc.ID) {
	w.properties.SetSelection(ids)
	w.workings.SetSelection(ids)
}

// said follows the status of the plan.
func (w *Window) said(s board.Status) {
	w.tray.followSeries()
	w.status.SetScale(s.Scale)
	w.status.SetPointer(s.Pointer, s.Inside)
	if s.Refused != "" {
		w.status.SetHint(s.Refused, true)
	} else {
		w.status.SetHint(s.Hint, false)
	}
	w.changed()
}

// take puts a tool in hand.
func (w *Window) take(name string) {
	w.plan.SetTool(tool.ByName(w.defaults, name))
	w.tray.show(w.plan.Tool().Name())
	w.focusPlan()
}

// taken follows the tool in hand.
func (w *Window) taken(name string) { w.tray.show(name) }

// flyTo selects what a finding is about and brings it into view.
func (w *Window) flyTo(f finding.Finding) {
	id := doc.ID(f.Subject.ID)
	if doc.KindOf(w.desk.Frame().Scheme, id) == doc.NoKind {
		w.plan.Select() // about the whole scheme
		return
	}
	w.plan.Select(id)
	w.plan.FlyTo(id)
}

// enterAt shows the place in the properties of the supply point where what a
// finding asks for is entered.
func (w *Window) enterAt(f finding.Finding) {
	if panel.SchemeAsks(w.desk.Frame().Scheme, f.Code) {
		w.plan.Select()
		w.tabs.SelectIndex(0)
		w.properties.Asked(f.Code)
		return
	}
	id := panel.SupplyFor(w.desk.Frame(), &f)
	if id == "" {
		return
	}
	w.plan.Select(id)
	w.plan.FlyTo(id)
	w.tabs.SelectIndex(0)
	w.properties.Asked(f.Code)
}

// showWorking opens the working behind a finding.
func (w *Window) showWorking(f finding.Finding) {
	w.flyTo(f)
	w.tabs.Select(w.workTab)
	w.workings.Open(f)
}

// setDark changes the colours of window and paper.
func (w *Window) setDark(dark bool) {
	w.theme = NewTheme(dark)
	w.cfg.App.Settings().SetTheme(w.theme)
	w.paintPaper()
}

// paintPaper draws plan and legend in the colours that go with the window.
func (w *Window) paintPaper() {
	if w.theme.Dark() {
		w.paint(scene.Dark())
	} else {
		w.paint(scene.Light())
	}
}

// paint draws plan and legend in other colours.
func (w *Window) paint(p *scene.Palette) {
	w.plan.SetPalette(p)
	w.tray.legend.setPalette(p)
}

// focusPlan gives the keyboard to the plan.
func (w *Window) focusPlan() {
	if len(w.sheets) == 0 {
		w.win.Canvas().Focus(w.plan)
	}
}

// quit closes the program, after unsaved work is cared for.
func (w *Window) quit() {
	if len(w.sheets) > 0 {
		return // a question is open already
	}
	w.properties.Flush()
	w.keepWork(func() {
		w.rememberShape()
		w.bridge.Close()
		w.dropAdopted()
		if w.journal != nil {
			w.journal.Close() // saved, or given up by choice
		}
		if w.cfg.Quit != nil {
			w.cfg.Quit()
		}
	})
}

// modifiers asks the driver which keys are held; the driver of tests does not
// know.
func modifiers() tool.Modifiers {
	d, ok := fyne.CurrentApp().Driver().(desktop.Driver)
	if !ok {
		return tool.Modifiers{}
	}
	m := d.CurrentKeyModifiers()
	return tool.Modifiers{
		Shift: m&fyne.KeyModifierShift != 0, Control: m&fyne.KeyModifierControl != 0, Alt: m&fyne.KeyModifierAlt != 0,
	}
}

// contextMenu offers what can be done at a place.
func (w *Window) contextMenu(id doc.ID, at fyne.Position) {
	items := []*fyne.MenuItem{fyne.NewMenuItem("Fit to window", w.plan.ZoomFit), fyne.NewMenuItem("Select all", w.selectAll), fyne.NewMenuItem("Paste", w.paste)}
	if id != "" {
		tag := doc.TagOf(w.desk.Frame().Scheme, id)
		items = []*fyne.MenuItem{
			fyne.NewMenuItem("Properties of "+tag, func() { w.tabs.SelectIndex(0) }),
			fyne.NewMenuItem("Working of "+tag, func() { w.tabs.Select(w.workTab) }),
			fyne.NewMenuItemSeparator(),
		}
		items = append(items, w.arrangeItems(id)...)
		items = append(items, fyne.NewMenuItem("Delete", w.deleteSelected))
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), at)
}

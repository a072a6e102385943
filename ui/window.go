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
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/derive"
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
	// Unread is why the file named at the start could not be read; nil when it was.
	Unread error
	// Mark is the FileMark of the desk's file, taken before it was read; "" when
	// not known.
	Mark string
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
	circuit    *board.Diagram
	views      views
	dusk       dusk
	standing   standing
	side       side // the section strip
	tray       *tray
	findings   *panel.Findings
	properties *panel.Properties
	workings   *panel.Workings
	lengths    *panel.Lengths
	measured   *panel.Measured
	status     *panel.Status
	tabs       *container.AppTabs
	middle     *container.Split // plan and panels
	workTab    *container.TabItem
	menus      menus
	sheets     []*sheet
	preview    *preview         // nil while no pages are looked at
	watch      func()           // see Watch
	pace       pace             // of the panels in a gesture
	gesture    lane             // of pictures and figures in a gesture
	panels     turns            // of a large plan: a panel a turn
	figures    *derive.Circuits // as the panels showed last
	under      under
	lights     lights

	history    *panel.History
	historyTab *container.TabItem
	testTab    *container.TabItem
	outer      *container.Split // tray and the rest
	progress   *progressRow
	journal    *journal.Journal // nil without a state folder
	noted      *doc.Scheme      // handed to the journal last
	adopted    *journal.Lost    // work of an earlier window that is open here
	adoptedAt  time.Time
	memory     journal.Memory
	missing    map[string]bool // recent files that are gone
	saveNext   func()          // a save that was asked for during another
	disk       onDisk          // the scheme's file as this window left it
	puts       int             // schemes put on the desk so far

	tips     *panel.Tips
	drawn    *panel.FigureTips // of the drawings
	tabBar   *panel.TabBar
	steps    *steps
	blank    *blank
	right    *container.Split // findings over the tabs
	rightBox *fyne.Container
	stage    fyne.CanvasObject // plan with everything about it
	folds    folding

	example  *doc.Scheme   // that the program opened on by itself; nil: on something else
	greeting *widget.Label // of the welcome, nil without one

	lastRemember chan struct{} // closed when the last change was written
}

// New makes the window; ShowAndRun or Show of the Fyne window opens it.
func New(cfg Config) *Window {
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	memory := recall(&cfg)
	w := &Window{cfg: cfg, memory: memory, desk: cfg.Desk, bridge: NewBridge(cfg.Post), theme: NewTheme(cfg.Dark), defaults: tool.NewDefaults()}
	if cfg.Mark != "" {
		w.disk = onDisk{path: cfg.Desk.Frame().Path, hash: cfg.Mark}
	}
	cfg.App.Settings().SetTheme(w.theme)
	w.pace.every = panelsEvery
	if cfg.Post == nil {
		w.pace.later = func(d time.Duration, f func()) { w.bridge.later(d, func() { w.bridge.Tell(f) }) }
	}
	w.win = cfg.App.NewWindow(ProgramName)
	w.makePanels()
	w.plan = board.New(w.desk, board.Config{ // calls its hooks at once
		Defaults: w.defaults, Now: cfg.Now, Modifiers: modifiers,
		OnSelect: w.selected, OnStatus: w.said, OnTool: w.taken, OnMenu: w.contextMenu,
		OnShortcut: w.shortcut, OnRune: w.letter, OnKey: w.key, OnEscape: w.tips.Hide, OnNight: w.askDusk,
		OnFigure: func(f *board.Figure) { w.rest(w.plan, f, panel.DrawnFigure{Look: w.plan.Look()}) },
		OnRing:   func() { w.circuit.FollowRing() },
		Work:     w.pacedIn(&w.gesture, "pictures", picturesEvery, 0),
	})
	w.desk.Follow(w.pacedIn(&w.gesture, "figures", figuresEvery, 0))
	if cfg.Post == nil { // tests wait for the one worker that they have asked
		w.desk.LightApart(w.paced("light", lightEvery, framesFirst))
		w.desk.CutApart(w.paced("coils", coilsEvery, framesFirst))
		w.desk.FollowEdits(w.paced("edits", 0, pictureFirst))
		w.panels.later = func(f func()) { w.bridge.later(0, func() { w.bridge.Tell(func() { f(); w.changed() }) }) }
	}
	w.makeStrip()
	w.makeViews()
	w.assemble()
	w.buildMenus()
	w.bridge.OnShown = w.showProgress
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
	w.begin()
	return w
}

// begin shows what a start has to say, and begins what goes on beside the window.
func (w *Window) begin() {
	if f := w.desk.Frame(); f.Path == "" && w.cfg.Unread == nil {
		w.example = f.Scheme
	}
	if w.cfg.Welcome {
		w.welcome()
	}
	if w.cfg.Post == nil {
		w.watchSleep()
	}
	if w.cfg.Unread != nil {
		w.fail(unreadTitle, w.cfg.Unread)
	}
	w.startJournal()
	if w.cfg.State != "" {
		w.opened(w.desk.Frame().Path)
	}
}

// Fyne returns the window for the driver.
func (w *Window) Fyne() fyne.Window { return w.win }

// makePanels makes everything around the plan.
func (w *Window) makePanels() {
	f := w.desk.Frame()
	w.tips, w.drawn = panel.NewTips(w.bridge.After()), panel.NewFigureTips(w.desk)
	w.steps, w.blank = newSteps(w.closeSteps), newBlank()
	w.tray = newTray(f, w.defaults, w.take)
	w.tray.setTips(w.tips)
	w.tray.resized = w.trayResized
	w.tray.chosen = w.chosen
	w.status = panel.NewStatus(f)
	w.findings = panel.NewFindings(w.desk)
	w.properties = panel.NewProperties(w.desk)
	w.workings = panel.NewWorkings(w.desk)
	w.lengths = panel.NewLengths(w.desk)
	w.makeMeasured()
	w.history = panel.NewHistory(w.desk)
	w.panels.show = w.panelTurns()
	w.progress = newProgressRow()
	w.status.Tips, w.status.Explain = w.tips, w.desk.Explain
	w.findings.Tips, w.workings.Tips, w.lengths.Tips = w.tips, w.tips, w.tips
	w.properties.SetTips(w.tips)
	w.properties.OnPicture = w.pictureAct
	w.properties.OnLight = w.showLight
	w.properties.OnOpen = func(id doc.ID) {
		w.plan.Select(id)
		w.fly(id)
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
	if w.cfg.Post == nil {
		w.findings.Later = func(f func()) { w.bridge.later(0, func() { w.bridge.Tell(func() { f(); w.changed() }) }) }
	}
	w.findings.OnWorking = w.showWorking
	w.findings.OnEnter = w.enterAt
	w.findings.OnOverrule = w.overrule
	w.findings.OnCures = w.cures
	w.findings.OnRefused = func(err error) { w.status.SetHint(err.Error(), true) }
	w.lengths.OnPick = func(id doc.ID) {
		w.plan.Select(id)
		w.fly(id)
	}
}

// cures tries the ways out of a finding in a worker; an older question is
// dropped.
func (w *Window) cures(f finding.Finding, done func([]layout.Cure)) {
	frame := w.desk.Frame()
	whole := func() *layout.Frame { return frame }
	if frame.Behind {
		whole = w.desk.Whole(frame)
	}
	RunTask(w.bridge, Task{Key: "cures", Title: "Trying ways out of " + string(f.Code)}, func(ctx context.Context, _ Report) ([]layout.Cure, error) {
		return layout.Cures(ctx, whole(), f), nil
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
	tab := func(name string, icon fyne.Resource, o fyne.CanvasObject) *container.TabItem {
		t := container.NewTabItemWithIcon(name, icon, nil)
		t.Content = container.New(whenShown{win: w, of: t}, o)
		return t
	}
	w.workTab = tab("Working", nil, w.workings.Object())
	lengths := tab("Lengths", nil, w.lengths.Object())
	w.testTab = tab("Readings", nil, w.measured.Object())
	w.historyTab = tab("", theme.HistoryIcon(), w.history.Object()) // five names ask for more room than there is
	w.tabs = container.NewAppTabs(tab("Properties", nil, w.properties.Object()), w.workTab, lengths, w.testTab, w.historyTab)
	w.tabs.OnSelected = func(t *container.TabItem) {
		layAnew(w.right) // it may need another height, and is filled to that
		w.workings.SetActive(t == w.workTab)
		w.history.SetActive(t == w.historyTab)
		w.measured.SetActive(t == w.testTab)
		w.lengths.SetActive(t == lengths)
		layAnew(w.right) // what it was filled with counts as well
	}
	w.lengths.SetActive(false)
	w.tabBar = panel.NewTabBar(w.tabs)
	w.right = container.NewVSplit(w.findings.Object(), w.tabBar.Object())
	w.right.Offset = 0.42
	w.stage = container.NewBorder(w.steps.box, container.NewStack(w.status.Help(), w.progress.box), nil, nil, w.stageBox())
	w.views.stage.Add(w.blank.box)
	w.views.stage.Add(w.dusk.read.box)
	w.views.stage.Add(w.standing.box)
	w.rightBox = container.New(asWide{width: rightLeast}, w.right)
	middle := container.NewHSplit(w.stage, w.rightBox)
	middle.Offset = narrowPanel
	w.middle = middle
	all := container.NewHSplit(w.tray.box, middle)
	all.Offset = 0 // as narrow as the tray may be
	w.outer = all
	for i, b := range w.views.buttons {
		b.setTip(w.tips, w.views.all[i].hint)
	}
	w.win.SetContent(container.New(roomy{w}, container.NewBorder(nil, w.status.Object(), nil, nil, all), w.tips.Layer()))
}

// frame shows what the desk published.
func (w *Window) frame(f *layout.Frame) {
	w.plan.SetFrame(f)
	w.askDusk()
	w.standing.follow(f)
	w.standing.ask()
	w.circuit.SetFrame(f)
	w.side.strip.SetFrame(f)
	w.placeStrip()
	w.tips.Hide()
	w.steps.setFrame(f)
	w.blank.setFrame(f, w.views.current().in == shown(w.plan))
	w.tray.setFrame(f)
	if f.Behind {
		w.findings.SetHead(f)
	}
	switch {
	case !f.Behind || f.Circuits != w.figures:
		w.figures = f.Circuits
		w.pace.do(f.Preview, w.followPanels)
	case !f.Preview: // the figures of a large edit follow; the others show what they did
		w.properties.Take(f)
		w.status.SetFrame(f) // which says so
		w.panels.do(turnProperties, turnOthers)
	}
	w.retitle(f)
	w.greet(f)
	w.menus.update(f)
	w.underFrame(f)
	w.lightsFrame(f)
	w.keepUnsaved(f)
	w.changed()
}

// followPanels brings the panels to the present frame.
func (w *Window) followPanels() {
	f := w.desk.Frame()
	w.properties.Take(f)
	if f.Scheme.Lamps.Len()+f.Scheme.Runs.Len() < turnsFrom {
		w.panels.all()
	} else {
		w.panels.do(turnFindings, turnProperties, turnOthers)
	}
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
	if w.circuit != nil { // the plan tells at once
		w.circuit.SetSelection(ids)
		w.side.strip.SetSelection(ids)
		w.placeStrip()
	}
	w.properties.SetSelection(ids)
	w.workings.SetSelection(ids)
	w.measured.SetSelection(ids)
	w.askDusk() // it keeps the light of a lamp at hand that may be moved next
}

// said follows the status of the plan.
func (w *Window) said(s board.Status) {
	w.tray.followSeries()
	if s.Drawing != w.blank.drawing {
		w.blank.drawing = s.Drawing
		w.blank.setFrame(w.desk.Frame(), w.onPlan())
	}
	w.status.SetScale(s.Scale)
	w.status.SetPointer(s.Pointer, s.Inside)
	if w.duskOn() {
		w.dusk.read.point(s.Pointer, s.Inside)
	}
	if s.Refused != "" {
		w.status.SetHint(s.Refused, true)
	} else if w.onPlan() {
		w.status.SetHelp(s.Hint, s.Brief, false)
	}
	w.changed()
}

// take puts a tool in hand.
func (w *Window) take(name string) {
	if !w.onPlan() {
		w.showView(0) // it draws on the plan
	}
	w.plan.SetTool(tool.ByName(w.defaults, name))
	w.tray.show(w.plan.Tool().Name())
	w.focusPlan()
}

// chosen has the tool in hand name what it places now. Who chose it with the mouse
// goes on at the plan; the keys may go on in the tray.
func (w *Window) chosen(pointed bool) {
	w.plan.Renew()
	if pointed {
		w.focusPlan()
	}
}

// taken follows the tool in hand.
func (w *Window) taken(name string) {
	w.tray.show(name)
	w.placeStrip()
}

// flyTo selects what a finding is about and brings it into view.
func (w *Window) flyTo(f finding.Finding) {
	id := doc.ID(f.Subject.ID)
	if doc.KindOf(w.desk.Frame().Scheme, id) == doc.NoKind {
		w.plan.Select() // about the whole scheme
		return
	}
	w.plan.Select(id)
	w.fly(id)
}

// enterAt shows the place in the properties of the supply point where what a
// finding asks for is entered.
func (w *Window) enterAt(f finding.Finding) {
	if panel.SchemeAsks(w.desk.Frame().Scheme, f.Code) {
		w.plan.Select()
		w.showTab(0)
		w.properties.Asked(f.Code)
		return
	}
	id := panel.SupplyFor(w.desk.Frame(), &f)
	if id == "" {
		return
	}
	w.plan.Select(id)
	w.fly(id)
	w.showTab(0)
	w.properties.Asked(f.Code)
}

// showWorking opens the working behind a finding.
func (w *Window) showWorking(f finding.Finding) {
	w.openPanel()
	w.flyTo(f)
	w.tabs.Select(w.workTab)
	w.workings.Open(f)
}

// setDark changes the colours of window and paper.
func (w *Window) setDark(dark bool) {
	w.theme.SetDark(dark)
	w.paintPaper()
	recolour(w.win.Content())
	for _, o := range w.win.Canvas().Overlays().List() {
		recolour(o)
	}
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
	w.circuit.SetPalette(p)
	w.side.strip.SetPalette(p)
	w.tray.legend.setPalette(p)
}

// focusPlan gives the keyboard to the plan, or to the view in its place.
func (w *Window) focusPlan() {
	if len(w.sheets) == 0 {
		w.win.Canvas().Focus(w.planBack())
	}
}

// quit closes the program, after unsaved work is cared for.
func (w *Window) quit() {
	if len(w.sheets) > 0 {
		return // a question is open already
	}
	w.properties.Flush()
	w.measured.Flush()
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
	items := []*fyne.MenuItem{fyne.NewMenuItem("Fit to window", w.views.current().in.ZoomFit), fyne.NewMenuItem("Select all", w.selectAll), fyne.NewMenuItem("Paste", w.paste)}
	if id != "" {
		tag := doc.TagOf(w.desk.Frame().Scheme, id)
		items = []*fyne.MenuItem{
			fyne.NewMenuItem("Properties of "+tag, func() { w.showTab(0) }),
			fyne.NewMenuItem("Working of "+tag, func() { w.showTab(1) }),
			fyne.NewMenuItem("Readings of "+tag, func() { w.showReadings(id) }),
			fyne.NewMenuItemSeparator(),
		}
		items = append(items, w.arrangeItems(id)...)
		items = append(items, fyne.NewMenuItem("Delete", w.deleteSelected))
	}
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), w.win.Canvas(), at)
}

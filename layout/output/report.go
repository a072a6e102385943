package output

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"duskwire/calc"
	"duskwire/calc/check"
	"duskwire/calc/finding"
	"duskwire/layout"
	"duskwire/layout/doc"
)

// Heading opens every report: which scheme, judged by which rule set.
type Heading struct {
	Scheme    string `json:"scheme"`
	RuleSet   string `json:"rule_set"`
	Edition   string `json:"edition"`
	Statement string `json:"statement"`
	// Stops is how many Stop findings stand, overruled ones left out.
	Stops int `json:"stops"`
	// Overruled are the findings decided against; they stay visible in every
	// report.
	Overruled []OverruledRow `json:"overruled,omitempty"`
}

// OverruledRow is one finding that was decided against.
type OverruledRow struct {
	Code    string `json:"code"`
	Level   string `json:"level"`
	Subject string `json:"subject"`
	Text    string `json:"text"`
	OverruleRow
}

// FindingsReport lists what was found.
type FindingsReport struct {
	Heading
	Counts   Counts       `json:"counts"`
	Findings []FindingRow `json:"findings"`
}

// Counts are the findings by level, overruled ones left out.
type Counts struct {
	Stop      int `json:"stop"`
	Decide    int `json:"decide"`
	Note      int `json:"note"`
	Overruled int `json:"overruled"`
}

// FindingRow is one finding in words.
type FindingRow struct {
	Code      string       `json:"code"`
	Level     string       `json:"level"`
	Subject   string       `json:"subject"`
	SubjectID string       `json:"subject_id"`
	Also      []string     `json:"also,omitempty"`
	Text      string       `json:"text"`
	Figure    string       `json:"figure,omitempty"`
	Limit     string       `json:"limit,omitempty"`
	Source    string       `json:"source,omitempty"`
	Working   string       `json:"working,omitempty"`
	Assumed   []string     `json:"assumed,omitempty"`
	Remedies  []RemedyRow  `json:"remedies,omitempty"`
	Overruled *OverruleRow `json:"overruled,omitempty"`
}

// RemedyRow is one way out. Those of a Stop finding that could be tried on the
// scheme come first, with Metres and what follows it; in the others these are
// left out.
type RemedyRow struct {
	Text   string     `json:"text"`
	Figure string     `json:"figure,omitempty"`
	Holds  *bool      `json:"holds,omitempty"`  // the finding would be gone
	Metres *float64   `json:"metres,omitempty"` // of cable to buy more
	Cables []CableRow `json:"cables,omitempty"` // change of the cut list
	Then   string     `json:"then,omitempty"`   // what it leaves or brings
	Apply  *bool      `json:"apply,omitempty"`  // the window can carry it out
}

// CableRow is the change of the cut list in one cable; negative is less.
type CableRow struct {
	Cable  string  `json:"cable"`
	Name   string  `json:"name"`
	Metres float64 `json:"metres"`
}

// OverruleRow says who overruled a finding, when and why.
type OverruleRow struct {
	By     string `json:"by"`
	On     string `json:"on"`
	Reason string `json:"reason"`
}

// ReadingsReport lists the figures of every point and every run.
type ReadingsReport struct {
	Heading
	// TestTemperature is what r1_r2_test_ohm is for; null when the survey has
	// none, and those values with it.
	TestTemperature *float64   `json:"test_celsius"`
	Points          []PointRow `json:"points"`
	Runs            []RunRow   `json:"runs"`
	// Sources and Zones say what may be added there.
	Sources []RoomRow `json:"sources"`
	Zones   []RoomRow `json:"zones"`
	RCDs    []LeakRow `json:"rcds"`
	// Strings are those of constant current; Load sums the garden up.
	Strings []StringRow `json:"strings"`
	Load    LoadRow     `json:"totals"`
}

// PointRow is what one point should read. A field is null when it does not
// apply or is not known; it is never zero for unknown.
type PointRow struct {
	ID          string   `json:"id"`
	Tag         string   `json:"tag"`
	System      string   `json:"system"`
	Trusted     bool     `json:"trusted"`
	NominalVolt float64  `json:"nominal_volt"`
	Voltage     *float64 `json:"voltage_volt"`
	DropVolt    *float64 `json:"drop_volt"`
	DropPercent *float64 `json:"drop_percent"`
	Current     *float64 `json:"current_ampere"`
	// Light of a lamp as a share of that at nominal voltage; of a strip also at
	// its darkest place.
	Light    *float64 `json:"light_percent"`
	Darkest  *float64 `json:"light_darkest_percent,omitempty"`
	Zs       *float64 `json:"zs_ohm"`
	ZsCold   *float64 `json:"zs_cold_ohm"`
	ZsLimit  *float64 `json:"zs_limit_ohm"`
	R1R2Cold *float64 `json:"r1_r2_cold_ohm"`
	R1R2Test *float64 `json:"r1_r2_test_ohm"`
	Expected *float64 `json:"voltage_expected_volt"`
	Device   string   `json:"device,omitempty"`
	NotKnown string   `json:"not_known,omitempty"`
}

// RunRow is one run with its figures.
type RunRow struct {
	ID            string   `json:"id"`
	Tag           string   `json:"tag"`
	Cable         string   `json:"cable"`
	PlanLength    float64  `json:"plan_length_m"`
	CutLength     float64  `json:"cut_length_m"`
	Current       *float64 `json:"current_ampere"`
	Capacity      *float64 `json:"capacity_ampere"`
	Operating     *float64 `json:"conductor_celsius"`
	Method        string   `json:"reference_method,omitempty"`
	Smallest      string   `json:"smallest_cable,omitempty"`
	SmallestBinds string   `json:"smallest_cable_binds,omitempty"`
	SmallestWhy   string   `json:"smallest_cable_reason,omitempty"`
	RunRoom
}

// LengthsReport is the cut list.
type LengthsReport struct {
	Heading
	Pieces []PieceRow `json:"pieces"`
	Totals []TotalRow `json:"totals"`
	Plans  []PlanRow  `json:"plans"`
}

// PieceRow is one piece of cable to cut.
type PieceRow struct {
	Run          string  `json:"run"`
	RunID        string  `json:"run_id"`
	From         string  `json:"from"`
	To           string  `json:"to"`
	Cable        string  `json:"cable"`
	PlanLength   float64 `json:"plan_length_m"`
	Rises        float64 `json:"rises_m"`
	Tails        float64 `json:"tails_m"`
	Slack        float64 `json:"slack_m"`
	WastePercent float64 `json:"waste_percent"`
	CutLength    float64 `json:"cut_length_m"`
}

// TotalRow sums the pieces of one cable.
type TotalRow struct {
	Cable     string  `json:"cable"`
	Name      string  `json:"name"`
	Pieces    int     `json:"pieces"`
	CutLength float64 `json:"cut_length_m"`
}

func headingOf(f *layout.Frame, rules *check.Rules) Heading {
	h := Heading{Scheme: f.Scheme.Title, RuleSet: rules.Name, Edition: rules.Edition + ", " + rules.Amendment,
		Statement: rules.Statement, Stops: Stops(f)}
	h.Overruled = OverruledOf(f)
	return h
}

// OverruledOf returns what was decided against in a frame, in the order of its
// findings.
func OverruledOf(f *layout.Frame) (out []OverruledRow) {
	for i := range f.Findings {
		if fd := &f.Findings[i]; fd.Overruled != nil {
			out = append(out, OverruledRow{string(fd.Code), fd.Level.String(), fd.Subject.Label, fd.Text,
				OverruleRow{fd.Overruled.By, fd.Overruled.On, fd.Overruled.Reason}})
		}
	}
	return out
}

// FindingsOf returns the findings of a frame, worst first.
func FindingsOf(f *layout.Frame, rules *check.Rules) FindingsReport {
	r := FindingsReport{Heading: headingOf(f, rules), Findings: []FindingRow{}}
	r.Counts = Counts{Stop: f.Totals.Stop, Decide: f.Totals.Decide, Note: f.Totals.Note}
	for i := range f.Findings {
		fd := &f.Findings[i]
		row := FindingRow{
			Code: string(fd.Code), Level: fd.Level.String(), Subject: fd.Subject.Label, SubjectID: fd.Subject.ID,
			Text: fd.Text, Figure: fd.Figure, Limit: fd.Limit, Source: fd.Source.String(), Working: fd.Working, Assumed: fd.Assumed,
		}
		for _, a := range fd.Also {
			row.Also = append(row.Also, a.Label)
		}
		row.Remedies = remedyRows(f, fd)
		if o := fd.Overruled; o != nil {
			row.Overruled = &OverruleRow{o.By, o.On, o.Reason}
			r.Counts.Overruled++
		}
		r.Findings = append(r.Findings, row)
	}
	return r
}

// tried reports whether the ways out of a finding are tried on the whole scheme:
// those of a Stop and of every volt drop, unless it was overruled.
func tried(fd *finding.Finding) bool {
	return fd.Overruled == nil && (fd.Level == finding.Stop || strings.HasPrefix(string(fd.Code), "VD-")) && layout.Curable(fd)
}

// remedyRows lists the ways out of a finding.
func remedyRows(f *layout.Frame, fd *finding.Finding) []RemedyRow {
	var rows []RemedyRow
	var cures []layout.Cure
	if tried(fd) {
		cures = layout.Cures(context.Background(), f, *fd)
	}
	for i := range cures {
		c := &cures[i]
		row := RemedyRow{Text: c.Text, Figure: c.Figure, Holds: &c.Holds, Then: c.Then,
			Metres: known(float64(c.Bought()), true, 3), Apply: new(bool)}
		*row.Apply = c.Operation != nil
		for _, m := range c.Metres {
			row.Cables = append(row.Cables, CableRow{m.Cable, m.Name, round(float64(m.Metres), 3)})
		}
		rows = append(rows, row)
	}
	for _, m := range layout.Untried(fd, cures) {
		rows = append(rows, RemedyRow{Text: m.Text, Figure: m.Figure})
	}
	return rows
}

// ReadingsOf returns the figures of a frame, circuit by circuit.
func ReadingsOf(f *layout.Frame, rules *check.Rules) ReadingsReport {
	r := ReadingsReport{Heading: headingOf(f, rules), Points: []PointRow{}, Runs: []RunRow{}}
	test := f.Scheme.Survey.Test
	r.TestTemperature = known(test.Value.Celsius(), test.Known, 1)
	figures := make([]*calc.Run, len(f.Circuits.Lengths)) // in run order, as the lengths
	roomed := make(chan *layout.Rooms, 1)
	go func() { roomed <- layout.RoomsOf(f) }()
	for _, res := range f.Results {
		if rows := pointRows(res, test.Known); len(r.Points) == 0 {
			r.Points = rows
		} else {
			r.Points = append(r.Points, rows...)
		}
		for i := range res.Runs {
			if at, ok := f.Scheme.Runs.Index(doc.ID(res.Runs[i].ID)); ok {
				figures[at] = &res.Runs[i]
			}
		}
	}
	r.Runs = slices.Grow(r.Runs, len(f.Circuits.Lengths))
	var room figureRoom
	for i := range f.Circuits.Lengths {
		l := &f.Circuits.Lengths[i]
		row := RunRow{ID: string(l.Run), Tag: l.Tag, Cable: l.Cable, PlanLength: round(float64(l.Plan), 3), CutLength: round(float64(l.Cut), 3)}
		if run := figures[i]; run != nil {
			row.Current = room.known(float64(run.Current), run.Trusted, 4)
			row.Capacity = room.known(float64(run.Capacity.Iz), run.Capacity.Known, 3)
			row.Operating = room.known(run.Operating.Value.Celsius(), run.Operating.Known, 1)
			row.Method = run.Capacity.Method
			if p := run.Proposal; p.Cable != nil {
				row.Smallest = p.Cable.Key
			}
			row.SmallestBinds, row.SmallestWhy = string(run.Proposal.Binds), run.Proposal.Why
		}
		r.Runs = append(r.Runs, row)
	}
	rooms := <-roomed
	for i := range r.Runs {
		r.Runs[i].RunRoom = runRoom(rooms, doc.ID(r.Runs[i].ID), &room)
	}
	r.Sources, r.Zones = roomRows(f, rooms)
	r.RCDs = leakRows(rooms)
	r.Strings, r.Load = stringRows(f), loadRow(&f.Totals)
	return r
}

// pointRows lists the points of a circuit by voltage system, then by label.
// tested says that the temperature of the test is known.
func pointRows(res *calc.Result, tested bool) []PointRow {
	order := map[string]int{}
	sorted := make([]labelled, len(res.Points))
	for i := range res.Points {
		p := &res.Points[i]
		at, seen := order[p.System]
		if !seen {
			at = len(order)
			order[p.System] = at
		}
		sorted[i] = labelledOf(p, at, i)
	}
	slices.SortFunc(sorted, labelled.compare)
	rows := make([]PointRow, len(sorted))
	var room figureRoom
	for i := range sorted {
		rows[i] = pointRow(sorted[i].point, tested, &room)
	}
	return rows
}

// labelled is a point with what its place in the order hangs on: system, label
// and where it stood. Most labels differ in the number behind the same letters,
// which is therefore read once.
type labelled struct {
	point      *calc.Point
	system, at int
	head       string // the label up to its first digit
	number     uint64
	numbered   bool
}

func labelledOf(p *calc.Point, system, at int) labelled {
	l := labelled{point: p, system: system, at: at, head: p.Label}
	from := strings.IndexAny(p.Label, "0123456789")
	if from < 0 {
		return l
	}
	to := from
	for to < len(p.Label) && p.Label[to] >= '0' && p.Label[to] <= '9' {
		l.number = l.number*10 + uint64(p.Label[to]-'0')
		to++
	}
	l.head, l.numbered = p.Label[:from], to-from < 19 // digits that fit
	return l
}

// compare orders as finding.LessLabel does.
func (l labelled) compare(o labelled) int {
	switch {
	case l.system != o.system:
		return l.system - o.system
	case l.numbered && o.numbered && l.head == o.head && l.number != o.number:
		return cmp.Compare(l.number, o.number)
	case finding.LessLabel(l.point.Label, o.point.Label):
		return -1
	case finding.LessLabel(o.point.Label, l.point.Label):
		return 1
	}
	return l.at - o.at
}

func pointRow(p *calc.Point, tested bool, room *figureRoom) PointRow {
	row := PointRow{ID: p.ID, Tag: p.Label, System: p.System, Trusted: p.Trusted, NominalVolt: float64(p.Nominal), Device: p.Device}
	row.Voltage = room.known(float64(p.Voltage), p.Trusted, 4)
	row.DropVolt = room.known(float64(p.Drop), p.Trusted, 4)
	row.DropPercent = room.known(p.DropRatio*100, p.Trusted, 4)
	row.Current = room.known(float64(p.Current), p.Trusted, 4)
	row.Light = room.known(p.Light.Value*100, p.Light.Known, 2)
	row.Darkest = room.known(p.Darkest.Value*100, p.Darkest.Known, 2)
	if l := &p.Loop; l.Applies {
		row.Zs = room.known(float64(l.Hot), l.Known, 4)
		row.ZsCold = room.known(float64(l.Cold), l.Known, 4)
		row.R1R2Cold = room.known(float64(l.R1R2Cold), l.Broken < 0, 4)
		row.NotKnown = l.Missing
	}
	row.R1R2Test = room.known(float64(p.R1R2Test.Value), p.R1R2Test.Known && tested, 4)
	row.Expected = room.known(float64(p.Expected.Value), p.Expected.Known, 4)
	row.ZsLimit = room.known(float64(p.Limit.Value), p.Limit.Known, 4)
	return row
}

// LengthsOf returns the cut list of a frame.
func LengthsOf(f *layout.Frame, rules *check.Rules) LengthsReport {
	r := LengthsReport{Heading: headingOf(f, rules), Pieces: []PieceRow{}, Totals: []TotalRow{}}
	at := map[string]int{}
	for _, l := range f.Circuits.Lengths {
		r.Pieces = append(r.Pieces, PieceRow{
			Run: l.Tag, RunID: string(l.Run), From: l.From, To: l.To, Cable: l.Cable,
			PlanLength: round(float64(l.Plan), 3), Rises: round(float64(l.Rises), 3), Tails: round(float64(l.Tails), 3),
			Slack: round(float64(l.Slack), 3), WastePercent: round(l.Waste*100, 2), CutLength: round(float64(l.Cut), 3),
		})
		if _, seen := at[l.Cable]; !seen {
			at[l.Cable] = len(r.Totals)
			r.Totals = append(r.Totals, TotalRow{Cable: l.Cable, Name: l.Name})
		}
		t := &r.Totals[at[l.Cable]]
		t.Pieces++
		t.CutLength = round(t.CutLength+float64(l.Cut), 3)
	}
	r.Plans = plansOf(f.Drums)
	return r
}

// RulesOf returns the rule set that a frame was judged by.
func RulesOf(rules []*check.Rules, s *doc.Scheme) *check.Rules {
	for _, r := range rules {
		if r.Key == s.Rules {
			return r
		}
	}
	return rules[0]
}

func known(v float64, ok bool, digits int) *float64 {
	if !ok {
		return nil
	}
	v = round(v, digits)
	return &v
}

// Stops returns how many Stop findings stand, overruled ones left out.
func Stops(f *layout.Frame) int { return finding.Count(f.Findings, finding.Stop) }

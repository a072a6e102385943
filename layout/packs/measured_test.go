package packs

import (
	"context"
	"os"
	"strings"
	"testing"

	"duskwire/calc/judge"
	q "duskwire/calc/quantity"
	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// writtenOn is all texts of the pages of a part, in the order in which they stand.
func writtenOn(p *Pack, title string) string {
	var out []string
	for _, page := range p.Pages {
		if page.Title != title {
			continue
		}
		for _, it := range page.List.Items {
			if it.Kind == scene.Text {
				out = append(out, it.Text)
			}
		}
	}
	return strings.Join(out, "\n")
}

// testPack makes the test pack of the town house after some edits.
func testPack(t *testing.T, ops ...edit.Operation) *Pack {
	t.Helper()
	data, err := os.ReadFile(example)
	if err != nil {
		t.Fatal(err)
	}
	stock, _, err := file.Shipped("", "")
	if err != nil {
		t.Fatal(err)
	}
	s, err := file.ReadScheme("townhouse.yaml", data, stock)
	if err != nil {
		t.Fatal(err)
	}
	for _, op := range ops {
		if s, err = op.Apply(s); err != nil {
			t.Fatal(err)
		}
	}
	made, err := Make(context.Background(), inputOf(t, s, stock, example), nil, "test")
	if err != nil {
		t.Fatal(err)
	}
	return made[0]
}

func reading(on doc.ID, test judge.Test, part, text string) edit.Operation {
	v, err := judge.ParseTyped(test, text)
	if err != nil {
		panic(err)
	}
	return edit.SetReading{New: doc.Visit{On: "2026-11-25", Temperature: q.Some(q.Celsius(8)), Instrument: "tester 7"}, Reading: doc.Reading{Asked: doc.Asked{On: on, Test: test, Part: part}, Value: v}}
}

// TestMeasuredPages: what was read stands in its column with its verdict and what it
// points to; without readings the columns are blank.
func TestMeasuredPages(t *testing.T) {
	blank := testPack(t)
	for _, part := range []string{"Dead tests", "Live tests", "Volts at extra-low voltage"} {
		if text := writtenOn(blank, part); strings.Contains(text, "pass") || !strings.Contains(text, "Measured") || !strings.Contains(text, "Judged") {
			t.Errorf("%s without readings:\n%s", part, text)
		}
	}
	if text := strings.ReplaceAll(writtenOn(blank, "Dead tests"), "\n", " "); !strings.Contains(text, "take the armour links off for this reading") {
		t.Errorf("section 1 does not say that the figures are of the core alone:\n%s", text)
	}
	if !strings.Contains(writtenOn(blank, "Dead tests"), "____") || !strings.Contains(writtenOn(blank, "As built"), "was not marked as issued") {
		t.Error("no line for the instrument, or no word about the missing mark")
	}
	p := testPack(t,
		reading("L5", judge.R1R2, "", "0.29"), reading("L6", judge.R1R2, "", "0.9"), reading("SP1", judge.InsulationEarth, "", ">299"),
		reading("SP1", judge.Zs, "", "0.64"), reading("L7", judge.Zs, "", "13"), reading("SP1", judge.RCDTime, "b32-rcbo-30", "28.4"),
		reading("L10", judge.Volts, "", "11.3"), reading("L3", judge.Polarity, "", "reversed"),
		edit.MarkIssued{On: "2026-11-01", By: "A. N. Other"},
		edit.MovePoints{IDs: []doc.ID{"L6"}, By: geom.Point{X: 600 * geom.Millimetre}})
	for part, wants := range map[string][]string{
		"Dead tests":                 {"0.29", "pass", "0.90", "far off", ">299", "tester 7", "Read as reversed: L3.", "What the readings point to", "the temperature of its own day"},
		"Live tests":                 {"0.64", "13.00", "outside", "28.4"},
		"Volts at extra-low voltage": {"11.30", "−0.35", "far off"},
		"Quantities for the form":    {"0.90 at L6; 2 of 12 read", "13.00 at L7; 2 of 13 read", ">299 MΩ", "reversed at L3", "28.4 ms", "tester 7", "certificate"},
		"As built":                   {"Issued 2026-11-01 by A. N. Other.", "moved 0.6 m", "length"},
		"Notes for the user":         {"Switching and settings"},
	} {
		text := writtenOn(p, part)
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %q", part, want)
			}
		}
	}
}

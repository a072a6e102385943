package packs

import (
	"context"
	"os"
	"testing"

	"duskwire/layout/doc"
	"duskwire/layout/edit"
	"duskwire/layout/file"
	"duskwire/layout/geom"
	"duskwire/layout/scene"
)

// TestHandRingStaysOnTheSheet: the ring within which roots are dug round by hand ends
// at the frame of the route drawing.
func TestHandRingStaysOnTheSheet(t *testing.T) {
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
	tree := *doc.WithTag(s, "M3").(*doc.Mark)
	tree.Place.At, tree.Radius = geom.Pt(0.6, 13), 400*geom.Millimetre
	if s, err = (edit.SetMark{Mark: &tree}).Apply(s); err != nil {
		t.Fatal(err)
	}
	made, err := Make(context.Background(), inputOf(t, s, stock, example), nil, "site")
	if err != nil {
		t.Fatal(err)
	}
	rings := 0
	for _, page := range made[0].Pages {
		if page.Title != "Route drawing" {
			continue
		}
		for _, it := range page.List.Items {
			if it.Entity != string(tree.ID) || it.Kind == scene.Text {
				continue
			}
			if it.Kind == scene.Polyline {
				rings++
			}
			for _, p := range it.Points {
				if p.X < 10 || p.Y < 10 || p.X > page.List.Width-10 || p.Y > page.List.Height-10 {
					t.Fatalf("kind %v at %v lies outside the frame", it.Kind, p)
				}
			}
		}
	}
	if rings == 0 {
		t.Error("no ring was cut: the test shows nothing")
	}
}

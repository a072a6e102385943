package ui

import (
	"errors"
	"strings"
	"testing"

	"duskwire/layout"
	"duskwire/layout/doc"
	"duskwire/layout/file"
)

// The welcome says what is open: the example, the person's own file, an empty plan
// where a file could not be read, and lost work that was taken up over it.
func TestWelcomeSaysWhatIsOpen(t *testing.T) {
	r := newRig(t, "townhouse.yaml")
	cfg := r.w.cfg
	cfg.Welcome = true
	says := func(want string) {
		t.Helper()
		if got := texts(r.w.sheets[0].pop.Content); !strings.Contains(got, want) || strings.Contains(got, "example") != strings.Contains(want, "example") {
			t.Errorf("the welcome says\n%s\nexpected %q", got, want)
		}
	}
	open := func(s *doc.Scheme, path string) {
		stock, _, err := file.Shipped("", "")
		if err != nil {
			t.Fatal(err)
		}
		cfg.Desk = layout.NewDesk(stock, cfg.Desk.Rules(), s, path)
		r.desk = cfg.Desk
		r.w = New(cfg)
		r.w.Fyne().Show()
	}
	garden := r.desk.Frame().Scheme
	open(garden, "")
	says("A finished example is open.")
	open(garden, "/gardens/terrace.yaml")
	says("Your file terrace.yaml is open.")
	cfg.Unread = errors.New("garden.yaml:1: found nothing, expected a scheme")
	open(doc.New(garden.Rules), "")
	says("An empty plan is open.")
	cfg.Unread = nil
	open(garden, "")
	r.move() // as if lost work came on the desk
	says("Work that is not saved yet is open")
}

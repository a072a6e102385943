package file

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"duskwire/layout/doc"
)

func mustSave(t *testing.T, path string, s *doc.Scheme) {
	t.Helper()
	if err := SaveScheme(path, s); err != nil {
		t.Fatal(err)
	}
}

func titleIn(t *testing.T, path string) string {
	t.Helper()
	s, err := LoadScheme(path, book())
	if err != nil {
		t.Fatal(err)
	}
	return s.Title
}

func names(t *testing.T, folder string) string {
	t.Helper()
	list, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range list {
		out = append(out, e.Name())
	}
	return strings.Join(out, " ")
}

func titled(title string) *doc.Scheme {
	s := full()
	s.Title = title
	return s
}

func TestSaveKeepsThePreviousVersion(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "garden.yaml")
	mustSave(t, path, titled("one"))
	if got := names(t, folder); got != "garden.yaml" {
		t.Errorf("after the first save there is %q", got)
	}
	mustSave(t, path, titled("two"))
	mustSave(t, path, titled("three"))
	if a, b := titleIn(t, path), titleIn(t, path+".bak"); a != "three" || b != "two" {
		t.Errorf("file holds %q and backup %q, want three and two", a, b)
	}
	if got := names(t, folder); got != "garden.yaml garden.yaml.bak" {
		t.Errorf("after three saves there is %q", got)
	}
}

func TestSaveKeepsModeAndLink(t *testing.T) {
	folder := t.TempDir()
	path, link := filepath.Join(folder, "garden.yaml"), filepath.Join(folder, "link.yaml")
	mustSave(t, path, titled("one"))
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("garden.yaml", link); err != nil {
		t.Skip("no links here:", err)
	}
	mustSave(t, link, titled("two"))
	if got, err := os.Readlink(link); err != nil || got != "garden.yaml" {
		t.Errorf("the link is now %q (%v)", got, err)
	}
	if got := titleIn(t, path); got != "two" {
		t.Errorf("the file behind the link holds %q", got)
	}
	for _, p := range []string{path, path + ".bak"} {
		if info, err := os.Stat(p); err != nil || info.Mode().Perm() != 0o640 {
			t.Errorf("%s has mode %v (%v), want 0640", p, info.Mode(), err)
		}
	}
}

// A spare name left by a crash does not stop the next save.
func TestSaveAfterACrash(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "garden.yaml")
	mustSave(t, path, titled("one"))
	if err := os.Link(path, filepath.Join(folder, ".garden.yaml.bak.new")); err != nil {
		t.Skip("no links here:", err)
	}
	mustSave(t, path, titled("two"))
	if a, b := titleIn(t, path), titleIn(t, path+".bak"); a != "two" || b != "one" {
		t.Errorf("file holds %q and backup %q", a, b)
	}
}

func TestSaveFailuresAreToldInWords(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "plain")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, path, want string
		is               error
	}{
		{"no folder", filepath.Join(folder, "none", "garden.yaml"), "there is no such file or folder", fs.ErrNotExist},
		{"folder in the place of the file", folder, "it is not a file", nil},
		{"file in the place of the folder", filepath.Join(file, "garden.yaml"), "not a directory", nil},
	} {
		err := SaveScheme(c.path, full())
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(err.Error(), "cannot save "+c.path) {
			t.Errorf("%s: error %v, want one that says %q", c.name, err, c.want)
		}
		if c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%s: error %v is not %v", c.name, err, c.is)
		}
	}
	if _, err := LoadScheme(filepath.Join(folder, "none.yaml"), book()); err == nil || !strings.Contains(err.Error(), "there is no such file") {
		t.Errorf("loading no file gave %v", err)
	}
	if _, err := LoadScheme(folder, book()); err == nil || !strings.Contains(err.Error(), "it is not a file") {
		t.Errorf("loading a folder gave %v", err)
	}
}

// When the new file cannot take the place of the old, the old stays whole and
// nothing is left lying about. A folder with the name of the backup does that
// for every user, root too.
func TestFailedSaveLeavesTheFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "garden.yaml")
	mustSave(t, path, titled("one"))
	if err := os.MkdirAll(filepath.Join(path+".bak", "inside"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := SaveScheme(path, titled("two")); err == nil {
		t.Error("saving went well, want an error")
	}
	if got := titleIn(t, path); got != "one" {
		t.Errorf("the file holds %q, want the old one", got)
	}
	if got := names(t, folder); got != "garden.yaml garden.yaml.bak" {
		t.Errorf("after the failure there is %q", got)
	}
}

func TestSaveIntoAFolderWithoutPermission(t *testing.T) {
	if os.Geteuid() == 0 {
		t.Skip("root may write anywhere")
	}
	folder := t.TempDir()
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	defer os.Chmod(folder, 0o755)
	err := SaveScheme(filepath.Join(folder, "garden.yaml"), full())
	if err == nil || !strings.Contains(err.Error(), "you may not do that here") {
		t.Errorf("error %v", err)
	}
}

package rules

import (
	"bytes"
	"go/ast"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func files(t *testing.T) []string {
	t.Helper()
	all, err := Files(root)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// read returns a tracked file; one that was just removed is empty.
func read(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	return data
}

func TestTopLevelHoldsOnlyTheHouse(t *testing.T) {
	may := []string{"app", "core", "checks", "web", "build", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "Makefile", "LICENSE"}
	for _, name := range files(t) {
		top, _, _ := strings.Cut(name, "/")
		if !strings.HasPrefix(top, ".") && !slices.Contains(may, top) {
			t.Errorf("%s: the top level holds only %v and dot-files", name, may)
		}
	}
}

func TestEveryPackageSaysWhatItIs(t *testing.T) {
	said, folders := map[string]bool{}, map[string]bool{}
	for _, s := range sources(t) {
		if s.Test {
			continue
		}
		folders[s.Folder()] = true
		if s.AST.Doc == nil {
			continue
		}
		begin := "Package " + s.AST.Name.Name + " "
		if s.AST.Name.Name == "main" {
			begin = "Command "
		}
		if strings.HasPrefix(s.AST.Doc.Text(), begin) {
			said[s.Folder()] = true
		}
	}
	for folder := range folders {
		if !said[folder] {
			t.Errorf("%s has no package comment that says what it is and what it is not", folder)
		}
	}
}

const longest = 400 // lines

func TestNoFileIsLongWithoutAReason(t *testing.T) {
	for _, name := range files(t) {
		if !slices.Contains([]string{".go", ".css", ".js"}, path.Ext(name)) {
			continue
		}
		data := read(t, name)
		if n := bytes.Count(data, []byte("\n")); n > longest && !bytes.Contains(data, []byte("Long because ")) {
			t.Errorf("%s has %d lines: part it, or say at its top // Long because …", name, n)
		}
	}
}

func TestNothingIsMarkedUnfinished(t *testing.T) {
	mark := regexp.MustCompile(`\b(TO` + `DO|FIX` + `ME|XX` + `X)\b`)
	for _, name := range files(t) {
		if data := read(t, name); mark.Match(data) && !binary(data) {
			t.Errorf("%s has an unfinished mark: %s", name, mark.Find(data))
		}
	}
}

func TestNoFileKnowsTheMachineItWasWrittenOn(t *testing.T) {
	place := regexp.MustCompile(`(^|[\s"'=(:` + "`" + `])/(wo` + `rk|ro` + `ot|tm` + `p|ho` + `me|Us` + `ers)/[A-Za-z0-9_.-]+`)
	host := regexp.MustCompile(`(proxy|sum)\.go` + `lang\.org|registry\.np` + `mjs|deb\.deb` + `ian\.org`)
	for _, name := range files(t) {
		data := read(t, name)
		if binary(data) {
			continue
		}
		if at := place.Find(data); at != nil {
			t.Errorf("%s names a path of one machine: %s", name, at)
		}
		if at := host.Find(data); at != nil && name != "go.sum" {
			t.Errorf("%s names where packages are fetched from, which each machine sets for itself: %s", name, at)
		}
	}
}

func binary(data []byte) bool { return bytes.IndexByte(data, 0) >= 0 }

func TestNothingRegistersItself(t *testing.T) {
	for _, s := range sources(t) {
		for _, d := range s.AST.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil && f.Name.Name == "init" {
				t.Errorf("%s has a func init: what happens at the start stands in main, in order", s.Path)
			}
		}
	}
}

// go-app's Raw puts text into the page as markup; from one file only, which
// makes it from numbers and our own words.
func TestMarkupIsMadeInOnePlace(t *testing.T) {
	for _, s := range sources(t) {
		if s.Path != "app/screen/svg.go" && slices.Contains(s.Calls(), goApp+".Raw") {
			t.Errorf("%s uses app.Raw: only app/screen/svg.go may", s.Path)
		}
	}
}

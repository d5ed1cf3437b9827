package rules

import (
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

const (
	root   = "../.."
	module = "lugmark/"
	goApp  = "github.com/maxence-charriere/go-app/v10/pkg/app"
)

func sources(t *testing.T) []Source {
	t.Helper()
	all, err := Load(root)
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 50 {
		t.Fatalf("only %d Go files were found", len(all))
	}
	return all
}

// below reports whether a folder is another one or lies in it.
func below(folder, of string) bool {
	return folder == of || strings.HasPrefix(folder, of+"/")
}

// mayImport is the house: what a folder may import of the module, besides what
// lies in itself. The first row whose folder matches counts.
var mayImport = []struct {
	folder string
	may    []string
}{
	{"core", []string{"core"}},
	{"checks", []string{"core"}},
	{"app/screen", []string{"core", "checks"}},
	{"app/store", []string{"core"}},
	{"app/serve", nil},
	{"app", []string{"core", "checks", "app", "web"}}, // main, where they meet; others below it have a row of their own
	{"web", nil},
	{"build", []string{"core", "checks", "build"}}, // never app: it is proved from outside
}

func TestEveryFolderImportsOnlyWhatItMay(t *testing.T) {
	for _, s := range sources(t) {
		may, self := allowed(s.Folder())
		for p := range s.Imports() {
			folder, ours := strings.CutPrefix(p, module)
			if !ours || below(folder, self) {
				continue
			}
			if !slices.ContainsFunc(may, func(m string) bool { return below(folder, m) }) {
				t.Errorf("%s imports %s; a file of %s may import %v", s.Path, p, self, may)
			}
		}
	}
}

// allowed returns what a folder may import, and the folder whose row it is. A
// package of app without a row may use the pure packages, and no sister.
func allowed(folder string) (may []string, self string) {
	for _, row := range mayImport {
		if row.folder == "app" && folder != "app" {
			continue
		}
		if below(folder, row.folder) {
			return row.may, row.folder
		}
	}
	return []string{"core", "checks"}, folder
}

func TestOnlyTheServersMainImportsWeb(t *testing.T) {
	for _, s := range sources(t) {
		if _, yes := s.Imports()[module+"web"]; yes && (s.Folder() != "app" || s.JS) {
			t.Errorf("%s imports web, which holds the whole phone app: only main, in a file that is not built for js, may", s.Path)
		}
	}
}

// notOnPhone is what no file of the phone app may import, and why.
var notOnPhone = map[string]string{
	"net/http":      "its client costs 5.2 MB in the phone app; use the browser's fetch",
	"text/template": "it calls methods by name, so the linker keeps every method of every type: 3.4 MB",
	"html/template": "it calls methods by name, so the linker keeps every method of every type: 3.9 MB",
	"os/exec":       "a phone runs no programs",
}

func TestPhoneAppImportsNothingItMustNot(t *testing.T) {
	for _, s := range sources(t) {
		if s.Test || !s.JS || below(s.Folder(), "build") {
			continue
		}
		for p := range s.Imports() {
			if why, bad := notOnPhone[p]; bad {
				t.Errorf("%s imports %s: %s", s.Path, p, why)
			}
		}
	}
}

// What a dependency imports shows only in the real graph.
func TestNoDependencyBringsTemplatesOrTheServerToThePhone(t *testing.T) {
	list := exec.Command("go", "list", "-deps", "./app")
	list.Dir = root
	list.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	list.Stderr = os.Stderr
	out, err := list.Output()
	if err != nil {
		t.Fatal(err)
	}
	deps := strings.Fields(string(out))
	if !slices.Contains(deps, goApp) {
		t.Fatal("the graph of the phone app has no go-app in it: it is not the graph of the phone app")
	}
	for _, bad := range []string{"text/template", "html/template", module + "web", module + "app/serve"} {
		if slices.Contains(deps, bad) {
			t.Errorf("the phone app depends on %s", bad)
		}
	}
}

// notPure is what a package that only computes may not import, and why.
var notPure = map[string]string{
	"os":           "it would read this machine",
	"os/exec":      "it would run programs",
	"io/ioutil":    "it would read this machine",
	"net":          "it would speak to others",
	"net/http":     "it would speak to others",
	"math/rand":    "the same input must give the same answer",
	"math/rand/v2": "the same input must give the same answer",
	"crypto/rand":  "random bytes enter as values",
	"syscall":      "it would ask this machine",
	"syscall/js":   "it would touch the page",
	"log":          "it would write; return what is to be said",
	"log/slog":     "it would write; return what is to be said",
	"runtime":      "the same input must give the same answer on every machine",
	goApp:          "it would touch the page",
}

// notCalled is what it may not call of packages it may import.
var notCalled = []string{"time.Now", "time.Since", "time.Until", "time.Sleep", "time.After", "time.AfterFunc",
	"time.NewTimer", "time.NewTicker", "time.Tick", "time.Local", "time.LoadLocation"}

func TestPurePackagesTouchNothing(t *testing.T) {
	for _, s := range sources(t) {
		if s.Test || !below(s.Folder(), "core") && !below(s.Folder(), "checks") {
			continue
		}
		for p := range s.Imports() {
			if why, bad := notPure[p]; bad {
				t.Errorf("%s imports %s: %s", s.Path, p, why)
			}
		}
		for _, call := range s.Calls() {
			if slices.Contains(notCalled, call) {
				t.Errorf("%s uses %s: time and place enter as values", s.Path, call)
			}
		}
	}
}

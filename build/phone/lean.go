package main

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// go-app links a web server into the phone app: one file that serves and one
// type that embeds a handler bring net/http, and with it TLS, into a program
// that never serves. Without them the app is a tenth of its size smaller before
// and an eighth after compression, and starts sooner.
//
// The library has no build tag for that, so it is built from a copy with a few
// small rewrites. The copy is made from the module cache, lies in the ignored
// scratch folder and is committed nowhere. A rewrite that no longer applies
// stops the build: then go-app has changed, and a person looks.

const libraryPath = "github.com/maxence-charriere/go-app/v10"

// rewrite changes one text in one file of the library.
type rewrite struct{ file, old, new string }

var rewrites = []rewrite{
	// The server itself stays on computers.
	{"pkg/app/http.go", "package app\n", "//go:build !wasm\n\npackage app\n"},
	// What resolves file names need not be able to serve the files.
	{"pkg/app/resource.go", "\t\tHandler:   http.FileServer(http.Dir(directory)),\n", ""},
	{"pkg/app/resource.go", "\thttp.Handler\n\tdirectory string", "\tdirectory string"},
	{"pkg/app/resource.go", "\t\"net/http\"\n", ""},
	// One pattern routes every address to one component: no need for a machine
	// that reads patterns, which is 5 % of the download. Another pattern ends the
	// program at its start, where nobody can overlook it.
	{"pkg/app/route.go", "import (\n\t\"regexp\"\n\t\"sync\"\n)", "import \"sync\""},
	{"pkg/app/route.go", "regexp.MustCompile(pattern)", "onlyEvery(pattern)"},
	{"pkg/app/route.go", "*regexp.Regexp", "everyPath"},
	{"pkg/app/route.go", "type regexpRoute struct {", "type everyPath struct{}\n\nfunc (everyPath) MatchString(string) bool { return true }\n\n" +
		"func onlyEvery(pattern string) everyPath {\n\tif pattern != \".*\" {\n\t\tpanic(\"the phone app routes by the pattern .* alone\")\n\t}\n\treturn everyPath{}\n}\n\ntype regexpRoute struct {"},
	// The stub of a function that no browser can run names the server's type.
	{"pkg/app/wasm.go", "h *Handler", "_ any"},
}

// leanModule makes the copy of go-app and a go.mod that builds with it, and
// returns the path of that go.mod.
func leanModule() (string, error) {
	from, err := libraryFolder()
	if err != nil {
		return "", err
	}
	to := filepath.Join(scratch, "go-app")
	if err := copyOnce(from, to); err != nil {
		return "", err
	}
	mod, err := os.ReadFile("go.mod")
	if err != nil {
		return "", err
	}
	sum, err := os.ReadFile("go.sum")
	if err != nil {
		return "", err
	}
	lean := filepath.Join(scratch, "lean.mod")
	mod = append(mod, "\nreplace "+libraryPath+" => ./"+filepath.ToSlash(to)+"\n"...)
	if err := os.WriteFile(lean, mod, 0o644); err != nil {
		return "", err
	}
	return lean, os.WriteFile(filepath.Join(scratch, "lean.sum"), sum, 0o644)
}

// copyOnce makes the rewritten copy unless it is there already. It is made
// aside and renamed, so that two builds at once never see half of it.
func copyOnce(from, to string) error {
	mark := fmt.Sprintf("%s\n%q\n", filepath.Base(from), rewrites)
	if made, err := os.ReadFile(filepath.Join(to, "made")); err == nil && string(made) == mark {
		return nil
	}
	aside := fmt.Sprintf("%s-%d", to, os.Getpid())
	defer os.RemoveAll(aside)
	if err := copyLibrary(from, aside); err != nil {
		return fmt.Errorf("copy go-app: %w", err)
	}
	for _, r := range rewrites {
		if err := r.apply(aside); err != nil {
			return err
		}
	}
	if err := os.WriteFile(filepath.Join(aside, "made"), []byte(mark), 0o644); err != nil {
		return err
	}
	if err := os.RemoveAll(to); err != nil {
		return err
	}
	return os.Rename(aside, to)
}

// apply makes the rewrite, which must fit exactly once.
func (r rewrite) apply(root string) error {
	path := filepath.Join(root, r.file)
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if n := strings.Count(string(text), r.old); n != 1 {
		return fmt.Errorf("go-app has changed: %q stands %d times in %s, not once; look at build/phone/lean.go", r.old, n, r.file)
	}
	return os.WriteFile(path, []byte(strings.Replace(string(text), r.old, r.new, 1)), 0o644)
}

// libraryFolder is where the module cache has go-app.
func libraryFolder() (string, error) {
	out, err := exec.Command("go", "mod", "download", libraryPath).CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("go mod download: %w\n%s", err, out)
	}
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", libraryPath).Output()
	if err != nil {
		return "", fmt.Errorf("go list %s: %w", libraryPath, err)
	}
	return strings.TrimSpace(string(dir)), nil
}

// copyLibrary copies what an import of pkg/app needs: go.mod, the package and
// its siblings, without their tests.
func copyLibrary(from, to string) error {
	return filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		switch {
		case d.IsDir() && name != "." && name != "pkg" && !strings.HasPrefix(name, "pkg"+string(filepath.Separator)):
			return filepath.SkipDir
		case d.IsDir():
			return os.MkdirAll(filepath.Join(to, name), 0o755)
		case name != "go.mod" && name != "LICENSE" && !strings.HasPrefix(name, "pkg"+string(filepath.Separator)), strings.HasSuffix(name, "_test.go"):
			return nil
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(to, name), data, 0o644)
	})
}

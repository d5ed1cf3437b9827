// Package rules keeps the house in order: who may import whom, what a file may
// hold, how long it may be. Its tests parse the files themselves, because the go
// command sees one platform at a time, and a bad import in a file for the phone
// would pass on a computer.
//
// It judges form, never whether a number is right.
package rules

import (
	"fmt"
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
)

// Source is one Go file of the module.
type Source struct {
	Path string // from the top, with slashes: "core/unit/quantity.go"
	Test bool
	JS   bool // it is part of the phone app's build
	AST  *ast.File
}

// Folder is the package's folder, "core/unit".
func (s Source) Folder() string { return path.Dir(s.Path) }

// Imports returns the paths that the file imports, each with its name in the
// file.
func (s Source) Imports() map[string]string {
	all := map[string]string{}
	for _, i := range s.AST.Imports {
		p := strings.Trim(i.Path.Value, `"`)
		name := path.Base(p)
		if i.Name != nil {
			name = i.Name.Name
		}
		all[p] = name
	}
	return all
}

// Load parses every Go file below root.
func Load(root string) ([]Source, error) {
	phone := build.Default
	phone.GOOS, phone.GOARCH, phone.CgoEnabled = "js", "wasm", false
	files, err := Files(root)
	if err != nil {
		return nil, err
	}
	var all []Source
	for _, name := range files {
		if !strings.HasSuffix(name, ".go") {
			continue
		}
		full := filepath.Join(root, filepath.FromSlash(name))
		if _, err := os.Stat(full); os.IsNotExist(err) {
			continue // removed, and not yet recorded as such
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), full, nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return nil, err
		}
		inPhone, err := phone.MatchFile(filepath.Dir(full), filepath.Base(full))
		if err != nil {
			return nil, err
		}
		all = append(all, Source{Path: name, Test: strings.HasSuffix(name, "_test.go"), JS: inPhone, AST: parsed})
	}
	return all, nil
}

// Files returns the files that belong to the project: those that git tracks, or
// where there is no git, all but the folders it would ignore.
func Files(root string) ([]string, error) {
	list := exec.Command("git", "ls-files", "-z")
	list.Dir = root
	if out, err := list.Output(); err == nil {
		return strings.Split(strings.Trim(string(out), "\x00"), "\x00"), nil
	}
	var files []string
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, p)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		switch {
		case rel == "build/dist", d.Name() == "node_modules", d.Name() == ".git":
			return fs.SkipDir
		case d.IsDir(), strings.HasPrefix(rel, "web/shell/") && d.Name() != ".keep":
			return nil
		}
		files = append(files, rel)
		return nil
	})
	return files, err
}

// Calls returns the functions of other packages that a file names, as
// "import/path.Name".
func (s Source) Calls() []string {
	byName := map[string]string{}
	for p, name := range s.Imports() {
		byName[name] = p
	}
	var calls []string
	ast.Inspect(s.AST, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := sel.X.(*ast.Ident); ok && byName[x.Name] != "" {
				calls = append(calls, fmt.Sprintf("%s.%s", byName[x.Name], sel.Sel.Name))
			}
		}
		return true
	})
	return calls
}

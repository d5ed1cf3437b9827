package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
)

// assemble returns every file of the shell by name. wasm is the compiled app.
func assemble(wasm []byte) (map[string][]byte, error) {
	glue, err := wasmExec()
	if err != nil {
		return nil, err
	}
	css, err := styleSheet("web/css/*.css", "web/start.css")
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{"app.wasm": wasm, "wasm_exec.js": glue, "lugmark.css": css}
	for _, name := range []string{"theme.js", "start.js", "lugmark.webmanifest"} {
		if files[name], err = os.ReadFile(filepath.Join("web", name)); err != nil {
			return nil, err
		}
	}
	for name, draw := range icons {
		if files[name], err = draw(); err != nil {
			return nil, err
		}
	}
	page, err := os.ReadFile("web/index.html")
	if err != nil {
		return nil, err
	}
	worker, err := os.ReadFile("web/worker.js")
	if err != nil {
		return nil, err
	}

	// The version covers the two templates too, so that a change of either is a new version.
	version := versionOf(files, page, worker)
	if files["index.html"], err = fill("index.html", page, map[string]string{
		"@VERSION@": version,
		"@BYTES@":   strconv.Itoa(len(wasm)),
	}); err != nil {
		return nil, err
	}
	list, err := json.Marshal(listOf(files))
	if err != nil {
		return nil, err
	}
	if files["worker.js"], err = fill("worker.js", worker, map[string]string{
		"@VERSION@": version,
		"@FILES@":   string(list),
	}); err != nil {
		return nil, err
	}
	return files, nil
}

// styleSheet joins the sheets into one: tokens.css first, since it names the
// order of the layers, then by name, then the last.
func styleSheet(pattern, last string) ([]byte, error) {
	paths, err := filepath.Glob(pattern)
	if err != nil {
		return nil, err
	}
	first := func(path string) bool { return filepath.Base(path) == "tokens.css" }
	sort.Slice(paths, func(i, j int) bool {
		if first(paths[i]) != first(paths[j]) {
			return first(paths[i])
		}
		return paths[i] < paths[j]
	})
	var all bytes.Buffer
	for _, path := range append(paths, last) {
		sheet, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		all.Write(sheet)
		all.WriteByte('\n')
	}
	return all.Bytes(), nil
}

// versionOf returns 12 hex digits that change when any byte served changes.
func versionOf(files map[string][]byte, templates ...[]byte) string {
	h := sha256.New()
	for _, name := range sortedNames(files) {
		sum := sha256.Sum256(files[name])
		fmt.Fprintf(h, "%s %x\n", name, sum)
	}
	for _, t := range templates {
		sum := sha256.Sum256(t)
		fmt.Fprintf(h, "%x\n", sum)
	}
	return hex.EncodeToString(h.Sum(nil))[:12]
}

// listOf returns what the worker installs: pairs of a path and the integrity
// of its bytes. The first page is installed as "/", the address it has for a
// browser; the worker itself is the browser's to keep.
func listOf(files map[string][]byte) [][2]string {
	var list [][2]string
	for _, name := range sortedNames(files) {
		path := "/" + name
		if name == "index.html" {
			path = "/"
		}
		sum := sha256.Sum256(files[name])
		list = append(list, [2]string{path, "sha256-" + base64.StdEncoding.EncodeToString(sum[:])})
	}
	return list
}

// fill replaces each mark of a template, and fails when a mark is not there or
// is left: a template that lost its mark would serve a version called @VERSION@.
func fill(name string, template []byte, marks map[string]string) ([]byte, error) {
	text := string(template)
	for mark, value := range marks {
		if !strings.Contains(text, mark) {
			return nil, fmt.Errorf("web/%s has no %s to fill in", name, mark)
		}
		text = strings.ReplaceAll(text, mark, value)
	}
	for _, mark := range []string{"@VERSION@", "@BYTES@", "@FILES@"} {
		if strings.Contains(text, mark) {
			return nil, fmt.Errorf("web/%s: %s is not filled in", name, mark)
		}
	}
	return []byte(text), nil
}

func sortedNames(files map[string][]byte) []string {
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}

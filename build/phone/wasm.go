package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// scratch is where half-made things lie; it is ignored by git.
const scratch = "build/dist"

// inlined are the packages whose small functions are copied into their callers:
// the runtime, what hashes and signs, and what solves and weighs numbers in
// loops. Everywhere else a call costs nothing that a person notices, and calls
// instead of copies take a thirtieth off the whole download.
var inlined = []string{"runtime/...", "internal/runtime/...", "crypto/...", "lugmark/core/circuit", "lugmark/core/measure"}

// buildWasm compiles the phone app and returns its bytes. -trimpath and -s -w
// keep every path of this machine out, and a tenth of the size. named leaves
// the names of functions in, for who wants to weigh them.
func buildWasm(release string, named bool) ([]byte, error) {
	if err := os.MkdirAll(scratch, 0o755); err != nil {
		return nil, err
	}
	out := filepath.Join(scratch, fmt.Sprintf("app-%d.wasm", os.Getpid()))
	defer os.Remove(out)
	lean, err := leanModule()
	if err != nil {
		return nil, err
	}
	args := []string{"build", "-modfile=" + lean, "-trimpath", "-buildvcs=false", "-o", out, "-gcflags=all=-l"}
	for _, pkg := range inlined { // the last flag that fits a package holds
		args = append(args, "-gcflags="+pkg+"=")
	}
	ldflags := "-X main.version=" + release
	if !named {
		ldflags = "-s -w " + ldflags
	}
	cmd := exec.Command("go", append(args, "-ldflags", ldflags, "./app")...)
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	var said bytes.Buffer
	cmd.Stderr = &said
	if err := cmd.Run(); err != nil {
		return nil, fmt.Errorf("go build: %w\n%s", err, said.String())
	}
	return os.ReadFile(out)
}

// wasmExec returns the glue between JavaScript and Go. It comes from the Go
// that compiled the app: one from another version does not fit.
func wasmExec() ([]byte, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, fmt.Errorf("go env: %w", err)
	}
	return os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
}

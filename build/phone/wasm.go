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

// buildWasm compiles the phone app and returns its bytes. -trimpath and -s -w
// keep every path of this machine out, and a tenth of the size.
func buildWasm(release string) ([]byte, error) {
	if err := os.MkdirAll(scratch, 0o755); err != nil {
		return nil, err
	}
	out := filepath.Join(scratch, fmt.Sprintf("app-%d.wasm", os.Getpid()))
	defer os.Remove(out)
	lean, err := leanModule()
	if err != nil {
		return nil, err
	}
	cmd := exec.Command("go", "build", "-modfile="+lean, "-trimpath", "-buildvcs=false",
		"-ldflags", "-s -w -X main.version="+release, "-o", out, "./app")
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

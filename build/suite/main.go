// Command suite runs the tests, stage by stage, and counts them:
//
//	go run ./build/suite             all stages
//	go run ./build/suite unit wasm   those
//
// It goes on after a stage that failed, prints what failed in full and the rest
// in one line for each package, and ends with "N passed, N failed, N skipped".
// A test that has parts is counted by its parts.
//
// It decides nothing about what a test may do, and installs nothing; see
// build/need for that.
package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// stage is one kind of tests.
type stage struct {
	name string
	run  func(*count) error
}

var stages = []stage{
	{"vet", vet},
	{"unit", unit},
	{"wasm", wasm},
	{"rules", func(c *count) error { return c.goTest(nil, "-count=1", "./build/rules") }},
	{"sim", sim},
	{"size", func(c *count) error { return c.goTest(nil, "-count=1", "./build/size") }},
	{"e2e", func(c *count) error { return c.goTest(nil, "-count=1", "-timeout=20m", "./build/e2e") }},
}

func main() {
	chosen := stages
	if names := os.Args[1:]; len(names) > 0 {
		chosen = nil
		for _, name := range names {
			found := false
			for _, s := range stages {
				if s.name == name {
					chosen, found = append(chosen, s), true
				}
			}
			if !found {
				fmt.Fprintf(os.Stderr, "suite: there is no stage %q\n", name)
				os.Exit(2)
			}
		}
	}
	c := &count{}
	broken := false
	for _, s := range chosen {
		begin := time.Now()
		fmt.Printf("== %s\n", s.name)
		if err := s.run(c); err != nil {
			fmt.Printf("== %s failed: %v\n", s.name, err)
			broken = true
		}
		fmt.Printf("== %s took %.0f s\n", s.name, time.Since(begin).Seconds())
	}
	fmt.Printf("%d passed, %d failed, %d skipped\n", c.passed, c.failed, c.skipped)
	if broken || c.failed > 0 {
		os.Exit(1)
	}
}

// vet looks at both builds: the go command sees one at a time.
func vet(*count) error {
	return errors.Join(
		run(nil, "go", "vet", "./..."),
		run(phoneEnv(), "go", "vet", "./app/...", "./core/...", "./checks/..."),
	)
}

// unit runs every package but those that have a stage of their own.
func unit(c *count) error {
	out, err := exec.Command("go", "list", "./...").Output()
	if err != nil {
		return fmt.Errorf("go list: %w", err)
	}
	args := []string{}
	for _, pkg := range strings.Fields(string(out)) {
		switch strings.TrimPrefix(pkg, "lugmark/") {
		case "build/rules", "build/size", "build/e2e":
		default:
			args = append(args, pkg)
		}
	}
	return c.goTest(nil, args...)
}

// wasm runs the packages that only compute once more as the phone will: 32-bit
// pointers in 64-bit words, no fused multiply-add, no clock of its own.
func wasm(c *count) error {
	if _, err := exec.LookPath("node"); err != nil {
		if os.Getenv("CI") != "" {
			return errors.New("node is missing: go run ./build/need node installs it")
		}
		fmt.Println("left out: the tests as WebAssembly need node, which is not here")
		return nil
	}
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("go env: %w", err)
	}
	runner := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "go_js_wasm_exec")
	return c.goTest(phoneEnv(), "-exec", runner, "./core/...", "./checks/...")
}

// sim plays two thousand lives of invented phones and an office; all of them
// together count as one test.
func sim(c *count) error {
	if err := run(nil, "go", "run", "./build/sim", "-seeds", "2000"); err != nil {
		c.failed++
		return err
	}
	c.passed++
	return nil
}

// phoneEnv is the environment of a build for the phone. It is a short one: a
// program in node gets at most 8 KiB of it, and a long PATH of this machine
// would keep it from starting.
func phoneEnv() []string {
	env := []string{"GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0"}
	for _, pair := range os.Environ() {
		name, _, _ := strings.Cut(pair, "=")
		switch name {
		case "PATH", "HOME", "TMPDIR", "CI", "GOPATH", "GOCACHE", "GOMODCACHE", "GOPROXY", "GOSUMDB", "GONOSUMDB", "GOFLAGS",
			"GOPRIVATE", "GONOPROXY", "GOINSECURE", "GOROOT", "GOTOOLCHAIN", "XDG_CACHE_HOME", "HTTP_PROXY", "HTTPS_PROXY",
			"NO_PROXY", "http_proxy", "https_proxy", "no_proxy", "SSL_CERT_FILE", "SSL_CERT_DIR":
			env = append(env, pair)
		}
	}
	return env
}

// run runs a command; env nil is this program's own.
func run(env []string, name string, args ...string) error {
	cmd := exec.Command(name, args...)
	cmd.Env = env
	cmd.Stdout, cmd.Stderr = os.Stdout, os.Stderr
	if err := cmd.Run(); err != nil {
		return fmt.Errorf("%s %s: %w", name, strings.Join(args, " "), err)
	}
	return nil
}

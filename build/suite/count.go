package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strings"
)

// count is how many tests ended how.
type count struct {
	passed, failed, skipped int
}

// event is one line of go test -json.
type event struct {
	Action      string
	Package     string
	ImportPath  string // of a build
	Test        string
	Output      string
	Elapsed     float64
	FailedBuild string
}

// goTest runs go test and counts.
func (c *count) goTest(env []string, args ...string) error {
	cmd := exec.Command("go", append([]string{"test", "-json"}, args...)...)
	cmd.Env = env
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	c.read(out, os.Stdout)
	if err := cmd.Wait(); err != nil {
		return fmt.Errorf("go test: %w", err)
	}
	return nil
}

// read counts the tests of a stream of events and writes a line for each
// package, and all that a failed test said.
func (c *count) read(events io.Reader, to io.Writer) {
	type key struct{ pkg, test string }
	said := map[key]*strings.Builder{}
	say := func(k key, text string) {
		if said[k] == nil {
			said[k] = &strings.Builder{}
		}
		said[k].WriteString(text)
	}
	ended := map[string][]event{} // of a package, its tests in the order they ended
	lines := bufio.NewScanner(events)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil {
			fmt.Fprintln(to, lines.Text()) // not of go test: a tool's own words
			continue
		}
		k := key{e.Package, e.Test}
		switch e.Action {
		case "output":
			say(k, e.Output)
		case "build-output":
			say(key{e.ImportPath, ""}, e.Output)
		case "pass", "fail", "skip":
			if e.Test != "" {
				ended[e.Package] = append(ended[e.Package], e)
				continue
			}
			tests, failed := c.add(ended[e.Package])
			switch {
			case e.Action == "fail":
				for _, t := range ended[e.Package] {
					if t.Action == "fail" {
						fmt.Fprint(to, text(said[key{e.Package, t.Test}]))
					}
				}
				if failed == 0 { // it did not build, or ended before any test
					c.failed++
					fmt.Fprint(to, text(said[key{e.FailedBuild, ""}]))
				}
				fmt.Fprintf(to, "FAIL %s%s", e.Package, "\n"+text(said[key{e.Package, ""}]))
			case tests > 0:
				fmt.Fprintf(to, "ok   %-36s %5d tests %7.1f s\n", e.Package, tests, e.Elapsed)
			}
			for k := range said {
				if k.pkg == e.Package {
					delete(said, k)
				}
			}
		}
	}
}

func text(b *strings.Builder) string {
	if b == nil {
		return ""
	}
	return b.String()
}

// add counts the tests that have no parts, and returns how many, and how many failed.
func (c *count) add(ended []event) (tests, failed int) {
	whole := map[string]bool{} // names that have parts
	for _, e := range ended {
		for i := range e.Test {
			if e.Test[i] == '/' {
				whole[e.Test[:i]] = true
			}
		}
	}
	partFailed := map[string]bool{}
	for _, e := range ended {
		if e.Action == "fail" && !whole[e.Test] {
			top, _, _ := strings.Cut(e.Test, "/")
			partFailed[top] = true
		}
	}
	for _, e := range ended {
		// A test that failed though all its parts passed failed by itself.
		itself := e.Action == "fail" && !strings.Contains(e.Test, "/") && !partFailed[e.Test]
		if whole[e.Test] && !itself {
			continue
		}
		tests++
		switch e.Action {
		case "pass":
			c.passed++
		case "fail":
			c.failed++
			failed++
		case "skip":
			c.skipped++
		}
	}
	return tests, failed
}

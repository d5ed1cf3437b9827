package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
)

// mutant is the product, or what stands for the app here, without one design
// decision.
type mutant struct {
	name    string // the decision that is taken away
	changes []change
	same    string // why nobody can tell, if nobody can; it is then expected to live
}

// change replaces one text of one file, which stands there exactly once.
type change struct{ file, old, new string }

// apply returns the changed texts by file.
func (m mutant) apply() (map[string]string, error) {
	out := map[string]string{}
	for _, c := range m.changes {
		text, done := out[c.file]
		if !done {
			raw, err := os.ReadFile(c.file)
			if err != nil {
				return nil, err
			}
			text = string(raw)
		}
		if n := strings.Count(text, c.old); n != 1 {
			return nil, fmt.Errorf("%s: %s has %d times %q", m.name, c.file, n, c.old)
		}
		out[c.file] = strings.Replace(text, c.old, c.new, 1)
	}
	return out, nil
}

// result is what became of a mutant.
type result struct {
	broken, runs int
	first        string // what the first seed that noticed says
	took         time.Duration
}

// tryMutants tries them one after the other, and returns the exit code: 1 when
// one that should be noticed was not.
func tryMutants(seeds int, only string) int {
	dir, err := os.MkdirTemp("", "sim")
	if err != nil {
		fmt.Fprintln(os.Stderr, "sim:", err)
		return 2
	}
	defer os.RemoveAll(dir)
	killed, all, code := 0, 0, 0
	for _, m := range mutants {
		if !strings.Contains(m.name, only) {
			continue
		}
		r, err := m.try(dir, seeds)
		switch {
		case err != nil:
			fmt.Printf("UNTRIED  %s: %v\n", m.name, err)
			code = 1
			continue
		case m.same != "" && r.broken == 0:
			fmt.Printf("the same %-52s %s\n", m.name, m.same)
			continue
		case r.broken == 0:
			fmt.Printf("SURVIVED %-52s in %d seeds, %.0f s\n", m.name, r.runs, r.took.Seconds())
			code = 1
		default:
			fmt.Printf("killed   %-52s in %3d of %d seeds, %3.0f s: %.100s\n", m.name, r.broken, r.runs, r.took.Seconds(), r.first)
			killed++
		}
		all++
	}
	fmt.Printf("%d of %d killed\n", killed, all)
	return code
}

// limit is how long the runs of one mutant may take; one that takes longer has
// been noticed.
const limit = 5 * time.Minute

// try builds this program with the changes and runs it. No file of the tree is
// touched: the compiler reads the changed texts through an overlay.
func (m mutant) try(dir string, seeds int) (result, error) {
	texts, err := m.apply()
	if err != nil {
		return result{}, err
	}
	replace := map[string]string{}
	for file, text := range texts {
		original, err := filepath.Abs(file)
		changed := filepath.Join(dir, strings.ReplaceAll(file, "/", "_"))
		if err := errors.Join(err, os.WriteFile(changed, []byte(text), 0o600)); err != nil {
			return result{}, err
		}
		replace[original] = changed
	}
	overlay, program := filepath.Join(dir, "overlay.json"), filepath.Join(dir, "mutant")
	list, err := json.Marshal(map[string]any{"Replace": replace})
	if err := errors.Join(err, os.WriteFile(overlay, list, 0o600)); err != nil {
		return result{}, err
	}
	if out, err := exec.Command("go", "build", "-overlay", overlay, "-o", program, "./build/sim").CombinedOutput(); err != nil {
		return result{}, fmt.Errorf("it is no program: %s", out)
	}
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	began := time.Now()
	run := exec.CommandContext(ctx, program, "-seeds", strconv.Itoa(seeds))
	run.WaitDelay = time.Second
	out, err := run.CombinedOutput()
	return m.read(string(out), err, seeds, time.Since(began)), nil
}

// read finds in the output of a run how many seeds noticed.
func (m mutant) read(out string, err error, seeds int, took time.Duration) result {
	r := result{runs: seeds, took: took}
	for _, line := range strings.Split(out, "\n") {
		if r.first == "" && strings.HasPrefix(line, "seed ") {
			r.first = line
		}
		if rest, ok := strings.CutPrefix(line, runsRow); ok {
			r.runs, _ = strconv.Atoi(strings.TrimSpace(rest))
		}
		if rest, ok := strings.CutPrefix(line, brokenRow); ok {
			r.broken, _ = strconv.Atoi(strings.TrimSpace(rest))
			return r
		}
	}
	if err != nil { // it ended before it could count
		r.broken, r.first = 1, strings.SplitN(out+"it never ended", "\n", 2)[0]
	}
	return r
}

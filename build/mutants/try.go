package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"time"
)

// Fates of a mutant.
const (
	Killed   = "killed"   // a test noticed
	Survived = "survived" // none did
	Slow     = "slow"     // its tests did not end in time; counts as killed, and is said
	Unbuilt  = "unbuilt"  // it is no program, and does not count
)

// Tried is a mutant and what became of it.
type Tried struct {
	Mutant
	Fate string
	Err  error // it could not be tried
}

// Try tries mutants, so many at once, and sends each when it is done. It ends
// early with the context.
func Try(ctx context.Context, all []Mutant, dir string, limit time.Duration, at int) <-chan Tried {
	work, out := make(chan Mutant), make(chan Tried)
	var crew sync.WaitGroup
	for i := range at {
		crew.Add(1)
		go func() {
			defer crew.Done()
			own := filepath.Join(dir, fmt.Sprint(i))
			for m := range work {
				fate, err := tryOne(ctx, m, own, limit)
				if ctx.Err() != nil {
					return
				}
				out <- Tried{m, fate, err}
			}
		}()
	}
	go func() {
		defer close(out)
		defer crew.Wait()
		defer close(work)
		for _, m := range all {
			select {
			case work <- m:
			case <-ctx.Done():
				return
			}
		}
	}()
	return out
}

// tryOne builds the tests with the change and runs them: first those of the
// file beside, which mostly know, then all.
func tryOne(ctx context.Context, m Mutant, dir string, limit time.Duration) (string, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", err
	}
	original, err := filepath.Abs(m.File)
	if err != nil {
		return "", err
	}
	changed, overlay, program := filepath.Join(dir, "changed.go"), filepath.Join(dir, "overlay.json"), filepath.Join(dir, "tests")
	replace, err := json.Marshal(map[string]map[string]string{"Replace": {original: changed}})
	if err == nil {
		err = errors.Join(os.WriteFile(changed, []byte(m.Apply()), 0o600), os.WriteFile(overlay, replace, 0o600))
	}
	if err != nil {
		return "", err
	}
	build := exec.CommandContext(ctx, "go", "test", "-c", "-vet=off", "-ldflags=-s -w", "-p", "1", "-overlay", overlay, "-o", program, ".")
	build.Dir = filepath.Dir(m.File)
	if build.Run() != nil {
		return Unbuilt, nil
	}
	var quiet []string
	if usesRapid(build.Dir) { // it would write the failures of a mutant beside the tests, and draw for long
		quiet = []string{"-rapid.nofailfile", "-rapid.checks=10"}
	}
	beside, _ := os.ReadFile(strings.TrimSuffix(m.File, ".go") + "_test.go")
	if tests := testsIn(beside); tests != "" {
		if fate := fateOf(ctx, program, build.Dir, limit, append(quiet, "-test.run", tests)...); fate != Survived {
			return fate, nil
		}
	}
	return fateOf(ctx, program, build.Dir, limit, quiet...), nil
}

// usesRapid reports whether a test of the folder imports rapid.
func usesRapid(folder string) bool {
	names, _ := filepath.Glob(filepath.Join(folder, "*_test.go"))
	for _, name := range names {
		if text, _ := os.ReadFile(name); bytes.Contains(text, []byte(`"pgregory.net/rapid"`)) {
			return true
		}
	}
	return false
}

var testName = regexp.MustCompile(`(?m)^func (Test\w+)\(`)

// testsIn gives a pattern for the tests of a file; "" when it has none.
func testsIn(source []byte) string {
	var names []string
	for _, m := range testName.FindAllSubmatch(source, -1) {
		if name := string(m[1]); name != "TestMain" {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "^(" + strings.Join(names, "|") + ")$"
}

// slowest is the law that judges a whole job once for every line of it: too long
// to be run for each mutant.
const slowest = "^TestMissingNeverHelps$"

// fateOf runs the tests but for the slowest.
func fateOf(ctx context.Context, program, folder string, limit time.Duration, args ...string) string {
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, append([]string{"-test.failfast", "-test.skip", slowest, "-test.timeout", "0"}, args...)...)
	cmd.Dir = folder
	cmd.WaitDelay = time.Second
	switch err := cmd.Run(); {
	case err == nil:
		return Survived
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return Slow
	}
	return Killed
}

// tally counts fates by kind.
type tally map[string]map[string]int

func (t tally) add(x Tried) {
	if x.Err != nil {
		x.Fate = "untried: " + x.Err.Error()
	}
	if t[x.Kind] == nil {
		t[x.Kind] = map[string]int{}
	}
	t[x.Kind][x.Fate]++
}

// print writes how many of each kind were killed, and how many of them only took
// too long: an endless loop, or a busy machine.
func (t tally) print(w io.Writer) {
	killed, all, slow := 0, 0, 0
	for _, kind := range Kinds {
		k, n := t[kind][Killed]+t[kind][Slow], t[kind][Killed]+t[kind][Slow]+t[kind][Survived]
		killed, all, slow = killed+k, all+n, slow+t[kind][Slow]
		if n > 0 {
			fmt.Fprintf(w, "%-6s %4d of %4d killed, %3.0f %%\n", kind, k, n, 100*float64(k)/float64(n))
		}
	}
	if all > 0 {
		fmt.Fprintf(w, "%-6s %4d of %4d killed, %3.0f %%\n", "all", killed, all, 100*float64(killed)/float64(all))
	}
	if slow > 0 {
		fmt.Fprintf(w, "%d of the killed only took longer than -limit: try them again where nothing else runs\n", slow)
	}
}

// Command mutants asks what the tests would notice: it changes one sign, one
// comparison, one limit or one condition at a time and runs the tests of that
// package. A mutant that no test kills is a line that nobody proves.
//
//	go run ./build/mutants                       a hundred, drawn by seed 1
//	go run ./build/mutants -sample 0 ./core/lift every one of a package
//	go run ./build/mutants -kind limit,sign -sample 200 -seed 7
//
// Nothing is copied and no file of the tree is touched: the compiler reads the
// changed text through an overlay. A mutant that means the same as the original
// stands in equivalent.txt with the reason and is not tried.
//
// It runs for minutes, so it is no part of the suite, and it proves nothing
// about what is not in a package's own tests.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"slices"
	"strings"
	"time"
)

// usual are the packages that judge and compute.
var usual = []string{"./checks", "./core/cell", "./core/circuit", "./core/conductor", "./core/figure", "./core/lift", "./core/measure", "./core/thermal", "./core/unit"}

func main() {
	sample := flag.Int("sample", 100, "how many to draw; 0 tries every one")
	seed := flag.Uint64("seed", 1, "which to draw")
	kinds := flag.String("kind", strings.Join(Kinds, ","), "which kinds of change")
	file := flag.String("file", "", "only files whose path has this in it")
	limit := flag.Duration("limit", 2*time.Minute, "how long the tests of one mutant may take; longer counts as killed, and is said")
	at := flag.Int("p", 1, "how many at once, 1 or 2")
	flag.Parse()
	if err := run(*sample, *seed, strings.Split(*kinds, ","), *file, *limit, min(max(*at, 1), 2), flag.Args()); err != nil {
		fmt.Fprintln(os.Stderr, "mutants:", err)
		os.Exit(1)
	}
}

func run(sample int, seed uint64, kinds []string, file string, limit time.Duration, at int, packages []string) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	if len(packages) == 0 {
		packages = usual
	}
	var all []Mutant
	for _, p := range packages {
		found, err := Find(p)
		if err != nil {
			return err
		}
		all = append(all, found...)
	}
	same, err := readEquivalent("build/mutants/equivalent.txt")
	if err != nil {
		return err
	}
	all = slices.DeleteFunc(all, func(m Mutant) bool {
		return !slices.Contains(kinds, m.Kind) || !strings.Contains(m.File, file) || same.has(m)
	})
	drawn := Draw(all, sample, seed)
	fmt.Printf("%d of %d mutants\n", len(drawn), len(all))
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	count := tally{}
	for done := range Try(ctx, drawn, dir, limit, at) {
		count.add(done)
		fmt.Printf("%-8s %s:%d:%d  %-5s  %s  in  %s\n", done.Fate, done.File, done.Line, done.Column, done.Kind, done.Change(), done.Text)
	}
	count.print(os.Stdout)
	return ctx.Err()
}

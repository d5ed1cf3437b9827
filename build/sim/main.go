// Command sim lets invented phones and an office work, lose messages, die and be
// restored, and asks afterwards whether anything was lost, hidden or told twice.
//
//	go run ./build/sim -seeds 2000          many runs; ends with 1 when one of them shows a fault
//	go run ./build/sim -seed 17             one run, with all that happened
//	go run ./build/sim -seeds 150 -mutants  takes one design decision away at a time: each must show
//
// Everything that decides is the product's: the fold and the writer of core/job,
// core/seal, core/record, core/exchange. Time, chance, disks and the network are
// this program's, in one goroutine and from one seed, so that a run can be had
// again. Signing is what costs: one run in ten signs and verifies with Ed25519,
// the others with a hash that takes its place.
//
// It knows no HTTP and no database; those are tested where they are.
package main

import (
	"flag"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"sync"
	"time"
)

func main() {
	seeds := flag.Int("seeds", 200, "how many runs")
	first := flag.Uint64("first", 1, "the first seed")
	one := flag.Uint64("seed", 0, "run this one, and print what happens")
	real := flag.Bool("real", false, "sign and verify with Ed25519 in every run")
	at := flag.Int("p", runtime.NumCPU(), "how many at once")
	tryAll := flag.Bool("mutants", false, "take design decisions away, one at a time")
	only := flag.String("only", "", "with -mutants: those whose name has this in it")
	flag.Parse()
	debug.SetGCPercent(800) // worlds are small and short: a fifth less time
	switch {
	case *tryAll:
		os.Exit(tryMutants(*seeds, *only))
	case *one > 0:
		w := newWorld(*one, *real || usual(*one))
		w.trace = os.Stdout
		w.run()
		for _, v := range w.violations {
			fmt.Println("VIOLATION", v)
		}
		w.tally.print(os.Stdout)
		if len(w.violations) > 0 {
			os.Exit(1)
		}
	default:
		list, err := regressions("build/sim/regressions.txt")
		if err != nil {
			fmt.Fprintln(os.Stderr, "sim:", err)
			os.Exit(2)
		}
		for i := range *seeds {
			list = append(list, *first+uint64(i))
		}
		began := time.Now()
		t := runAll(list, *at, *real)
		t.print(os.Stdout)
		fmt.Printf("%-28s %9.1f\n", "seconds", time.Since(began).Seconds())
		if t.broken > 0 {
			os.Exit(1)
		}
	}
}

// usual reports whether a seed is one of the tenth that signs with Ed25519.
func usual(seed uint64) bool { return seed%10 == 0 }

// runAll runs every seed, so many at once, and prints the faults as they come.
func runAll(seeds []uint64, at int, real bool) *tally {
	sum := newTally()
	work := make(chan uint64)
	var lock sync.Mutex
	var crew sync.WaitGroup
	for range max(at, 1) {
		crew.Add(1)
		go func() {
			defer crew.Done()
			for seed := range work {
				w := newWorld(seed, real || usual(seed))
				w.run()
				lock.Lock()
				sum.add(w.tally)
				if len(w.violations) > 0 {
					sum.broken++
					for _, v := range w.violations[:min(3, len(w.violations))] {
						fmt.Printf("seed %d: %s\n", seed, v)
					}
				}
				lock.Unlock()
			}
		}()
	}
	for _, seed := range seeds {
		work <- seed
	}
	close(work)
	crew.Wait()
	return sum
}

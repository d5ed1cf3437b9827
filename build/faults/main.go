// Command faults plants seventeen failures of the trade into invented sound
// jobs and sees whether the checks catch them:
//
//	go run ./build/faults        the table
//	go run ./build/faults -v     and what each check says of it
//
// Each plant is a small file in testdata that lays a few readings over a whole
// job. What must catch it is written in it before anything is judged; figures
// in it were worked out by hand, as its story says. Its twin is the same job
// without the failure, in which nothing may be raised. It ends with 1 unless
// all are caught without a false alarm.
//
// It proves nothing about failures that nobody thought of.
package main

import (
	"embed"
	"flag"
	"fmt"
	"os"
)

//go:embed testdata/*.json
var files embed.FS

func main() {
	verbose := flag.Bool("v", false, "say what each check found")
	flag.Parse()
	plants, err := load(files)
	if err != nil {
		fmt.Fprintln(os.Stderr, "faults:", err)
		os.Exit(1)
	}
	var results []result
	for _, p := range plants {
		r, err := p.judge()
		if err != nil {
			fmt.Fprintln(os.Stderr, "faults:", err)
			os.Exit(1)
		}
		results = append(results, r)
	}
	fmt.Print(table(results, *verbose))
	if caught, alarmed := score(results); caught < len(results) || alarmed > 0 {
		os.Exit(1)
	}
}

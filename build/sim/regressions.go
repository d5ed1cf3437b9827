package main

import (
	"fmt"
	"os"
	"strconv"
	"strings"
)

// regressions reads the seeds that once showed a fault: they are run first, for
// ever. A line is a seed and what it showed; empty lines and those that begin
// with # are left out.
func regressions(name string) ([]uint64, error) {
	text, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var out []uint64
	for i, line := range strings.Split(string(text), "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		number, why, _ := strings.Cut(line, " ")
		seed, err := strconv.ParseUint(number, 10, 64)
		if err != nil || seed == 0 || why == "" {
			return nil, fmt.Errorf("%s:%d: want a seed and what it showed", name, i+1)
		}
		out = append(out, seed)
	}
	return out, nil
}

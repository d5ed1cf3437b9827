package main

import (
	"fmt"
	"os"
	"strings"
)

// equivalent holds the mutants that mean the same as the original, by file,
// line of text and change; line numbers would not last.
type equivalent map[string]bool

func key(file, text, change string) string { return file + " | " + text + " | " + change }

func (e equivalent) has(m Mutant) bool { return e[key(m.File, m.Text, m.Change())] }

// readEquivalent reads lines such as
//
//	core/lift/lift.go | if persons < 1 { | < to <= | why nobody can tell them apart
//
// Empty lines and those that begin with # are left out.
func readEquivalent(name string) (equivalent, error) {
	raw, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	out := equivalent{}
	for i, line := range strings.Split(string(raw), "\n") {
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		// The text of a line may itself have " | " in it, the others have not.
		parts := strings.Split(line, " | ")
		if n := len(parts); n < 4 || strings.TrimSpace(parts[n-1]) == "" {
			return nil, fmt.Errorf("%s:%d: want file | line | change | reason", name, i+1)
		}
		n := len(parts)
		out[key(parts[0], strings.Join(parts[1:n-2], " | "), parts[n-2])] = true
	}
	return out, nil
}

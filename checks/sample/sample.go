// Package sample holds invented jobs, to look round in and to test with.
package sample

import "lugmark/core/say"

// Sample is one invented job as a plain job file.
type Sample struct {
	ID    string
	Title say.Phrase
	Raw   []byte
}

// List gives the samples.
func List() []Sample { return nil }

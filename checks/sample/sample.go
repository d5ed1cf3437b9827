// Package sample holds four invented jobs: to look around in, and to show what
// a plain job file looks like.
//
// Sites, people and makers in them do not exist, and no figure in them was
// measured. Their times are relative to the "now" of each file; who imports one
// moves them to the present.
package sample

import "lugmark/core/say"

// Sample is one invented job as a plain job file.
type Sample struct {
	ID    string // for ever
	Title say.Phrase
	Raw   []byte
}

// List gives the samples, the one to look at first in front.
func List() []Sample {
	return []Sample{
		{"jetty", say.Phrase{Key: "sample.jetty", English: "Invented jetty: half done, one block too low, one pair that the meter cannot judge"}, []byte(jetty)},
		{"hut", say.Phrase{Key: "sample.hut", English: "Invented hut: complete, ready to hand over"}, []byte(hut)},
		{"mast", say.Phrase{Key: "sample.mast", English: "Invented mast: resting until tonight"}, []byte(mast)},
		{"barge", say.Phrase{Key: "sample.barge", English: "Invented barge: sixteen blocks, just begun"}, []byte(barge)},
	}
}

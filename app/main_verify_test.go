//go:build !js

package main

import (
	"bytes"
	"errors"
	"flag"
	"strings"
	"testing"
)

const soundRecord = "../core/record/testdata/first.txt"

// How verify ends: nil is 0, a usage 2, everything else 1.
func TestVerifySaysHowItEnded(t *testing.T) {
	strange := strings.Repeat("0", 26)
	for _, r := range []struct {
		name string
		args []string
		ends int
		out  string
	}{
		{"sound", []string{soundRecord}, ended, "ok     Sound:"},
		{"for programs", []string{"--json", soundRecord}, ended, `{"sound":true,`},
		{"a strange fingerprint", []string{soundRecord, "--fingerprint", strange}, failed, "FAULT  The fingerprint is not found"},
		{"in groups and small", []string{soundRecord, "--fingerprint", "oooooo ooooooo 000000-0000000"}, failed, "FAULT  The fingerprint is not found"},
		{"from the standard input", []string{"-"}, failed, "FAULT  Line 1: not a record file"},
		{"a file that is not there", []string{"none.txt"}, failed, ""},
		{"a fingerprint that is too short", []string{soundRecord, "--fingerprint", "4Q7K2M"}, unsaid, ""},
		{"an empty fingerprint", []string{soundRecord, "--fingerprint", ""}, unsaid, ""},
		{"no file", nil, unsaid, ""},
		{"two files", []string{soundRecord, soundRecord}, unsaid, ""},
		{"an unknown flag", []string{"--deep", soundRecord}, unsaid, ""},
		{"help", []string{"--help"}, ended, "lugmark verify FILE"},
	} {
		var out bytes.Buffer
		err := verifyFile(r.args, strings.NewReader("Dear Ines,\n"), &out)
		got := failed
		var wrong usage
		switch {
		case err == nil, errors.Is(err, flag.ErrHelp):
			got = ended
		case errors.As(err, &wrong):
			got = unsaid
		}
		if got != r.ends || !strings.Contains(out.String(), r.out) {
			t.Errorf("%s: ended with %d, want %d (%v)\n%s", r.name, got, r.ends, err, out.String())
		}
	}
}

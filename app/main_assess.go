//go:build !js

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"

	"lugmark/app/assess"
	"lugmark/checks/plain"
)

var assessCommand = command{
	Name: "assess",
	Does: "judge job files and print one line of JSON for each finding",
	Run: func(args []string, out io.Writer) error {
		return assessFiles(args, os.Stdin, out, os.Stderr)
	},
}

func assessFiles(args []string, stdin io.Reader, out, complaints io.Writer) error {
	flags := flag.NewFlagSet("assess", flag.ContinueOnError)
	now := flags.String("now", "", "judge at this time, such as 2026-11-25T12:00:00+01:00, not at that of the file")
	schema := flags.Bool("schema", false, "print the form of a plain job file as a JSON Schema, and do nothing else")
	flags.Usage = func() {
		fmt.Fprint(flags.Output(), `lugmark assess FILE … reads plain job files (JSON, written by hand or by a
program) and record files, runs every check on each and prints the findings, one
JSON object on each line: what was found, the limit and where it comes from, the
verdict and what to do next. FILE - is the standard input.

A file with a fault is not judged. Its faults go to the standard error, one on
each line as FILE:LINE: sentence, and the program ends with 1. A verdict of Fail
is an answer, not an error: the program ends with 0.

`)
		printFlags(flags)
	}
	files, err := parseMixed(flags, args, out)
	if err != nil {
		return err
	}
	if *schema {
		if len(files) > 0 {
			return usage("--schema takes no file")
		}
		_, err := out.Write(plain.Schema())
		return err
	}
	if len(files) == 0 {
		return usage("name a file to judge, or - for the standard input")
	}
	o := assess.Options{Clock: time.Now()}
	if *now != "" {
		if o.Now, err = time.Parse(time.RFC3339, *now); err != nil {
			return usage(fmt.Sprintf("--now %q is not a time with its offset, such as 2026-11-25T12:00:00+01:00", *now))
		}
	}
	return assess.Files(files, stdin, o, out, complaints)
}

// parseMixed is parse for a command that takes words too; flags may stand
// before, between and after them. After -- everything is a word.
func parseMixed(flags *flag.FlagSet, args []string, out io.Writer) (words []string, err error) {
	flags.SetOutput(io.Discard)
	printHelp := flags.Usage
	flags.Usage = func() {}
	for len(args) > 0 {
		err := flags.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			flags.SetOutput(out)
			printHelp()
			return nil, err
		}
		if err != nil {
			return nil, usage(err.Error())
		}
		rest := flags.Args()
		if used := len(args) - len(rest); used > 0 && args[used-1] == "--" {
			return append(words, rest...), nil
		}
		if len(rest) == 0 {
			return words, nil
		}
		words, args = append(words, rest[0]), rest[1:]
	}
	return words, nil
}

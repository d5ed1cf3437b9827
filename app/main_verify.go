//go:build !js

package main

import (
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"lugmark/app/verify"
	"lugmark/core/seal"
)

var verifyCommand = command{
	Name: "verify",
	Does: "check a record file, and the fingerprint of a printed sheet",
	Run: func(args []string, out io.Writer) error {
		return verifyFile(args, os.Stdin, out)
	},
}

func verifyFile(args []string, stdin io.Reader, out io.Writer) error {
	flags := flag.NewFlagSet("verify", flag.ContinueOnError)
	print := flags.String("fingerprint", "", "the 26 signs on the sheet, capitals or not, with gaps or without")
	asJSON := flags.Bool("json", false, "as one JSON object")
	flags.Usage = func() {
		fmt.Fprint(flags.Output(), `lugmark verify FILE checks a record file: every signature, every chain, what
the seals cover and what came after them, whose entries they are and which
texts are missing. With --fingerprint it says whether the printed sheet belongs
to the record. It says as well what that does not prove. FILE - is the standard
input.

It ends with 0 when the record is sound and has the fingerprint, 1 when it is not
or has not, 2 when the words were wrong.

`)
		printFlags(flags)
	}
	files, err := parseMixed(flags, args, out)
	if err != nil {
		return err
	}
	if len(files) != 1 {
		return usage("name one record file, or - for the standard input. A fingerprint with gaps stands in quotes")
	}
	o := verify.Options{JSON: *asJSON}
	given := false
	flags.Visit(func(f *flag.Flag) { given = given || f.Name == "fingerprint" })
	if given {
		if o.Print, err = seal.ParsePrint(*print); err != nil {
			return usage(strings.TrimPrefix(err.Error(), "seal: "))
		}
	}
	return verify.File(files[0], stdin, o, out)
}

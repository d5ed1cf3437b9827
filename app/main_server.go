//go:build !js

package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"

	"lugmark/app/screen"
)

// command is one word after "lugmark".
type command struct {
	Name string
	Does string // one line for the help
	// Run gets what stands after the word. A usage error means the words were
	// wrong; any other error, that the work failed.
	Run func(args []string, out io.Writer) error
}

// commands in the order of the help.
var commands = []command{serveCommand, demoCommand, assessCommand, verifyCommand, sourcesCommand}

// What the program ends with.
const (
	ended  = 0
	failed = 1 // it understood, and could not
	unsaid = 2 // it did not understand the words
)

// usage is an error in the words of the command line.
type usage string

func (u usage) Error() string { return string(u) }

// run does what the command line says and returns what the program ends with.
func run(args []string) int {
	return runTo(args, os.Stdout, os.Stderr)
}

func runTo(args []string, out, complaints io.Writer) int {
	if len(args) == 0 {
		help(complaints)
		return unsaid
	}
	switch args[0] {
	case "--version", "-version":
		fmt.Fprintln(out, "lugmark", version)
		return ended
	case "--help", "-help", "-h", "help":
		help(out)
		return ended
	}
	for _, c := range commands {
		if c.Name != args[0] {
			continue
		}
		err := c.Run(args[1:], out)
		var wrong usage
		switch {
		case err == nil, errors.Is(err, flag.ErrHelp):
			return ended
		case errors.As(err, &wrong):
			fmt.Fprintf(complaints, "lugmark %s: %s\n", c.Name, wrong)
			return unsaid
		}
		fmt.Fprintln(complaints, "lugmark:", err)
		return failed
	}
	fmt.Fprintf(complaints, "lugmark: there is no command %q. lugmark --help lists them.\n", args[0])
	return unsaid
}

func help(out io.Writer) {
	fmt.Fprint(out, `Lugmark commissions a bank of 12.8 V LiFePO4 blocks, and proves it.

`)
	for _, c := range commands {
		fmt.Fprintf(out, "  lugmark %-10s %s\n", c.Name, c.Does)
	}
	fmt.Fprint(out, `  lugmark --version  say which release this is
  lugmark --help     this page; lugmark COMMAND --help tells more

It ends with 0 when done, 1 when it could not, 2 when the words were wrong.
`)
}

// parse reads the flags of a command and refuses words that are left over. Its
// errors are usage, but for flag.ErrHelp, which means that help was printed.
func parse(flags *flag.FlagSet, args []string, out io.Writer) error {
	flags.SetOutput(io.Discard) // the flag package would print the complaint a second time
	printHelp := flags.Usage
	flags.Usage = func() {}
	err := flags.Parse(args)
	switch {
	case errors.Is(err, flag.ErrHelp):
		flags.SetOutput(out)
		printHelp()
		return flag.ErrHelp
	case err != nil:
		return usage(err.Error())
	case flags.NArg() > 0:
		return usage(fmt.Sprintf("nothing is done with %q", flags.Arg(0)))
	}
	return nil
}

// printFlags lists the flags of a command, with two dashes as the README has them.
func printFlags(flags *flag.FlagSet) {
	flags.VisitAll(func(f *flag.Flag) {
		fmt.Fprintf(flags.Output(), "  --%-10s %s", f.Name, f.Usage)
		if f.DefValue != "" && f.DefValue != "false" {
			fmt.Fprintf(flags.Output(), " (if not given: %s)", f.DefValue)
		}
		fmt.Fprintln(flags.Output())
	})
}

// openDevice has no phone on a computer: only the phone app draws screens.
func openDevice() (screen.Device, error) {
	return screen.Device{}, errors.New("no phone here")
}

//go:build !js

package main

import (
	"flag"
	"fmt"
	"io"

	"lugmark/app/sources"
)

var sourcesCommand = command{
	Name: "sources",
	Does: "list every check: question, formula, limits, sources and how each was verified",
	Run:  listSources,
}

func listSources(args []string, out io.Writer) error {
	flags := flag.NewFlagSet("sources", flag.ContinueOnError)
	table := flags.Bool("markdown", false, "as one table in Markdown")
	lines := flags.Bool("json", false, "as one JSON object on each line")
	flags.Usage = func() {
		fmt.Fprint(flags.Output(), `lugmark sources lists what this program judges by: each check in the order on
site with its question, its formula, what kinds of limit it knows (the maker's,
a standard's, practice) and its sources. Beside each source stands how it was
verified: read, computed, from memory, or our own choice.

`)
		printFlags(flags)
	}
	if err := parse(flags, args, out); err != nil {
		return err
	}
	switch {
	case *table && *lines:
		return usage("--markdown and --json are two forms; choose one")
	case *table:
		return sources.WriteMarkdown(out)
	case *lines:
		return sources.WriteJSON(out)
	}
	return sources.Write(out)
}

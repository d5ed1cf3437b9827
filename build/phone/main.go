// Command phone builds the phone app into web/shell, where the program embeds
// it: the WebAssembly, the loader, the worker, the style sheet, the icons, the
// first page, and a .br and a .gz twin of each file that gains by one.
//
// The loader, web/start.js, is our own and not the one that go-app's handler
// writes. That one wraps the download, which defeats the browser's cache of
// compiled code, says nothing when the program has stopped, and installs a
// worker that an interrupted update leaves with nothing to serve. Mending it
// means rewriting its text and noticing when the text changed; go-app's client
// half asks for none of it, only for a first element in the body that it may
// replace. So we start it ourselves.
//
// The same inputs give the same bytes: no time, no path, no commit goes in. The
// version is a hash of what is served, so a rebuild that changed nothing offers
// no update to any phone. When the inputs did not change, it does nothing.
//
// It does not serve, and it does not know a screen.
package main

import (
	"flag"
	"fmt"
	"os"
)

func main() {
	var o options
	flag.StringVar(&o.Out, "out", "web/shell", "folder to write; what else is in it goes, except .keep")
	flag.StringVar(&o.Release, "release", "0.1", "what the app calls itself in the record")
	flag.IntVar(&o.Quality, "quality", 11, "brotli quality, 0 to 11; 11 takes half a minute, 5 a second")
	named := flag.String("named", "", "write only the app, with its functions' names in it, to this file")
	flag.Parse()
	var err error
	if *named != "" {
		err = writeNamed(*named, o.Release)
	} else {
		err = run(o)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "phone:", err)
		os.Exit(1)
	}
}

// options is what the command line says.
type options struct {
	Out     string
	Release string
	Quality int
}

// run builds, unless the last build was from the same inputs and its files are
// all still there.
func run(o options) error {
	if err := lock(); err != nil {
		return err
	}
	inputs, err := hashInputs(o)
	if err != nil {
		return err
	}
	if stillGood(o.Out, inputs) {
		fmt.Printf("%s is up to date\n", o.Out)
		return nil
	}
	wasm, err := buildWasm(o.Release, false)
	if err != nil {
		return err
	}
	files, err := assemble(wasm)
	if err != nil {
		return err
	}
	if err := writeShell(o, files); err != nil {
		return err
	}
	return writeStamp(o.Out, inputs)
}

// writeNamed writes the app as build/size weighs it package by package.
func writeNamed(file, release string) error {
	wasm, err := buildWasm(release, true)
	if err != nil {
		return err
	}
	return os.WriteFile(file, wasm, 0o644)
}

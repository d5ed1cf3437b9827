// Command lugmark is the whole product: one program, two builds. Compiled to
// WebAssembly it is the phone app; compiled for a computer it is a command line
// that serves the phone app.
//
// This file holds what both builds share. The rest stands in main_js.go and
// main_server.go, so that no byte of the one reaches the other. Nothing here
// computes: packages of app meet in main and nowhere else.
package main

import (
	"os"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/app/screen"
)

// version is the release, set by the build; a program built by hand is "dev".
var version = "dev"

func main() {
	// One component for every address: it reads the address itself, so a step
	// from one screen to the next never tears down what both share.
	app.RouteWithRegexp(".*", func() app.Composer { return screen.Root(openDevice) })
	os.Exit(run(os.Args[1:]))
}

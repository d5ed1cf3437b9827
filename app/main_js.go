//go:build js

package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// run starts the phone app. It returns only when the app has stopped, which the
// page then says.
func run([]string) int {
	app.RunWhenOnBrowser()
	return 1
}

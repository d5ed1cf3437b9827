// Package screen holds what the person sees. It computes no verdict and keeps
// nothing itself.
package screen

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// Root returns the one component that every address shows.
func Root() app.Composer { return &root{} }

type root struct {
	app.Compo
}

// OnMount tells the page, and whoever waits for it, that the first screen is painted.
func (r *root) OnMount(ctx app.Context) {
	ctx.Defer(func(app.Context) { app.Window().Set("lugmarkReady", true) })
}

func (r *root) Render() app.UI {
	return app.Main().Body(app.H1().Text("Lugmark"))
}

// Command hello is the smallest program that go-app makes: what the phone app's
// size is measured against. It is not part of the product.
package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

type hello struct {
	app.Compo
}

func (h *hello) Render() app.UI { return app.H1().Text("Hello World!") }

func main() {
	app.Route("/", func() app.Composer { return &hello{} })
	app.RunWhenOnBrowser()
}

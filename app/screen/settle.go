package screen

import (
	"fmt"
	"runtime/debug"
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// settle brings the page in line after a paint: what stands in the inputs,
// where the buttons of a drawing lie, the title, the focus. The page's own
// comparison does not see what a person typed, so inputs are set here.
func (r *root) settle(ctx app.Context) {
	doc := app.Window().Get("document")
	if !doc.Truthy() {
		return
	}
	r.syncInputs(doc)
	placeHits(doc)
	r.lookAtPictures(doc)
	if frame := doc.Call("querySelector", ".page"); frame.Truthy() {
		if title := frame.Get("dataset").Get("title").String(); title != doc.Get("title").String() {
			doc.Set("title", title)
		}
	}
	switch {
	case r.focus != "":
		if el := doc.Call("getElementById", r.focus); el.Truthy() {
			el.Call("focus")
		}
	case r.moved && r.ready:
		app.Window().Call("scrollTo", 0, 0)
		if el := doc.Call("getElementById", "title"); el.Truthy() {
			el.Call("focus")
		}
	}
	r.focus, r.moved = "", r.moved && !r.ready
}

// syncInputs writes the known text into every input that shows another.
func (r *root) syncInputs(doc app.Value) {
	list := doc.Call("querySelectorAll", "[data-sync]")
	for i := range list.Get("length").Int() {
		el := list.Call("item", i)
		want := r.text[el.Get("dataset").Get("sync").String()]
		if kind := el.Get("type").String(); kind == "radio" || kind == "checkbox" {
			value := el.Get("value").String()
			if on := value == want || kind == "checkbox" && slices.Contains(ticked(want), value); el.Get("checked").Bool() != on {
				el.Set("checked", on)
			}
			continue
		}
		if el.Get("value").String() != want {
			el.Set("value", want)
		}
	}
}

// placeHits lays the buttons over a drawing. Their places are numbers of the
// drawing, and the content policy allows no style attribute, so they are set
// on the elements.
func placeHits(doc app.Value) {
	list := doc.Call("querySelectorAll", ".hit")
	for i := range list.Get("length").Int() {
		el := list.Call("item", i)
		data := el.Get("dataset")
		want := data.Get("x").String() + data.Get("y").String() + data.Get("w").String() + data.Get("h").String()
		if data.Get("placed").String() == want {
			continue
		}
		style := el.Get("style")
		for _, p := range [...][2]string{{"--x", "x"}, {"--y", "y"}, {"--wd", "w"}, {"--ht", "h"}} {
			style.Call("setProperty", p[0], data.Get(p[1]).String()+"%")
		}
		data.Set("placed", want)
	}
}

// reportFault leaves a trace for whoever looks into the browser's console.
func reportFault(fault any) {
	app.Logf("lugmark fault: %v\n%s", fault, debug.Stack())
}

// percent writes a place in a drawing.
func percent(x float64) string { return fmt.Sprintf("%.2f", x) }

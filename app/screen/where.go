package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/draw"
)

// plate gives the drawing that shows where to touch for the reading on screen;
// ok is false when there is none.
func (r *root) plate() (draw.Picture, bool) {
	if !r.aboutBlock() { // across a whole string there is no one block to draw
		switch r.read.field.Plate {
		case "posts", "gap":
			return draw.Picture{}, false
		}
	}
	return draw.PlateFor(r.voice, r.read.field.Plate, r.read.part, checks.GapReference(r.job.facts.Layout(), r.blockOf(r.read.part)))
}

// aboutBlock reports whether the reading is of one block.
func (r *root) aboutBlock() bool {
	_, ok := bank.BlockNumber(r.read.part)
	return ok
}

// whereLink opens the drawing that shows where to touch, and how.
func (r *root) whereLink() app.UI {
	if r.panel == "where" {
		return r.button("plain", r.t("where.close", "Close"), func(app.Context) { r.panel = "" })
	}
	label := r.t("where", "Where to touch")
	if _, ok := r.plate(); !ok {
		label = r.t("how", "How")
	}
	return r.button("plain", label, func(app.Context) { r.panel = "where" })
}

// wherePlate is the drawing with the hint under it.
func (r *root) wherePlate() app.UI {
	hint := app.FigCaption().Class("note").Text(r.say(r.read.field.Hint.With()))
	if p, ok := r.plate(); ok {
		return app.Figure().Class("fig").Body(svg(p.SVG), hint, r.meterChoice())
	}
	return app.Figure().Class("fig").Body(hint, r.meterChoice())
}

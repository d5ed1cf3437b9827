package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/draw"
)

// plate gives the drawing that shows where to touch for the reading on screen;
// ok is false when there is none.
func (r *root) plate() (draw.Picture, bool) {
	return draw.PlateFor(r.voice, r.read.field.Plate, r.read.part)
}

// whereLink opens the drawing that shows where to touch.
func (r *root) whereLink() app.UI {
	if _, ok := r.plate(); !ok {
		return app.Span()
	}
	if r.panel == "where" {
		return r.button("plain", r.t("where.close", "Close"), func(app.Context) { r.panel = "" })
	}
	return r.button("plain", r.t("where", "Where to touch"), func(app.Context) { r.panel = "where" })
}

// wherePlate is the drawing with the hint under it.
func (r *root) wherePlate() app.UI {
	p, _ := r.plate()
	return app.Figure().Class("fig").Body(svg(p.SVG), app.FigCaption().Class("note").Text(r.say(r.read.field.Hint.With())))
}

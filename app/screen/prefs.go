package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/say"
)

// prefs is how this person likes the screen. It is kept by the browser beside
// the record, never in it.
type prefs struct {
	Theme   string // "light", "dark", "sun"
	Before  string // the theme that "sun" came from
	Density string // "hand", "gloves", "desk"
	Hand    string // "right", "left"
	Comma   string // "yes", "no"
	Paper   string // "a4", "letter"
	Kit     string // the meters of the register that a new job took last
	Name    string // who holds this phone
	Person  string // and what tells this person from the one who held it before
}

// prefNames are the keys in the browser's storage; theme and density are also
// read before the app starts, so that the first paint is right.
var prefNames = map[string]func(*prefs) *string{
	"lugmark.theme":   func(p *prefs) *string { return &p.Theme },
	"lugmark.before":  func(p *prefs) *string { return &p.Before },
	"lugmark.density": func(p *prefs) *string { return &p.Density },
	"lugmark.hand":    func(p *prefs) *string { return &p.Hand },
	"lugmark.comma":   func(p *prefs) *string { return &p.Comma },
	"lugmark.paper":   func(p *prefs) *string { return &p.Paper },
	"lugmark.kit":     func(p *prefs) *string { return &p.Kit },
	"lugmark.name":    func(p *prefs) *string { return &p.Name },
	"lugmark.person":  func(p *prefs) *string { return &p.Person },
}

func loadPrefs() prefs {
	p := prefs{Theme: "light", Density: "hand", Hand: "right", Comma: "no", Paper: "a4"}
	store := app.Window().Get("localStorage")
	if !store.Truthy() {
		return p
	}
	if html := app.Window().Get("document").Get("documentElement").Get("dataset"); html.Get("theme").Truthy() {
		p.Theme, p.Density = html.Get("theme").String(), html.Get("density").String()
	}
	if app.Window().Get("Number").New(1.5).Call("toLocaleString").String() == "1,5" {
		p.Comma = "yes"
	}
	for name, field := range prefNames {
		if v := store.Call("getItem", name); v.Truthy() {
			*field(&p) = v.String()
		}
	}
	return p
}

func (p prefs) save() {
	store := app.Window().Get("localStorage")
	if !store.Truthy() {
		return
	}
	for name, field := range prefNames {
		if name != "lugmark.name" && name != "lugmark.person" {
			store.Call("setItem", name, *field(&p))
		}
	}
	p.show()
}

// saveHolder keeps who holds the phone: apart from the likes, so that a tab that
// has not followed yet cannot bring the former one back.
func (p prefs) saveHolder() {
	if store := app.Window().Get("localStorage"); store.Truthy() {
		store.Call("setItem", "lugmark.name", p.Name)
		store.Call("setItem", "lugmark.person", p.Person)
	}
}

// show puts on the page what the style sheet looks at.
func (p prefs) show() {
	html := app.Window().Get("document").Get("documentElement").Get("dataset")
	html.Set("theme", p.Theme)
	html.Set("density", p.Density)
	html.Set("hand", p.Hand)
	app.Window().Get("document").Get("documentElement").Get("classList").Call("toggle", "letter", p.Paper == "letter")
}

func (p prefs) voice() say.Voice {
	return say.Voice{Typography: true, Comma: p.Comma == "yes"}
}

// separator is the decimal sign of the number pad.
func (p prefs) separator() string {
	if p.Comma == "yes" {
		return ","
	}
	return "."
}

// toggleSun goes to the theme for sunlight and back to where one came from.
func (r *root) toggleSun(app.Context) {
	if r.prefs.Theme == "sun" {
		r.prefs.Theme = r.prefs.Before
		if r.prefs.Theme == "" || r.prefs.Theme == "sun" {
			r.prefs.Theme = "light"
		}
	} else {
		r.prefs.Before, r.prefs.Theme = r.prefs.Theme, "sun"
	}
	r.prefs.save()
}

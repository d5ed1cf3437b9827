package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
)

// viewMenu holds the likes of the person, the state of the phone, and the
// cautions.
func (r *root) viewMenu() page {
	r.text["theme"], r.text["density"], r.text["hand"], r.text["comma"], r.text["paper"] = r.prefs.Theme, r.prefs.Density, r.prefs.Hand, r.prefs.Comma, r.prefs.Paper
	main := []app.UI{
		r.likes("theme", r.t("menu.theme", "Theme"), func(v string) { r.prefs.Theme = v }, "light", r.t("menu.light", "Light"), "dark", r.t("menu.dark", "Dark"), "sun", r.t("menu.sun", "Sun: black on white")),
		r.likes("density", r.t("menu.density", "Size of the keys"), func(v string) { r.prefs.Density = v }, "hand", r.t("menu.hand", "Bare hand"), "gloves", r.t("menu.gloves", "Gloves"), "desk", r.t("menu.desk", "Desk")),
		r.likes("hand", r.t("menu.side", "Which hand holds the phone"), func(v string) { r.prefs.Hand = v }, "right", r.t("menu.right", "Right"), "left", r.t("menu.left", "Left")),
		r.likes("comma", r.t("menu.decimal", "Decimal sign"), func(v string) { r.prefs.Comma = v }, "no", r.t("menu.point", "Point, 13.20"), "yes", r.t("menu.comma", "Comma, 13,20")),
	}
	main = append(append(main, r.holderBox()...), app.H2().Text(r.t("register", "Register")),
		goLink("btn", r.t("menu.register", "Meters, block sheets, people, house rules"), "/register"))
	if r.job != nil && !r.job.missing && !r.job.isRegister() {
		main = append(main, r.templateBox())
	}
	main = append(main, app.H2().Text(r.t("menu.phone", "This phone")))
	main = append(main, r.shellStatus()...)
	if r.job != nil && !r.job.missing && !r.job.isRegister() {
		main = append(main, r.copyBox()...)
		main = append(main, goLink("btn", r.photosTitle(), r.to("photos")),
			goLink("btn", r.t("personal.link", "Erase names, notes and photos"), r.to("personal")))
	}
	main = append(main, r.allBox(),
		app.H2().Text(r.t("menu.about", "What Lugmark is, and is not")),
		app.P().Text(r.t("menu.not", "Lugmark records what was measured and computes what follows. It does not say that a bank is safe or conforms to a standard. The maker's manual, the code in force, a permit and a licensed person come first.")),
		app.P().Class("note").Text(r.t("menu.version", "{app}, rules {rules}", "app", r.device.App, "rules", checks.Rules)))
	return page{title: r.t("menu", "Menu"), back: r.backFromMenu(), main: main}
}

func (r *root) backFromMenu() string {
	if r.job != nil && !r.job.missing && !r.job.isRegister() {
		return r.to()
	}
	return "/"
}

// likes is a choice that takes effect at once.
func (r *root) likes(id, legend string, set func(string), pairs ...string) app.UI {
	var rows []app.UI
	for i := 0; i+1 < len(pairs); i += 2 {
		code := pairs[i]
		rows = append(rows, app.Label().Body(
			app.Input().Type("radio").Name(id).ID(id+"-"+code).Value(code).DataSet("sync", id).
				DataSet("act", r.act(func(app.Context) {
					set(code)
					r.prefs.save()
					r.voice = r.prefs.voice()
				})).OnChange(r.onAct),
			app.Text(pairs[i+1])))
	}
	return app.FieldSet().Body(app.Legend().Class("lab").Text(legend), app.Div().Class("pick col").Body(rows...))
}

// storageState is what the browser said about keeping.
type storageState struct {
	asked, granted, known bool
	used, quota           int64
}

// askStorage asks the browser to keep the record when space gets short.
func (r *root) askStorage(ctx app.Context) {
	r.async(func() {
		granted, known := r.device.Store.Persist()
		used, quota := r.device.Store.Estimate()
		r.dispatch(func(app.Context) { r.storage = storageState{true, granted, known, used, quota} })
	})
}

// storageSays tells the browser's answer in plain words.
func (r *root) storageSays() (string, bool) {
	s := r.storage
	switch {
	case !s.asked:
		return r.t("storage.asking", "Asking the browser to keep the record …"), true
	case s.quota > 0 && float64(s.used) > 0.8*float64(s.quota):
		return r.t("storage.filling", "This phone is nearly full. Make room before you go on."), false
	case s.granted:
		return r.t("storage.granted", "The browser has promised to keep the record on this phone."), true
	case s.known:
		return r.t("storage.refused", "The browser has not promised to keep the record: it may delete it when the phone gets full or Lugmark is not opened for weeks. Install Lugmark to the home screen."), false
	}
	return r.t("storage.unknown", "This browser does not say whether it keeps the record. Install Lugmark to the home screen."), false
}

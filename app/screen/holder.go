package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/say"
)

// heldBy makes a person the holder of this phone.
func (r *root) heldBy(name string) {
	if name == "" || name == r.prefs.Name && r.prefs.Person != "" {
		return
	}
	r.prefs.Name, r.prefs.Person = name, r.personNamed(name)
	if r.prefs.Person == "" {
		r.prefs.Person = "p" + freshNumber(func(string) bool { return false })
	}
	r.prefs.saveHolder()
}

// holderBox says whose name stands under what is entered here, and changes it.
func (r *root) holderBox() []app.UI {
	now := r.t("holder.none", "Nobody has said yet who holds this phone. It is asked at the first job.")
	if r.prefs.Name != "" {
		now = r.t("holder.now", "{name}. What is entered on this phone is kept under this name.", "name", r.prefs.Name)
	}
	var others []app.UI
	if r.register != nil {
		for _, p := range r.register.partsOf("p") {
			if name := r.register.text(p, "name"); name != "" && p != r.prefs.Person {
				others = append(others, r.button("btn", r.t("holder.is", "It is {name}", "name", name), func(app.Context) { r.changeHolder(name) }))
			}
		}
	}
	return []app.UI{app.H2().Text(r.t("holder", "Who holds this phone")), app.P().Text(now),
		folded(r.t("holder.change", "Somebody else holds it now"), append(others,
			r.input("holder", r.t("holder.name", "Name of who holds it now"), "", "text"),
			r.button("btn", r.t("holder.take", "From now on it is this person"), func(app.Context) { r.changeHolder(r.text["holder"]) }))...)}
}

func (r *root) changeHolder(name string) {
	if name == "" || r.busy {
		return
	}
	r.heldBy(name)
	r.text["holder"] = ""
	r.findMe(nil)
	r.notice = notice{says: say.Phrase{Key: "screen.holder.taken", English: "From now on: {name}. In a job where this name is not known yet it is asked once."}.With("name", name)}
}

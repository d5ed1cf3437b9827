package screen

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/core/say"
)

// question is an act that waits until its author is known.
type question struct {
	job   *opened
	goOn  func()
	names []string // ids of the people who can be chosen
}

// ask puts the act aside and asks who holds the phone.
func (r *root) ask(j *opened, goOn func()) {
	q := &question{job: j, goOn: goOn}
	for _, p := range j.partsOf("p") {
		if j.text(p, "name") != "" {
			q.names = append(q.names, p)
		}
	}
	r.question, r.moved = q, true
	r.text["who"] = ""
}

// viewWho asks who holds this phone, before the first entry in a job that came
// from elsewhere.
func (r *root) viewWho() page {
	q := r.question
	why := r.t("who.why", "This job came from elsewhere. Every entry carries the name of who made it. Say once who holds this phone, then what you entered is kept under that name.")
	if q.job.isRegister() {
		why = r.t("who.register", "What stands in the register carries the name of who entered it. Say once who holds this phone.")
	}
	main := []app.UI{app.P().Text(why)}
	if _, bad := r.slips["who"]; bad {
		main = append(main, r.putRight("who"))
	}
	here := r.prefs.Name == ""
	for _, p := range q.names {
		here = here || q.job.text(p, "name") == r.prefs.Name
	}
	if !here {
		main = append(main, r.button("btn go", r.t("who.add-name", "Add me: {name}", "name", r.prefs.Name), func(app.Context) { r.addMe(q, r.prefs.Name) }))
	}
	for _, p := range q.names {
		name, class := q.job.text(p, "name"), "btn"
		if name == r.prefs.Name {
			class = "btn go"
		}
		main = append(main, r.button(class, r.t("who.am", "I am {name}", "name", name), func(app.Context) {
			r.question = nil
			r.am(q.job, p, name)
			r.moved = true
			q.goOn()
		}))
	}
	if len(q.names) > 0 || !here {
		main = append(main, app.H2().Text(r.t("who.other", "Somebody else")))
	}
	main = append(main,
		r.input("who", r.t("new.person", "Your name"), r.t("new.person-hint", "Stands on the sheet. It can be erased later without breaking the record."), "text"),
		r.button("btn", r.t("who.add", "Add me"), func(app.Context) { r.addMe(q, r.text["who"]) }))
	return page{title: r.t("who", "Who are you?"), sub: q.job.text("site", "name"), main: main,
		foot: []app.UI{r.button("btn", r.t("who.not-now", "Not now: keep nothing"), func(app.Context) { r.question, r.moved = nil, true })}}
}

// addMe adds the holder of the phone to the job, then goes on with the act.
func (r *root) addMe(q *question, name string) {
	if name == "" {
		r.slips["who"] = say.Phrase{Key: "screen.new.no-person", English: "Your name: enter who measures here."}.With()
		r.focus = "slips"
		return
	}
	delete(r.slips, "who")
	r.question = nil
	j, before := q.job, q.job.me
	j.me = j.newPerson()
	for _, id := range j.wroteAs(r.device.PublicKey) {
		if j.text(id, "name") == "" { // who brought the file in, and was not named
			j.me = id
		}
	}
	person := j.me
	r.keepIn(j, []change{{part: person, field: "name", personal: name}}, "", func(_ app.Context, kept bool) {
		r.moved = true
		if !kept {
			j.me = before
			return
		}
		r.am(j, person, name)
		q.goOn()
	})
}

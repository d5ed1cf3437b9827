package screen

import (
	"encoding/base64"
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// Each entry of a record says who made it, by a number of that job. Which one
// the person is who holds this phone, the phone can know only where that person
// has said so: a record that came from elsewhere has a person 1 already, and
// what is written here must never stand under that name.

// anyHolder stands for whoever holds the phone: in an invented job everybody
// acts as its technician.
const anyHolder = "*"

// bind remembers which person of a job the holder of this phone is.
func (r *root) bind(id, holder, person string) {
	if r.mine == nil {
		r.mine = map[string]string{}
	}
	r.mine[id+" "+holder] = person
	r.saveMine()
}

// mineName is where the browser keeps it: beside the record, for it says
// something of this phone alone.
const mineName = "lugmark.me"

func (r *root) saveMine() {
	if store := app.Window().Get("localStorage"); store.Truthy() {
		if b, err := json.Marshal(r.mine); err == nil {
			store.Call("setItem", mineName, string(b))
		}
	}
}

func loadMine() map[string]string {
	out := map[string]string{}
	if store := app.Window().Get("localStorage"); store.Truthy() {
		if v := store.Call("getItem", mineName); v.Truthy() {
			json.Unmarshal([]byte(v.String()), &out)
		}
	}
	return out
}

// whoAmI is the person of a job who holds this phone; "" when that was never
// said. Where it was not remembered, it is whom this phone wrote as, if that
// person has the name of the holder.
func (r *root) whoAmI(j *opened) string {
	if j.isRegister() {
		return r.prefs.Person
	}
	if id := r.mine[j.id+" "+anyHolder]; id != "" {
		return id
	}
	if id := r.mine[j.id+" "+r.prefs.Person]; id != "" && r.prefs.Person != "" {
		return id
	}
	for _, id := range j.wroteAs(r.device.PublicKey) {
		if r.prefs.Name != "" && j.text(id, "name") == r.prefs.Name {
			return id
		}
	}
	return ""
}

// authors is who wrote the streams of a record, on which device.
type authors struct {
	device map[string]string   // stream → its key
	people map[string][]string // stream → p1, p2 …
}

func (a *authors) add(e job.Event) {
	if a.device == nil {
		a.device, a.people = map[string]string{}, map[string][]string{}
	}
	if e.Open != nil {
		a.device[e.Stream] = e.Open.Dev
	}
	list := a.people[e.Stream]
	if len(list) == 0 || list[len(list)-1] != e.By {
		a.people[e.Stream] = append(list, e.By)
	}
}

// wroteAs lists the people as whom a device wrote in this job.
func (j *opened) wroteAs(key []byte) (out []string) {
	dev := base64.StdEncoding.EncodeToString(key)
	for stream, by := range j.authors.people {
		if j.authors.device[stream] == dev {
			out = append(out, by...)
		}
	}
	slices.Sort(out)
	return out
}

// myName is the name of the holder of this phone in the open job; "" when it is
// not known who that is.
func (r *root) myName() string { return r.job.text(r.job.me, "name") }

// by says who made an entry: by name, else by number.
func (r *root) by(person string) string {
	if name := r.job.text(person, "name"); name != "" {
		return name
	}
	return r.name(person)
}

// answeredBy says who answered a question.
func (r *root) answeredBy(part, field string) string {
	f, _ := checks.FieldOf(field, part)
	e, standing := r.job.state.Lookup(r.job.visit, part, field, f.Setup)
	if standing != job.One {
		return ""
	}
	return r.by(e.By)
}

// signedWord is what a button says that is pressed in somebody's name; plain
// while it is not known whose.
func (r *root) signedWord(plain, key, english string) string {
	if name := r.myName(); name != "" {
		return r.t(key, english, "name", name)
	}
	return plain
}

// lowestDrawn is the lowest number that is drawn at random: six digits are the
// most that a number in a record has.
const lowestDrawn = 100_000

// freshNumber is a number that no other phone gives out at the same time
// without signal. The small ones stay for those who are named in every job.
func freshNumber(taken func(string) bool) string {
	for {
		if n := strconv.Itoa(lowestDrawn + rand.IntN(999_999-lowestDrawn)); !taken(n) {
			return n
		}
	}
}

// newPerson is the id of one more person of a job.
func (j *opened) newPerson() string {
	return "p" + freshNumber(func(n string) bool { return j.has(finding.Key{Part: "p" + n, Field: "name"}) })
}

// heldBy makes a person the holder of this phone.
func (r *root) heldBy(name string) {
	if name == "" || name == r.prefs.Name && r.prefs.Person != "" {
		return
	}
	r.prefs.Name, r.prefs.Person = name, r.personNamed(name)
	if r.prefs.Person == "" {
		r.prefs.Person = "p" + freshNumber(func(string) bool { return false })
	}
	r.prefs.save()
}

// am makes it known who of the people of the open job holds this phone.
func (r *root) am(j *opened, person, name string) {
	if j.isRegister() {
		r.prefs.Name, r.prefs.Person = name, person
		r.prefs.save()
	} else {
		r.heldBy(name)
		r.bind(j.id, r.prefs.Person, person)
	}
	if r.register != nil {
		r.register.me = r.prefs.Person
	}
	j.me = person
}

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
	r.text["who"] = r.prefs.Name
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
	if len(q.names) > 0 {
		main = append(main, app.H2().Text(r.t("who.other", "Somebody else")))
	}
	main = append(main,
		r.input("who", r.t("new.person", "Your name"), r.t("new.person-hint", "Stands on the sheet. It can be erased later without breaking the record."), "text"),
		r.button("btn", r.t("who.add", "Add me"), func(app.Context) { r.addMe(q) }))
	return page{title: r.t("who", "Who are you?"), sub: q.job.text("site", "name"), main: main,
		foot: []app.UI{r.button("btn", r.t("who.not-now", "Not now: keep nothing"), func(app.Context) { r.question, r.moved = nil, true })}}
}

// addMe adds the holder of the phone to the job, then goes on with the act.
func (r *root) addMe(q *question) {
	name := r.text["who"]
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

// bringer is who brings a plain job file in: the person of the file who has the
// name of the holder of this phone, else one more. Named is false while nobody
// has said who holds this phone.
func (r *root) bringer(file *plain.File) (person string, named bool) {
	taken := map[string]bool{}
	for _, e := range file.Entries {
		taken[e.Key.Part] = true
		if e.Key.Field == "name" && e.Key.Part != "site" && r.prefs.Name != "" && e.Personal == r.prefs.Name {
			return e.Key.Part, true
		}
	}
	person = "p1"
	if taken[person] {
		person = "p" + freshNumber(func(n string) bool { return taken["p"+n] })
	}
	if r.prefs.Name == "" {
		return person, false
	}
	r.heldBy(r.prefs.Name)
	file.Entries = append(file.Entries, plain.Entry{Key: job.Key{Visit: firstVisit, Part: person, Field: "name"},
		Value: job.Value{Kind: job.KindPersonal}, Personal: r.prefs.Name})
	return person, true
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
		app.Details().Class("why").Body(app.Summary().Text(r.t("holder.change", "Somebody else holds it now")), app.Div().Class("ovr").Body(append(others,
			r.input("holder", r.t("holder.name", "Name of who holds it now"), "", "text"),
			r.button("btn", r.t("holder.take", "From now on it is this person"), func(app.Context) { r.changeHolder(r.text["holder"]) }))...))}
}

func (r *root) changeHolder(name string) {
	if name == "" || r.busy {
		return
	}
	r.heldBy(name)
	r.text["holder"] = ""
	for _, j := range []*opened{r.job, r.register} {
		if j != nil {
			j.me = r.whoAmI(j)
		}
	}
	r.notice = notice{says: say.Phrase{Key: "screen.holder.taken", English: "From now on: {name}. In a job where this name is not known yet it is asked once."}.With("name", name)}
}

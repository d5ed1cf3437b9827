package screen

import (
	"crypto/rand"
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"slices"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/plain"
	"lugmark/core/finding"
	"lugmark/core/job"
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
	all := loadMine() // another tab may have been told more
	for k, v := range r.mine {
		all[k] = v
	}
	all[id+" "+holder] = person
	r.mine = all
	if store := app.Window().Get("localStorage"); store.Truthy() {
		if b, err := json.Marshal(r.mine); err == nil {
			store.Call("setItem", mineName, string(b))
		}
	}
}

// mineName is where the browser keeps it: beside the record, for it says
// something of this phone alone.
const mineName = "lugmark.me"

func loadMine() map[string]string {
	out := map[string]string{}
	if store := app.Window().Get("localStorage"); store.Truthy() {
		if v := store.Call("getItem", mineName); v.Truthy() {
			json.Unmarshal([]byte(v.String()), &out)
		}
	}
	return out
}

// followHolder takes in that another tab was told of another holder.
func (r *root) followHolder(j *opened) {
	p := loadPrefs()
	if p.Person == "" || p.Person == r.prefs.Person {
		return
	}
	r.prefs.Name, r.prefs.Person, r.mine = p.Name, p.Person, loadMine()
	r.findMe(j)
}

// findMe finds out anew who the holder is in what is open.
func (r *root) findMe(also *opened) {
	for _, j := range []*opened{also, r.job, r.register} {
		if j != nil {
			j.me = r.whoAmI(j)
		}
	}
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
		var random [4]byte
		rand.Read(random[:])
		if n := strconv.Itoa(lowestDrawn + int(binary.BigEndian.Uint32(random[:])%(1_000_000-lowestDrawn))); !taken(n) {
			return n
		}
	}
}

// newPerson is the id of one more person of a job.
func (j *opened) newPerson() string {
	return "p" + freshNumber(func(n string) bool { return j.has(finding.Key{Part: "p" + n, Field: "name"}) })
}

// am makes it known who of the people of the open job holds this phone.
func (r *root) am(j *opened, person, name string) {
	if j.isRegister() {
		r.prefs.Name, r.prefs.Person = name, person
		r.prefs.saveHolder()
	} else {
		r.heldBy(name)
		r.bind(j.id, r.prefs.Person, person)
	}
	if r.register != nil {
		r.register.me = r.prefs.Person
	}
	j.me = person
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

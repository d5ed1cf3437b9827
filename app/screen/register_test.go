package screen

import (
	"slices"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/checks/sample"
	"lugmark/core/bank"
	"lugmark/core/job"
)

// withRegister is a phone held by a person, with an empty register.
func withRegister(t *testing.T, s *shelf, name string) *root {
	t.Helper()
	r := phone(s)
	j, err := r.load(registerID)
	if err != nil || j.missing {
		t.Fatal(err)
	}
	r.register = j
	r.heldBy(name)
	j.me = r.prefs.Person
	return r
}

// enter keeps changes in a record as [root.keepIn] does, without a browser.
func (r *root) enter(t *testing.T, j *opened, changes []change) []job.Stamped {
	t.Helper()
	stamped, blobs, err := r.keepAct(j, "", nil, r.stamper(j, changes))
	if err != nil {
		t.Fatal(err)
	}
	j.apply(stamped, blobs)
	j.judge()
	return stamped
}

func text(part, field, s string) change {
	return change{part: part, field: field, value: job.Value{Kind: job.KindText, Text: s}}
}

func quantity(part, field, n, u string) change {
	return change{part: part, field: field, value: job.Value{Kind: job.KindQuantity, Number: n, Unit: u, Source: "typed"}}
}

// filled is a register with a voltmeter, a clamp, a wrench, a sheet, a person.
func filled(t *testing.T, r *root) {
	t.Helper()
	r.enter(t, r.register, []change{
		text("m200001", "model", "Invented 60"), text("m200001", "measures", "V"), quantity("m200001", "percent", "0.05", "%"), text("m200001", "range", "60 V"),
		text("m200002", "model", "Invented clamp"), text("m200002", "measures", "A"), quantity("m200002", "percent", "2", "%"),
		text("w200003", "model", "Invented wrench"), text("w200003", "measures", "N.m"),
		text("sheet200004", "model", "Invented 100"), quantity("sheet200004", "capacity", "100", "Ah"),
		{part: "p200005", field: "name", personal: "Jory Tam"},
		quantity("house", "voltage-match.spread", "0.008", "V"),
	})
}

// The first entry begins the register: what it is, and who writes in it, a name
// that can be erased.
func TestTheFirstEntryBeginsTheRegister(t *testing.T) {
	shelf := newShelf()
	r := withRegister(t, shelf, "Ines Varga")
	made := r.enter(t, r.register, []change{text("m200001", "model", "Invented 60")})
	if len(made) != 3 || made[0].Event.Type != "job/1" || r.register.state.Kind() != job.KindRegister {
		t.Fatalf("%d events, the first a %s, kind %q", len(made), made[0].Event.Type, r.register.state.Kind())
	}
	for _, e := range made {
		if e.Event.By != r.prefs.Person || strings.Contains(string(e.Event.Raw), "Ines") {
			t.Errorf("by %s, want %s; a name in clear: %s", e.Event.By, r.prefs.Person, e.Event.Raw)
		}
	}
	if again := r.enter(t, r.register, []change{text("m200001", "model", "Invented 61")}); len(again) != 1 {
		t.Errorf("the second entry is %d events", len(again))
	}
	if r.register.text(r.prefs.Person, "name") != "Ines Varga" {
		t.Error("nobody is named")
	}
	lines, _ := shelf.Summaries()
	if lines[registerID] != nil {
		t.Error("the register has a line in the list of jobs")
	}
}

// Two registers that were made apart fold into one, in either order; what both
// have of one thing is in conflict and shown so.
func TestRegistersMadeApartBecomeOne(t *testing.T) {
	a, b := newShelf(), newShelf()
	one, two := withRegister(t, a, "Ines Varga"), withRegister(t, b, "Mira Okoro")
	two.device.PublicKey = slices.Clone(two.device.PublicKey)
	filled(t, one)
	two.enter(t, two.register, []change{text("cable200009", "size", "35 mm2"), text("m200001", "model", "Invented 99")})
	file, _, _, err := recordOf(a, true, registerID)
	if err != nil {
		t.Fatal(err)
	}
	if says, bad, _ := two.takeRecord(file); bad {
		t.Fatal(two.say(says))
	}
	j, err := two.load(registerID)
	if err != nil {
		t.Fatal(err)
	}
	two.register, two.job = j, j
	if j.me != two.prefs.Person || j.text(j.me, "name") != "Mira Okoro" {
		t.Errorf("the phone is %s, %q", j.me, j.text(j.me, "name"))
	}
	two.path = "/register"
	html := app.HTMLString(two.frame(two.view()))
	for _, want := range []string{"35 mm2", "Invented clamp, amperes", "Invented wrench", "Invented 100", "Jory Tam", "Ines Varga", "Mira Okoro"} {
		if !strings.Contains(html, want) {
			t.Errorf("the register does not show %s", want)
		}
	}
	if c := two.conflicts("m200001"); len(c) != 1 || c[0].Field != "model" {
		t.Errorf("conflicts %v, want the model that both entered", c)
	}
	if html := two.at("/register/m200001"); !strings.Contains(html, "Two values") {
		t.Error("the conflict is not shown")
	}
}

// A thing that is taken out is offered no longer, and stays in the record.
func TestWhatIsTakenOutStaysInTheRecord(t *testing.T) {
	r := withRegister(t, newShelf(), "Ines Varga")
	filled(t, r)
	before := r.register.state.Len()
	r.enter(t, r.register, []change{{part: "sheet200004", field: "model", saw: r.register.state.Seen(r.register.key("sheet200004", "model"))},
		{part: "sheet200004", field: "capacity", saw: r.register.state.Seen(r.register.key("sheet200004", "capacity"))}})
	k, _ := registeredAs("sheet1")
	if len(r.inRegister(k)) != 0 || r.register.state.Len() != before+2 || len(r.register.state.History(r.register.key("sheet200004", "model"))) != 1 {
		t.Errorf("offered %v, %d events", r.inRegister(k), r.register.state.Len()-before)
	}
}

// The kit of a new job: meters under the numbers that a job asks for, in use; a
// sheet, people who are nobody of the job yet; nothing that refers to the
// register.
func TestTheKitOfANewJob(t *testing.T) {
	r := withRegister(t, newShelf(), "Ines Varga")
	filled(t, r)
	r.path = "/new"
	r.startNewJob()
	if got := r.text["kit"]; got != "m200001,m200002,sheet200004,w200003" { // hand: one of each, and nobody
		t.Errorf("ticked beforehand: %s", got)
	}
	r.text["kit"] += ",p200005"
	got := map[string]string{}
	for _, c := range r.kitChanges(nil) {
		if _, twice := got[c.part+"/"+c.field]; twice {
			t.Errorf("%s %s twice", c.part, c.field)
		}
		got[c.part+"/"+c.field] = c.value.Text + c.value.Number + c.personal
	}
	for k, want := range map[string]string{"m1/model": "Invented 60", "m2/model": "Invented clamp", "w1/model": "Invented wrench", "sheet1/capacity": "100",
		"p4/name": "Jory Tam", "bank/use-volts": "m1", "bank/use-amperes": "m2", "bank/use-torque": "w1"} {
		if got[k] != want {
			t.Errorf("%s is %q, want %q (hand)", k, got[k], want)
		}
	}
	for _, c := range r.register.copied("house", "house") {
		if c.field != "voltage-match.spread" || c.value.Number != "0.008" {
			t.Errorf("house rules %+v", c)
		}
	}
	r.register.state = job.New(registerID)
	r.text["kit"] = ""
	if r.offerKit(); r.text["kit"] != noTick || len(r.kitBox()) != 0 {
		t.Errorf("an empty register offers %q", r.text["kit"])
	}
}

// What a job begins with, from another: its sheets and plates, and no reading,
// no site, no person, nothing that is not in its drawing.
func TestAPlanHasNoReadings(t *testing.T) {
	for _, s := range sample.List() {
		from := shown(t, s).job
		l := bank.New(2, 1, bank.JoinStrings, bank.OneEnd)
		list := planned(planIn(from, ""), l, false)
		if len(list) == 0 {
			t.Errorf("%s: no plan", s.ID)
		}
		for _, c := range list {
			kind, _ := bank.PartKind(c.part)
			if c.personal != "" || c.value.Kind == job.KindPersonal || slices.Contains([]bank.Kind{bank.KindSite, bank.KindPerson, bank.KindMeter, bank.KindWrench, bank.KindBank, bank.KindPost, bank.KindHouse}, kind) ||
				c.part == "b3" || strings.Contains(c.part, "b3.") || c.field == "closed" || strings.HasSuffix(c.field, "voltage") && kind == bank.KindBlock {
				t.Errorf("%s: %s %s is in the plan", s.ID, c.part, c.field)
			}
		}
	}
}

// The form of the house rules asks for every limit that a firm can set, and says
// of which check it is.
func TestTheHouseFormAsksForEveryLimit(t *testing.T) {
	r := withRegister(t, newShelf(), "Ines Varga")
	r.job = r.register
	html := r.at("/register/enter/house/before")
	if n := strings.Count(html, `class="inp"`); n != len(checks.HouseLimits) || !strings.Contains(html, "Voltage match: spread, V") {
		t.Errorf("%d inputs for %d limits", n, len(checks.HouseLimits))
	}
}

// House rules come from a plain job file or from a file of their own, and a
// fault in one names its line.
func TestHouseRulesAreReadFromAFile(t *testing.T) {
	for raw, want := range map[string]string{ // hand
		`{"lugmark": "job/1", "title": "Invented jetty", "house": {"voltage-match": {"spread": "8 mV"}, "rested": {"rest": "6 h"}}}`: "voltage-match.spread 8 mV, rested.rest 6 h",
		`{"voltage-match": {"spread": "0.008 V"}}`:           "voltage-match.spread 0.008 V",
		`{"lugmark": "job/1", "title": "Invented jetty"}`:    "",
		"{\n\"voltage-match\": {\"sprad\": \"0.008 V\"}}":    "fault in line 2",
		"{\"lugmark\": \"job/1\",\n\"house\": {\"x\": {}}}}": "fault in line 2",
	} {
		changes, faults := houseOf([]byte(raw))
		var said []string
		for _, c := range changes {
			said = append(said, c.field+" "+c.value.Number+" "+c.value.Unit)
		}
		if len(faults) > 0 {
			said = append(said, "fault in line "+itoa(faults[0].Line))
		}
		if got := strings.Join(said, ", "); got != want {
			t.Errorf("%s: %s, want %s", raw, got, want)
		}
	}
}

// What stands in the register already is not offered for it; another value of
// the same thing is.
func TestTheRegisterKnowsWhatItHas(t *testing.T) {
	r := withRegister(t, newShelf(), "Ines Varga")
	filled(t, r)
	id := kept(t, r, sample.List()[0])
	j, err := r.load(id)
	if err != nil {
		t.Fatal(err)
	}
	j.me, r.job = "p1", j
	r.enter(t, j, r.register.copied("m200002", "m9"))
	if !sameAs(j, "m9", r.register, "m200002") || sameAs(j, "m9", r.register, "m200001") {
		t.Error("a copy is not known as the same, or another meter is")
	}
	if got := r.offered("m8"); len(got) != 2 || r.offered("m9") != nil {
		t.Errorf("an empty form is offered %v, a filled one %v", got, r.offered("m9"))
	}
	if use := r.usesCopied("m8", r.register.copied("m200002", "m8")); len(use) > 1 {
		t.Errorf("uses %v", use)
	}
	r.enter(t, j, []change{{part: "m9", field: "percent", value: job.Value{Kind: job.KindQuantity, Number: "3", Unit: "%", Source: "typed"}, saw: j.state.Seen(j.key("m9", "percent"))}})
	if sameAs(j, "m9", r.register, "m200002") {
		t.Error("another accuracy counts as the same")
	}
	said := ""
	for _, ui := range r.toRegister("m9") {
		said += app.HTMLString(ui)
	}
	if !strings.Contains(said, "Change it in the register too: Invented clamp") {
		t.Errorf("it offers %s", said)
	}
}

// The list of jobs has the one changed last first, and not the register.
func TestTheListIsNewestFirst(t *testing.T) {
	var got []string
	for _, s := range newestFirst(map[string][]byte{
		"a": []byte(`{"title": "Invented jetty", "changed": "2026-11-25T08:00:00+01:00"}`), "b": []byte(`{"title": "Invented hut", "changed": "2026-11-25T12:00:00+01:00"}`),
		"c": []byte(`{"title": "Invented mast", "changed": "2026-11-24T12:00:00+01:00"}`), "d": []byte(`broken`), registerID: []byte(`{"title": "Register"}`),
	}) {
		got = append(got, s.ID+" "+s.Title)
	}
	if want := "b Invented hut, a Invented jetty, c Invented mast"; strings.Join(got, ", ") != want { // hand
		t.Errorf("%v, want %s", got, want)
	}
}

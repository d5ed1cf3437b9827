package e2e

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What is entered once in the register makes the next job in a few taps: its
// meter, its block sheet, its people, the firm's own limits.
func TestARegisterMakesANewJob(t *testing.T) {
	w := &Walker{}
	w.open(t, Launch(t))
	w.Do(Before(catchFile))
	w.Go(Serve(t).URL + "/")
	w.On("Menu")
	w.On("Meters, block sheets, people, house rules")
	w.At("Register")
	w.Shot("register/empty")
	w.add("Add a meter", [2]string{"Measures", "Volts"}, [2]string{"Model", "Invented 60"}, [2]string{"Accuracy, percent of the reading, %", "0.05"},
		[2]string{"Accuracy, counts of the last digit", "3"}, [2]string{"Smallest step shown", "0.001 V"}, [2]string{"Top of the range", "60 V"})
	w.Sees("Who are you?") // nobody has said yet
	w.look("register/who")
	w.Fill("Your name", "Ines Varga")
	w.On("Add me")
	w.At("Invented 60")
	w.register()
	w.add("Add a torque wrench", [2]string{"Model", "Invented wrench"}, [2]string{"Accuracy, percent of the reading, %", "4"}, [2]string{"Largest torque of the wrench, N·m", "25"})
	w.At("Invented wrench")
	w.register()
	w.add("Add a block sheet", [2]string{"Model", "Invented 100"}, [2]string{"Rated capacity, Ah", "100"}, [2]string{"Highest charge voltage, V", "14.6"})
	w.At("Invented 100")
	w.look("register/item")
	w.register()
	w.add("Add a person", [2]string{"Name", "Jory Tam"}, [2]string{"Role", "Technician"})
	w.At("Jory Tam")
	w.register()
	rules := filepath.Join(t.TempDir(), "rules.json")
	if err := os.WriteFile(rules, []byte(`{"voltage-match": {"spread": "0.008 V"}, "rested": {"rest": "6 h"}}`), 0o644); err != nil {
		t.Fatal(err)
	}
	w.choose("house-file", rules)
	w.Sees("2 limits of the firm are in the register")
	w.look("register/full")
	w.Row("The firm's own limits")
	w.At("House rules")
	w.look("register/house")

	w.visit("/")
	w.SeesNot("register")
	before := w.Taps
	w.On("New job")
	w.At("New job")
	w.Sees("From the register into this job")
	w.Fill("Name of the site", "Invented jetty")
	w.Row("Jory Tam, technician")
	w.look("register/new-job")
	w.On("Start this job")
	w.At("Invented jetty")
	if n := w.Taps - before; n != 4 {
		t.Errorf("%d taps, want 4: new job, the name, a second person, start", n)
	}
	t.Logf("a new job of 2S2P with a sheet, a meter, a wrench, two people and the house rules: %d taps and the name of its site", w.Taps-before)
	w.Eval(`[...document.querySelectorAll("h2")].find(h => h.innerText.includes("The firm")).scrollIntoView({block: "center"})`, nil)
	w.look("register/bank")
	job := w.path()
	for way, want := range map[string][]string{
		"/part/sheet1": {"Invented 100", "14.6 V"}, "/part/m1": {"Invented 60", "0.001 V"}, "/part/w1": {"25 N·m"},
		"/part/p1": {"Ines Varga"}, "/part/p4": {"Jory Tam", "Technician"}, "/part/bank": {"Meter 1, Invented 60"}, "/part/b4": {"Block sheet 1, Invented 100"},
	} {
		w.visit(job + way)
		for _, text := range want {
			w.Sees(text)
		}
	}

	// A filled form goes into the register, and from there into another empty one.
	w.visit(job + "/enter/m2/before")
	w.Sees("From the register")
	w.look("register/offered")
	w.Pick("Measures", "Amperes")
	w.Fill("Model", "Invented clamp")
	w.Fill("Accuracy, percent of the reading, %", "2")
	w.On("Keep")
	w.Sees("3 entries kept")
	w.visit(job + "/enter/m2/before")
	w.On("Put into the register")
	w.Sees("In the register: Invented clamp.")
	w.Sees("This stands in the register.")
	w.visit(job + "/enter/m5/before")
	w.On("Invented clamp, amperes")
	w.Sees("Meter 5: 3 entries copied from the register.")
	w.visit(job + "/enter/charger1/before")
	w.SeesNot("From the register") // it has no charger

	// The plan is kept as a template, and a job begins with it.
	w.visit(job)
	w.On("Menu")
	w.look("register/menu-job")
	w.On("Keep the plan as a template")
	w.Sees("In the register as a template")
	w.visit("/new")
	w.Fill("Name of the site", "Invented barn")
	w.Row("Begin with")
	w.Row("Template: ")
	w.look("register/begin-with")
	w.On("Start this job")
	w.At("Invented barn")
	w.visit(w.path() + "/part/sheet1")
	w.Sees("14.6 V")
	w.visit("/new")
	w.Fill("Name of the site", "Invented shed")
	w.Row("Begin with")
	w.Row("The plan of a sample: Invented hut")
	w.On("Start this job")
	w.At("Invented shed")
	w.visit(w.path() + "/part/sheet1")
	w.Sees("p. 12")
	w.visit("/")
	w.Until("three jobs are listed", `document.querySelectorAll("a.job").length === 3`)

	// All of it is in the safe copy, and a second phone joins the two registers.
	w.Eval(`window.offered = ""`, nil)
	w.On("Safe copy of all")
	w.Until("a file is offered", `window.offered`)
	var text string
	w.Eval(`window.offered`, &text)
	if !strings.Contains(text, `"kind":"register"`) || strings.Contains(text, "Jory") {
		t.Error("the safe copy has no register, or a name in clear")
	}
	copyOf := filepath.Join(t.TempDir(), "all.txt")
	if err := os.WriteFile(copyOf, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	other := NewWalker(t, Launch(t), Serve(t).URL+"/", 0)
	other.visit("/register")
	other.add("Add a cable", [2]string{"Size", "35 mm2"}, [2]string{"Standard printed on the jacket", "IEC 60228"})
	other.Fill("Your name", "Mira Okoro")
	other.On("Add me")
	other.At("35 mm2")
	other.visit("/")
	other.choose("job-file", copyOf)
	other.Sees("The record was brought in")
	other.visit("/register")
	for _, there := range []string{"35 mm2", "Invented 60", "Invented clamp", "Jory Tam", "Mira Okoro"} {
		other.Sees(there)
	}
	other.look("register/joined")

	// In a job of the first phone it asks who writes, and writes as nobody else.
	at := other.jobs()
	other.visit("/")
	at = other.jobs()
	other.visit(at["Invented jetty"] + "/enter/charger1/before")
	other.Fill("Rated current, A", "30")
	other.On("Keep")
	other.Sees("Who are you?")
	other.On("Not now: keep nothing")
	other.Until("what was typed stands there", `document.getElementById("current-max").value === "30"`)
	other.On("Keep")
	other.Sees("I am Ines Varga")
	other.look("register/who-job")
	other.On("Add me: Mira Okoro")
	other.Sees("1 entry kept")
	other.visit(at["Invented jetty"] + "/part/charger1")
	other.Sees("Mira Okoro, ")
	other.visit(at["Invented jetty"] + "/enter/inverter1/before")
	other.Fill("Rated power, W", "1000")
	other.On("Keep")
	other.Sees("1 entry kept") // once asked
}

// add enters one thing into the register.
func (w *Walker) add(button string, entries ...[2]string) {
	w.T.Helper()
	w.On(button)
	w.Until("the form is there", `document.querySelector(".inp")`)
	for _, e := range entries {
		if e[0] == "Measures" || e[0] == "Role" {
			w.Pick(e[0], e[1])
			continue
		}
		w.Fill(e[0], e[1])
	}
	w.On("Keep")
}

// register goes back to the register.
func (w *Walker) register() {
	w.T.Helper()
	w.visit("/register")
	w.At("Register")
}

// look checks a screen as all screens are checked, and takes its pictures.
func (w *Walker) look(name string) {
	w.T.Helper()
	w.structure()
	w.targets()
	w.narrow()
	for i, theme := range themes {
		w.Eval(fmt.Sprintf(`document.documentElement.dataset.theme = %q`, theme), nil)
		w.frame()
		w.rules(theme, i == 0)
		w.Shot(name + "-" + theme)
	}
	w.Size(320, walkHeight)
	w.frame()
	w.Eval(`document.documentElement.dataset.theme = "light"`, nil)
	w.frame()
	w.Shot(name + "-320")
	w.Size(walkWidth, walkHeight)
	w.frame()
}

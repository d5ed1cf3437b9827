package e2e

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
)

// recorded counts the signed events of all jobs in the browser's store.
func (p *Phone) recorded() int {
	p.T.Helper()
	var n int
	p.Eval(`new Promise((done, failed) => {
		const open = indexedDB.open("lugmark");
		open.onerror = () => failed(open.error);
		open.onsuccess = () => {
			const count = open.result.transaction("events").objectStore("events").count();
			count.onsuccess = () => { open.result.close(); done(count.result); };
		};
	})`, &n)
	return n
}

// untouched checks that the record is what it was.
func (p *Phone) untouched(before int, after string) {
	p.T.Helper()
	if n := p.recorded(); n != before {
		p.T.Errorf("after %s the record has %d events, before %d", after, n, before)
	}
}

// A slip of the finger gets its sentence and touches nothing.
func TestSlipsInReadings(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	w.Go(w.address() + "/read/arrival-voltage/b1")
	w.At("Block 1")
	before := w.recorded()
	for _, c := range []struct{ typed, says string }{
		{"13.2.1", "“13.2.1” has more than one point or comma. Type one, before the decimals."},
		{"1,320.5", "“1,320.5” has more than one point or comma."},
		{"13x", "“x” is neither a digit nor a unit known here. Type the value in V."},
		{"x13", "“x13” is not a digit. Type the number that the meter shows."},
		{"13 A", "“13 A” is in A; this asks for V. Type the value in V."},
		{"132.0", "132.0 V is outside −20 V to 20 V for Block 1. Did you mean 13.2 V?"},
		{"1.3333333333333", "has too many digits for a meter."},
	} {
		w.Type("Voltage on arrival", c.typed)
		w.Press(kb.Enter)
		w.Sees(c.says)
		w.untouched(before, c.typed)
		if w.Can("Type again") {
			w.Shot("slip-outside-physics")
			w.Tap("Type again")
			w.Until("the field is empty", `document.getElementById("value").value === ""`)
		}
	}
	// What the meter really shows can be kept, and says so for ever.
	w.Type("Voltage on arrival", "132.0")
	w.Press(kb.Enter)
	w.Tap("It really shows that")
	w.Sees("Block 1: 132.0 V kept")
	w.visit(w.path() + "/part/b1")
	w.Sees("out of the usual range")
}

func TestSlipsInForms(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	w.Go(w.address() + "/enter/b1/receive")
	w.Type("Serial number", "IV-2601")
	w.Tap("Keep")
	w.Sees("Block 1: 1 entry kept.")
	before := w.recorded()
	w.visit(w.path() + "/enter/b2/receive")
	w.Type("Serial number", "IV-2601")
	w.Type("Firmware", "2.1")
	w.Tap("Keep")
	w.Sees("Put right first")
	w.Sees("The same serial number stands on Block 1. Read the label again.")
	w.untouched(before, "a serial number that stands twice")
	w.Until("the text is still there", `document.getElementById("firmware").value === "2.1"`)

	w.visit(w.path() + "/enter/sheet1/before")
	w.Type("Rated capacity, Ah", "1.2.3")
	w.Type("Highest charge voltage, V", "146")
	w.Type("Highest charge current, A", "50 V")
	w.Tap("Keep")
	w.Sees("“1.2.3” has more than one point or comma.")
	w.Sees("146 V is outside 12 V to 16 V. Is a point missing?")
	w.Sees("“50 V” is in V; this asks for A.")
	w.untouched(before, "a form with three slips")
	w.Tap("Rated capacity: “1.2.3” has more than one point or comma. Type one, before the decimals.")
	w.Until("the slip leads to its field", `document.activeElement.id === "capacity"`)
}

// A sheet half typed survives the Back key and a killed tab; what was kept
// leaves nothing behind.
func TestAHalfTypedSheetComesBack(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	w.Go(w.address() + "/enter/sheet1/before")
	w.Fill("Rated capacity, Ah", "100")
	w.Fill("Highest charge voltage, V", "14.6")
	w.On("Back")
	w.At("Before you start")
	w.Row("Block sheet 1: limits")
	w.Sees("What was typed here and not kept stands here again.")
	w.Until("the capacity stands there", `document.getElementById("capacity").value === "100"`)
	time.Sleep(300 * time.Millisecond) // a person does not type and lose the phone in the same instant
	w.KillTab(t)
	w.Until("both stand there", `document.getElementById("capacity").value === "100" && document.getElementById("charge-voltage-max").value === "14.6"`)
	w.keepForm("Block sheet 1", 2)
	w.Row("Block sheet 1: limits")
	w.At("Block sheet 1")
	w.SeesNot("not kept stands here again")
}

// What is closed before its time is said as an order to open it, and the words
// of what was kept are the words of what is so.
func TestClosedTooEarly(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	job := w.address()
	w.Go(job + "/hold/parallel/sA.p~sB.p")
	w.Tap("It is closed already")
	w.Sees("Link, string A plus to string B plus: stands as closed.")
	w.Sees("Open it: link, string A plus to string B plus")
	w.SeesNot("Close: Link")
	w.Shot("closed-too-early")
	w.Go(job)
	w.Sees("Open it again")
	w.Go(job + "/open")
	w.Sees("Open it: link, string A plus to string B plus")
	w.Go(job + "/hold/parallel/sA.p~sB.p")
	w.Tap("It is open again")
	w.Sees("Link, string A plus to string B plus: stands as open.")
	w.Go(job + "/hold/main/switch")
	w.Sees("Every drawn link is closed")
	w.Go(job + "/hold/parallel/sA.n~sB.n")
	w.Shot("hold-cautions")
}

// Files that are damaged, foreign or faulty change nothing and say where.
func TestFilesThatAreNoGood(t *testing.T) {
	root, err := Root()
	if err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(filepath.Join(root, "core", "record", "testdata", "first.txt"))
	if err != nil {
		t.Fatal(err)
	}
	damaged := bytes.Clone(whole)
	third := bytes.Index(damaged, []byte("\n")) + 1
	third += bytes.Index(damaged[third:], []byte("\n")) + 1
	at := third + bytes.Index(damaged[third:], []byte(`"at"`)) + len(`"at":"2026-1`)
	damaged[at]++ // one figure of a date of line 3

	p := Open(t, Serve(t).URL+"/")
	p.Size(walkWidth, walkHeight)
	p.Sees("No job on this phone yet.")
	before := p.recorded()
	plain := "{\"lugmark\": \"job/1\",\n \"layout\": {\"series\": 2, \"parallel\": 1, \"join\": \"strings\", \"takeoff\": \"one-end\"},\n \"readings\": {\n  \"b1/rest-voltage\": \"13.282 V\",\n  \"b2/rest-volts\": \"13.284 V\"}}\n"
	for _, c := range []struct {
		name, text, says string
	}{
		{"foreign.txt", "Dear Ines, the batteries come on Monday.\n", "This is not a job file of Lugmark"},
		{"foreign.json", "{\"shopping\": [\"cable\"]}", "The file was not opened, and nothing was changed."},
		{"broken.json", plain[:120], "The file was not opened, and nothing was changed."},
		{"fault.json", plain, "Line 5:"},
		{"damaged.txt", string(damaged), "The record file is damaged at line 3:"},
		{"cut.txt", string(whole[:len(whole)-40]), "The record file is damaged at line"},
		{"empty.txt", "", "This is not a job file of Lugmark"},
	} {
		path := filepath.Join(t.TempDir(), c.name)
		if err := os.WriteFile(path, []byte(c.text), 0o644); err != nil {
			t.Fatal(err)
		}
		p.visit("/menu")
		p.visit("/")
		p.Do(chromedp.SetUploadFiles("#job-file", []string{path}, chromedp.ByQuery))
		p.Sees(c.says)
		p.untouched(before, c.name)
		p.Sees("No job on this phone yet.")
	}
	p.Shot("file-damaged")

	path := filepath.Join(t.TempDir(), "first.txt")
	if err := os.WriteFile(path, whole, 0o644); err != nil {
		t.Fatal(err)
	}
	p.Do(chromedp.SetUploadFiles("#job-file", []string{path}, chromedp.ByQuery))
	p.Sees("The record was brought in")
	p.SeesNot("No job on this phone yet.")
	if n := p.recorded(); n != before+bytes.Count(whole, []byte("\ne ")) {
		t.Errorf("%d events of the whole file are there", n-before)
	}
}

// A clock that was set back makes the rest unknown, never long enough.
func TestClockSetBack(t *testing.T) {
	w := NewWalker(t, shared, Serve(t).URL+"/", 0)
	w.newJob()
	w.Go(w.address() + "/enter/bank/match")
	w.FillTime("Last time any current flowed", w.Now().Add(-2*time.Hour), true)
	w.On("Keep")
	w.Sees("Bank: 1 entry kept.")
	back := &Walker{Browser: shared, ahead: -24 * time.Hour}
	back.open(t, shared)
	back.Go(w.address())
	back.Sees("The clock of this phone stands before the last entry of this job")
	back.visit(back.path() + "/read/rest-voltage/b1")
	for i, b := range blocks {
		back.Reading(b, "Resting voltage at the posts", []string{"13.282", "13.281", "13.283", "13.282"}[i], "V")
	}
	back.Go(w.address() + "/why/rested/bank")
	back.Sees("Can't tell")
	back.Sees("The last current is entered as later than the reading, so the rest is not known.")
	back.Sees("Correct the time of the last current.")
	back.Go(w.address() + "/why/voltage-match/sA")
	back.SeesNot("Pass")
}

package e2e

import (
	"fmt"
	"testing"
	"time"
)

// A whole job, from new to handover, as a technician would tap it, with the
// server dead from the first minute on and the app killed on the way.
func TestWalkOfAWholeJob(t *testing.T) {
	server := Serve(t)
	w := NewWalker(t, Launch(t), server.URL+"/", 0)
	w.offlineReady()
	w.Sees("Ready without signal")
	server.Kill()
	w.Allow(deadServer)

	w.newJob()
	w.before()
	w.receive()
	w.match(t)
	w.wire(t)
	w.switchOn()
	w.firstCharge()
	w.prove()
	w.handedOver()
	w.handOver(t)
	w.sayHowItWent(t)
}

// form opens the form of a part on a stage.
func (w *Walker) form(part string, stage string) {
	w.T.Helper()
	w.At(stage)
	w.Row(part)
	w.At(part)
}

// keepForm keeps the open form and waits until the screen says so.
func (w *Walker) keepForm(part string, entries int) {
	w.T.Helper()
	w.On("Keep")
	if entries == 1 {
		w.Sees(part + ": 1 entry kept.")
		return
	}
	w.Sees(fmt.Sprintf("%s: %d entries kept.", part, entries))
}

// stage goes to a stage by way of the steps.
func (w *Walker) stage(title string) {
	w.T.Helper()
	w.On("Steps")
	w.At("Steps")
	w.Row(title)
	w.At(title)
}

// texts fills the open form of a part: label, text as typed, unit as shown.
func (w *Walker) texts(part string, rows ...[3]string) int {
	w.T.Helper()
	for _, r := range rows {
		label := r[0]
		value := r[1]
		if r[2] != "" {
			label += ", " + r[2]
			value += " " + r[2]
		}
		w.Fill(label, r[1])
		w.Remember(part, r[0], value)
	}
	return len(rows)
}

func (w *Walker) newJob() {
	w.On("New job")
	w.At("New job")
	w.Fill("Name of the site", "Invented jetty")
	w.Fill("Your name", "Ines Varga")
	w.On("One more: In series")
	w.Sees("3S × 2P")
	w.On("One less: In series")
	w.Sees("2S × 2P")
	w.Pick("How joined", "Strings, then in parallel")
	w.Pick("Where the two main leads leave", "Diagonal, opposite ends")
	w.Shot("walk-new-job")
	w.On("Start this job")
	w.At("Invented jetty")
	w.Remember("Site", "Name", "Invented jetty")
	w.Remember("Person 1", "Name", "Ines Varga")
	w.Shot("walk-bank-new")
}

func (w *Walker) before() {
	w.Sees("Block sheet")
	w.On("Start")
	w.At("Block sheet 1")
	n := w.texts("Block sheet 1",
		[3]string{"Model", "Invented 100", ""},
		[3]string{"Page of the manual", "p. 12", ""},
		[3]string{"Rated capacity", "100", "Ah"},
		[3]string{"Highest charge voltage", "14.6", "V"},
		[3]string{"Absorption voltage of the maker", "14.4", "V"},
		[3]string{"Tail current that means full", "5", "A"},
		[3]string{"Highest charge current", "50", "A"},
		[3]string{"Highest steady discharge current", "100", "A"},
		[3]string{"Short-circuit trip of the protection", "400", "A"},
		[3]string{"Blocks in series, at most", "4", ""},
		[3]string{"Blocks in parallel, at most", "4", ""},
		[3]string{"Lowest temperature for charging", "0", "°C"},
		[3]string{"Highest temperature for charging", "45", "°C"},
		[3]string{"Torque from", "8", "N·m"},
		[3]string{"Torque to", "10", "N·m"})
	w.Shot("walk-block-sheet")
	w.keepForm("Block sheet 1", n)

	w.Sees("Your voltmeter")
	w.On("Start")
	w.At("Meter 1")
	due := time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)
	n = w.texts("Meter 1",
		[3]string{"Accuracy, percent of the reading", "0.05", "%"},
		[3]string{"Accuracy, counts of the last digit", "3", ""},
		[3]string{"Smallest step shown", "0.001 V", ""},
		[3]string{"Top of the range", "60 V", ""})
	w.FillTime("Calibration due", due, false)
	w.Remember("Meter 1", "Calibration due", "2027-03-01")
	w.keepForm("Meter 1", n+2) // with what it measures

	before := "Before you start"
	w.form("Meter 2", before)
	n = w.texts("Meter 2",
		[3]string{"Accuracy, percent of the reading", "1", "%"},
		[3]string{"Accuracy, counts of the last digit", "1", ""},
		[3]string{"Smallest step shown", "0.01 A", ""})
	w.FillTime("Calibration due", due, false)
	w.Remember("Meter 2", "Calibration due", "2027-03-01")
	w.keepForm("Meter 2", n+2)

	w.form("Meter 3", before) // the thermometer
	n = w.texts("Meter 3",
		[3]string{"Accuracy, percent of the reading", "0.5", "%"},
		[3]string{"Accuracy, counts of the last digit", "1", ""},
		[3]string{"Smallest step shown", "1 C", ""})
	w.keepForm("Meter 3", n+1)

	w.form("Meter 4", before) // the millivolts of a finer meter
	n = w.texts("Meter 4",
		[3]string{"Accuracy, percent of the reading", "0.5", "%"},
		[3]string{"Accuracy, counts of the last digit", "3", ""},
		[3]string{"Smallest step shown", "0.01 mV", ""},
		[3]string{"Top of the range", "60 mV", ""})
	w.keepForm("Meter 4", n+1)

	w.form("Bank: meters in use", before)
	w.Row("Add a meter") // the milliamperes of the same
	w.At("Meter 5")
	w.Pick("Measures", "Amperes")
	n = w.texts("Meter 5",
		[3]string{"Accuracy, percent of the reading", "1", "%"},
		[3]string{"Accuracy, counts of the last digit", "3", ""},
		[3]string{"Smallest step shown", "0.01 mA", ""},
		[3]string{"Top of the range", "60 mA", ""})
	w.keepForm("Meter 5", n+1)
	w.form("Torque wrench 1", before)
	n = w.texts("Torque wrench 1",
		[3]string{"Accuracy, percent of the reading", "4", "%"},
		[3]string{"Largest torque of the wrench", "25", "N·m"})
	w.FillTime("Calibration due", due, false)
	w.Remember("Torque wrench 1", "Calibration due", "2027-03-01")
	w.keepForm("Torque wrench 1", n+2)

	w.planned(before)
	w.form("Cable 1", before)
	n = w.texts("Cable 1",
		[3]string{"Size", "2/0 AWG", ""},
		[3]string{"Standard printed on the jacket", "ASTM B258", ""},
		[3]string{"Temperature rating of the insulation", "90", "°C"},
		[3]string{"Temperature rating of the terminals", "75", "°C"})
	w.keepForm("Cable 1", n)
	for _, lead := range []string{"Main lead, plus", "Main lead, minus"} {
		w.form(lead, before)
		n = w.texts(lead, [3]string{"Length of the conductor", "1.0", "m"})
		w.Pick("Cable", "Cable 1, 2/0 AWG")
		w.Remember(lead, "Cable", "Cable 1, 2/0 AWG")
		w.keepForm(lead, n+1)
	}
	for _, f := range [][2]string{{"Main fuse", "100"}, {"Fuse of string A", "80"}, {"Fuse of string B", "80"}} {
		w.form(f[0], before)
		n = w.texts(f[0], [3]string{"Fuse rating", f[1], "A"}, [3]string{"DC voltage rating", "80", "V"},
			[3]string{"Breaking capacity at that voltage", "50000", "A"})
		w.keepForm(f[0], n)
	}
	w.form("Site", before)
	n = w.texts("Site", [3]string{"Where the bank stands", "Store room, low shelf", ""}, [3]string{"Hottest air at the cables", "30", "°C"},
		[3]string{"Height above the sea", "40", "m"})
	w.Pick("Petrol or gas can collect there", "No")
	w.Remember("Site", "Petrol or gas can collect there", "No")
	w.Pick("Kind of site", "Building or mast")
	w.Remember("Site", "Kind of site", "Building or mast")
	w.keepForm("Site", n+2)
	w.form("Person 2", before)
	n = w.texts("Person 2", [3]string{"Name", "Tomas Brandt", ""})
	w.keepForm("Person 2", n)
	w.form("All links alike", before)
	w.Pick("Cable", "Cable 1, 2/0 AWG")
	w.Fill("Length of the conductor, m", "0.3")
	for _, link := range w.links() {
		w.Remember(link, "Cable", "Cable 1, 2/0 AWG")
		w.Remember(link, "Length of the conductor", "0.3 m")
	}
	w.keepForm("All links alike", 2)
	w.Shot("walk-before")
}

// links are the links of two strings of two, as the screens name them.
func (w *Walker) links() []string {
	return []string{
		"Link, block 1 minus to block 2 plus", "Link, block 3 minus to block 4 plus",
		"Link, string A plus to string B plus", "Link, string A minus to string B minus",
	}
}

// cautions reads the cautions of the stage on screen, once.
func (w *Walker) cautions() {
	w.T.Helper()
	w.Sees("Read first")
	w.On("I have read this: Ines Varga")
	w.Sees("Cautions read: Ines Varga")
}

// blocks are the parts of a round of blocks.
var blocks = []string{"Block 1", "Block 2", "Block 3", "Block 4"}

// round walks a round of the stage on screen and comes back to the stage.
func (w *Walker) round(stage, field, unit string, parts, digits []string) {
	w.T.Helper()
	w.Row(field)
	for i, part := range parts {
		w.Reading(part, field, digits[i], unit)
	}
	w.At(stage)
}

func (w *Walker) receive() {
	w.stage("Receive")
	w.cautions()
	w.round("Receive", "Mass, weighed", "kg", blocks, []string{"11.9", "11.8", "11.8", "11.9"})
	w.round("Receive", "Voltage on arrival", "V", blocks, []string{"13.201", "13.203", "13.202", "12.908"})
	for i, b := range blocks {
		w.form(b, "Receive")
		n := w.texts(b, [3]string{"Serial number", fmt.Sprintf("IV-260%d", i+1), ""}, [3]string{"Date code", "2026-05", ""}, [3]string{"Firmware", "2.1", ""})
		w.Pick("Look of the block", "Whole")
		w.Remember(b, "Look of the block", "Whole")
		if i == 0 {
			n += w.texts(b, [3]string{"Length, measured", "331", "mm"}, [3]string{"Width, measured", "173", "mm"}, [3]string{"Height, measured", "219", "mm"})
		}
		w.keepForm(b, n+1)
	}
	w.answers("Bank", "Receive", "Bank", [2]string{"Photo taken of the blocks on arrival", "Yes"})
	w.Shot("walk-receive")
}

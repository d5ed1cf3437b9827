package e2e

import (
	"testing"
	"time"
)

// hold opens a hold point from the list of the stage on screen.
func (w *Walker) hold(begins string) {
	w.T.Helper()
	w.Row(begins)
	w.At("Hold point")
}

// closeIt says that what the open hold point releases is closed now.
func (w *Walker) closeIt(part string) {
	w.T.Helper()
	w.On("It is closed now")
	w.Sees("It is closed.")
	w.Remember(part, "Closed", "Yes")
}

func (w *Walker) wire(t *testing.T) {
	w.stage("Wire")
	w.cautions()
	links := w.links()
	for _, series := range links[:2] {
		w.hold("Close: " + series)
		w.SeesNot("Keep open")
		w.Shot("walk-hold-open")
		w.closeIt(series)
		w.stage("Wire")
	}
	posts := []string{"Block 1, plus post", "Block 1, minus post", "Block 2, plus post", "Block 2, minus post",
		"Block 3, plus post", "Block 3, minus post", "Block 4, plus post", "Block 4, minus post"}
	// 8.2 N·m with ±4 % reaches across the lower end of the window from 8 N·m.
	w.round("Wire", "Torque, clicked or read", "N·m", posts, []string{"9.0", "9.0", "9.0", "9.0", "9.0", "9.0", "9.0", "8.2"})
	w.why("Torque", "Block 4, minus post, torque", "Can't tell", "walk-why-cant-tell")
	w.stage("Wire")
	w.round("Wire", "Volts from string minus up to here", "V",
		[]string{"Block 2, plus post", "Block 1, plus post", "Block 4, plus post", "Block 3, plus post"}, []string{"13.481", "26.963", "13.480", "26.962"})
	w.Row("Total voltage")
	w.Reading("String A", "Total voltage", "26.963", "V")
	w.Reading("String B", "Total voltage", "26.962", "V")

	w.On("Back") // the bank has no total while the strings stand apart

	// The strings are joined: warm, only drawn links on, and the last gap read.
	w.stage("Match")
	w.form("Bank", "Match")
	w.Pick("Only drawn links are on, no cross tie, both polarities read", "Yes")
	w.Remember("Bank", "Only drawn links are on, no cross tie, both polarities read", "Yes")
	w.keepForm("Bank", 1)
	w.round("Match", "Temperature of the block", "°C", blocks, []string{"19", "19", "20", "19"})
	w.stage("First charge")
	w.form("Bank", "First charge")
	w.Fill("Charge current planned, A", "20")
	w.Remember("Bank", "Charge current planned", "20 A")
	w.keepForm("Bank", 1)

	w.stage("Wire")
	w.hold("Keep open: " + links[2]) // whether the other side is open is not said yet
	w.On("It is open: l" + links[3][1:])
	w.SeesNot("Keep open: ")
	w.Remember(links[3], "Closed", "No")
	w.closeIt(links[2])
	w.stage("Wire")
	w.hold("Keep open: " + links[3]) // the gap that closes the circuit is not read yet
	w.Fill("Volts across the gap, V", "0.002")
	w.On("Keep")
	w.SeesNot("Keep open: ")
	w.Remember(links[3], "Volts across the gap, last thing before closing", "0.002 V")
	w.closeIt(links[3])
	w.stage("Wire")
	w.Row("Total voltage")
	w.Reading("Bank", "Total voltage", "26.963", "V")
	w.stage("Wire")
	w.wired()
	w.Shot("walk-wire")
}

func (w *Walker) switchOn() {
	w.stage("Switch on")
	w.cautions()
	w.form("Inverter", "Switch on")
	w.Pick("Inverter is switched off", "Yes")
	w.Remember("Inverter", "Inverter is switched off", "Yes")
	w.keepForm("Inverter", 1)
	w.form("Charger", "Switch on")
	n := w.texts("Charger", [3]string{"Absorption voltage, as left", "28.4", "V"}, [3]string{"Float voltage, as left", "27.0", "V"}, [3]string{"Charge current, as left", "20", "A"})
	w.keepForm("Charger", n+w.pickAll("Charger", [2]string{"Equalise", "Off"}, [2]string{"Temperature compensation", "Off, 0 mV per kelvin"},
		[2]string{"Recover or desulphate", "Off"}, [2]string{"Stops charging below 0 °C", "Yes"}))
	w.precharged()
	w.Row(crossSwitch)
	w.Reading("Main switch", crossSwitch, "0.100", "V")

	// The main: the torque that nobody can tell keeps it shut, so it is taken on by name.
	w.At("Switch on")
	w.hold("Keep open: Main switch")
	w.On("The main is open now")
	w.SeesNot("The main is open now")
	w.Remember("Main switch", "Closed", "No")
	w.Row("Override")
	w.Fill("Reason, in a sentence", "Bolt of block 4 is checked again tomorrow with the other wrench")
	w.Shot("walk-override")
	w.On("Override this hold point")
	w.Sees("Override kept. It will be printed.")
	w.Remember("Close the main", "Ines Varga", "Bolt of block 4 is checked again tomorrow with the other wrench")
	w.closeIt("Main switch")
	w.Shot("walk-main-closed")
	w.stage("Switch on")
	w.closedNow()
}

func (w *Walker) firstCharge() {
	w.stage("First charge")
	w.cautions()
	w.round("First charge", "Temperature for the charge", "°C", blocks, []string{"19", "19", "20", "19"})
	for _, b := range blocks {
		w.form(b, "First charge")
		w.Pick("Which sensor", "The block's own sensor")
		w.Remember(b, "Which sensor", "The block's own sensor")
		w.keepForm(b, 1)
	}
	w.hold("Keep the charger off") // wired and switched on; its fuse is not entered yet
	w.On("The fuse is in place")
	w.SeesNot("The fuse is in place")
	w.Remember("Main fuse", "Closed", "Yes")
	w.On("Start the charge list")
	w.At("First charge")
	w.Fill("Voltage, V", "27.24") // a slip, taken back
	w.Fill("Current, A", "-19.8")
	w.On("Keep sample")
	w.Sees("27.24")
	w.On("Undo")
	w.Sees("The sample is taken back.")
	w.SeesNot("27.24")
	for i, s := range [][3]string{{"27.42", "19.8", "19"}, {"28.05", "19.9", "20"}, {"28.40", "6.1", "21"}} {
		if i > 0 { // the first one right when the charge begins
			w.Later(4 * time.Minute)
		}
		w.Fill("Voltage, V", s[0])
		w.Fill("Current, A", s[1])
		w.Fill("Temperature, °C", s[2])
		w.On("Keep sample")
		w.Sees("Sample kept.")
		w.Sees(s[0])
		for i, f := range []string{"V", "A", "°C"} {
			w.Remember("sample "+s[0], f, s[i])
		}
	}
	w.Shot("walk-charge-list")
	w.stage("First charge")
	strings := []string{"String A", "String B"}
	w.round("First charge", "Voltage at the end of charge", "V", blocks, []string{"14.301", "14.302", "14.304", "14.300"})
	w.round("First charge", "Current of the string at the end of charge", "A", strings, []string{"3.10", "3.00"})
	w.Later(61 * time.Second)
	w.round("First charge", "Voltage at the end of charge, a minute later", "V", blocks, []string{"14.302", "14.304", "14.305", "14.301"})
	w.round("First charge", "Current of the string, a minute later", "A", strings, []string{"2.60", "2.55"})
	w.form("Charger", "First charge")
	held := "Voltage at the posts while the charger holds absorption"
	w.Fill(held+", V", "28.400")
	w.Remember("Charger", held, "28.400 V")
	n := w.texts("Charger", [3]string{"Voltage at the charger's posts", "28.440", "V"}, [3]string{"Voltage at the bank's posts", "28.400", "V"},
		[3]string{"Current of this charger while both are read", "20.00", "A"})
	w.keepForm("Charger", n+1)
	w.form("Bank", "First charge")
	w.Pick("How the current ended", "It fell slowly to the tail")
	w.Remember("Bank", "How the current ended", "It fell slowly to the tail")
	w.keepForm("Bank", 1)
	w.Shot("walk-first-charge")
}

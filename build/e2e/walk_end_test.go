package e2e

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// joints are the joints of the links, two each, as the screens name them.
func (w *Walker) joints() []string {
	var out []string
	for _, link := range w.links() {
		from, to, _ := strings.Cut(strings.TrimPrefix(link, "Link, "), " to ")
		out = append(out, "Joint at "+from+", link to "+to, "Joint at "+to+", link to "+from)
	}
	return out
}

func (w *Walker) prove() {
	w.stage("Prove")
	w.cautions()
	w.hold("Start the capacity test")
	w.On("Enter the test")
	w.At("Capacity test 1")
	n := w.texts("Capacity test 1", [3]string{"Charge delivered", "205", "Ah"}, [3]string{"Discharge current", "40", "A"},
		[3]string{"Duration of the discharge", "5.1", "h"}, [3]string{"Temperature during the test", "25", "°C"}, [3]string{"Voltage at the end", "20.010", "V"})
	for _, q := range [][2]string{{"It started from a proved full charge", "Yes"}, {"Why it ended", "The cut-off voltage was reached"}} {
		w.Pick(q[0], q[1])
		w.Remember("Capacity test 1", q[0], q[1])
	}
	w.keepForm("Capacity test 1", n+2)
	w.loaded()
	for _, lead := range []string{"Main lead, plus", "Main lead, minus"} {
		w.stage("Wire")
		w.fills(lead, "Wire", lead, [3]string{"Resistance, lug to lug", "0.31", "mΩ"})
	}
	w.stage("Prove")

	w.form("All links alike", "Prove")
	w.Fill("Current while the drops are read, A", "50.00")
	for _, link := range w.links() {
		w.Remember(link, "Current while the drops are read", "50.00 A")
	}
	w.keepForm("All links alike", 1)
	joints := w.joints()
	w.round("Prove", "Drop across the joint, with current", "mV", joints,
		[]string{"2.00", "2.02", "2.01", "1.99", "2.03", "2.00", "1.98", "2.01"})
	field := "Drop across the joint, no current"
	w.Row(field)
	last := len(joints) - 1
	for _, j := range joints[:last] {
		w.Reading(j, field, "0.00", "mV")
	}
	w.At(joints[last])
	w.On("Can't measure this")
	w.Pick("Reason", "Must wait")
	w.Shot("walk-cant")
	w.On("Later")
	w.Sees(joints[last] + ": not measured, reason kept.")
	w.Remember(joints[last], field, "Later: Must wait")
	w.At("Prove")
	w.Shot("walk-prove")
}

// handedOver ticks off what stays with the owner, and what they were shown.
func (w *Walker) handedOver() {
	w.stage("Hand over")
	w.form("Bank", "Hand over")
	w.tickAll("Bank", "Labels that are on", "System voltage", "Fault current", "Isolator", "Date", "What to do in an emergency")
	w.tickAll("Bank", "Left with the bank", "Drawing", "Makers' manuals", "Settings as left", "This sheet", "Maintenance dates", "Spare fuse")
	w.tickAll("Bank", "Gone through with the owner", "How to switch off in an emergency and in which order", "What the alarm means", "Never charge below 0 °C",
		"How deep to discharge", "Storage", "Whom to call", "The return visit")
	w.keepForm("Bank", 3+w.pickAll("Bank", [2]string{"A sound or a light comes before the cut-off", "Yes"}))
}

// tickAll ticks rows of a list; its value stands as its labels in one line.
func (w *Walker) tickAll(part, legend string, rows ...string) {
	w.T.Helper()
	for _, row := range rows {
		w.Pick(legend, row)
	}
	w.Remember(part, legend, strings.Join(rows, ", "))
}

func (w *Walker) handOver(t *testing.T) {
	w.On("Hand over")
	w.At("Hand over")
	w.Sees("Handed over with open points.")
	w.Fill("Type the full name to sign: technician", "Ines Varga")
	w.On("Sign")
	w.Sees("Signed by Ines Varga")
	w.Fill("Type the full name to sign: owner", "Mirja Olsen")
	w.On("Sign")
	w.Sees("Signed by Mirja Olsen")
	w.On("Seal the sheet")
	w.Sees("Sealed, revision 1")
	var fingerprint string
	w.Eval(`document.querySelector(".fp").innerText.replace(/\s/g, "")`, &fingerprint)
	if len(fingerprint) != 26 {
		t.Errorf("the fingerprint has %d signs, want 26: %q", len(fingerprint), fingerprint)
	}
	w.Shot("walk-handover")
	w.Eval(`window.print = () => { window.printed = true }; 0`, nil)
	w.On("Print, or save as PDF")
	w.Until("the print view was asked for", `window.printed === true`)
	for _, paper := range []string{"A4", "Letter"} {
		w.Pick("Paper", paper)
		w.Print(t, paper, fingerprint)
	}
}

// sayHowItWent compares what the screens show with what they said was kept,
// and writes the line of the walk.
func (w *Walker) sayHowItWent(t *testing.T) {
	shown := w.shown()
	lost := 0
	for _, k := range w.Standing() {
		if !shown.has(k) {
			lost++
			t.Errorf("said to be kept and not shown: %s, %s: %s", k.Part, k.Field, k.Value)
		}
	}
	w.On("Back")
	w.At("Invented jetty")
	w.Shot("walk-bank-end")
	var counts []string
	w.Eval(`[...document.querySelectorAll(".counts li")].map(li => li.innerText.replace(/\s+/g, " ").trim().replace(/^(.*) (\d+)$/, (all, word, n) => word.toLowerCase().replace(" ", "-").replace("\u2019", "").replace("'", "") + " " + n))`, &counts)
	if !slices.ContainsFunc(counts, func(c string) bool { return strings.HasPrefix(c, "pass ") }) {
		t.Fatalf("the bank sheet counts %v", counts)
	}
	acts, must := w.Taps+w.Typed, w.Digits+w.Typed+w.Picked
	t.Logf("%d taps and %d keys of the keyboard for %d signs and answers that must be entered: %.2f for each", w.Taps, w.Typed, must, float64(acts)/float64(must))
	if float64(acts) > 1.5*float64(must) {
		t.Errorf("%d taps and keys for %d signs and answers are more than 1.5 for each", acts, must)
	}
	fmt.Printf("walk: %d readings, %d taps, findings %s, reloads %d, lost %d\n", w.Read, w.Taps, strings.Join(counts, " "), w.Reloads, lost)
}

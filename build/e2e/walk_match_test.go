package e2e

import (
	"testing"
	"time"
)

func (w *Walker) match(t *testing.T) {
	w.stage("Match")
	w.cautions()
	w.form("Bank", "Match")
	current := w.Now().Add(-16 * time.Hour)
	w.FillTime("Last time any current flowed", current, true)
	w.Remember("Bank", "Last time any current flowed", current.Format("15:04, 2 Jan"))
	w.keepForm("Bank", 1)

	field := "Resting voltage at the posts"
	w.Row(field)
	w.At("Block 1")
	taps := w.Taps
	w.Reading("Block 1", field, "13.282", "V")
	if n := w.Taps - taps; n != 6 {
		t.Errorf("%d taps for one voltage of five digits, want 6", n)
	}
	w.Reading("Block 2", field, "13.284", "V")

	// The app is thrown out of memory in the middle of a number.
	w.At("Block 3")
	w.Pad("13.2", true)
	time.Sleep(300 * time.Millisecond) // a person does not type and lose the phone in the same instant
	w.KillTab(t)
	w.At("Block 3")
	w.Until("the same digits stand there", `document.getElementById("value").value === "13.2"`)
	w.On("7")
	w.On("9")
	w.Digits += 2
	w.Keep("Block 3", field, "13.279", "V")

	// Block 4 is 0.37 V low: the screen wants it measured twice.
	w.At("Block 4")
	w.Pad("12.910", true)
	w.Sees("0.372 V below the others. Measure it again before you trust it.")
	w.Shot("walk-far-off")
	w.Taps++
	w.TapID("keep")
	w.Sees("Block 4: 12.910 V kept, far from the others. Measure it once more.")
	w.Read++
	w.Remember("Block 4", field, "12.910 V")
	w.Shot("walk-far-off-again")
	w.Reading("Block 4", field, "12.911", "V")
	w.At("Match")
	w.round("Match", "Temperature of the block", "°C", blocks, []string{"18", "18", "19", "18"})

	w.why("Voltage match", "String B, voltage match", "Fail", "walk-why-fail")
	w.seriesIsShut(t)
	w.chargeEach(t)
	w.restAndReadAgain(t)
}

// why opens the reasons of one finding from the list of open points.
func (w *Walker) why(title, about, verdict, shot string) {
	w.T.Helper()
	w.Row("Open (")
	w.At("Open points")
	w.Row("Why: " + about)
	w.At(title)
	w.Sees(verdict)
	w.Sees("Do this")
	w.Sees("It rests on")
	w.Shot(shot)
}

// seriesIsShut looks at the hold point of the first series link.
func (w *Walker) seriesIsShut(t *testing.T) {
	w.stage("Wire")
	w.Row("Keep open: Link, block 1")
	w.At("Hold point")
	w.Sees("Keep open")
	w.SeesNot("It is closed now")
	w.Shot("walk-hold-shut")
	if w.Can("It is closed now") {
		t.Error("a shut hold point lets the link be closed")
	}
}

// chargeEach charges every block by itself until it is full; that it is warm
// enough for it is read first.
func (w *Walker) chargeEach(t *testing.T) {
	w.stage("Match")
	w.round("Match", "Charged alone: temperature of the block", "°C", blocks, []string{"18", "18", "19", "18"})
	w.answers("Bank", "Match", "Bank", [2]string{"Came in from the cold or heat today?", "No"})
	w.round("Match", "Charged alone: voltage at its posts", "V", blocks, []string{"14.400", "14.402", "14.401", "14.398"})
	w.round("Match", "Charged alone: current", "A", blocks, []string{"3.00", "3.05", "2.90", "3.10"})
	w.Later(61 * time.Second)
	w.round("Match", "Charged alone: voltage, a minute later", "V", blocks, []string{"14.401", "14.402", "14.402", "14.399"})
	w.round("Match", "Charged alone: current, a minute later", "A", blocks, []string{"2.50", "2.55", "2.45", "2.60"})
	for _, b := range blocks {
		w.form(b, "Match")
		w.Pick("How the current ended", "It fell slowly to the tail")
		w.Remember(b, "How the current ended", "It fell slowly to the tail")
		w.keepForm(b, 1)
	}
}

// restAndReadAgain comes back after a night: the blocks rested, and their
// voltages are read once more.
func (w *Walker) restAndReadAgain(t *testing.T) {
	current := w.Now()
	w.Later(20 * time.Hour)
	w.form("Bank", "Match")
	w.FillTime("Last time any current flowed", current, true)
	w.Remember("Bank", "Last time any current flowed", current.Format("15:04, 2 Jan"))
	w.keepForm("Bank", 1)
	field := "Resting voltage at the posts"
	w.Row(field)
	for i, b := range blocks {
		if i == 0 {
			w.Sees("Kept before: 13.282 V. A new value replaces it; the old one stays in the record.")
		}
		w.Reading(b, field, []string{"13.482", "13.481", "13.482", "13.480"}[i], "V")
		if i == 2 {
			// The whole phone dies right after the screen said kept.
			w.KillPhone(t)
			w.At(blocks[3])
			w.Allow(deadServer)
		}
	}
	w.At("Match")
	w.Shot("walk-match")
}

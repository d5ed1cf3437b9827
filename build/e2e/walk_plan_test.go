package e2e

// answers opens a form, picks the answers to its questions, and keeps them.
func (w *Walker) answers(row, stage, part string, rows ...[2]string) {
	w.T.Helper()
	w.form(row, stage)
	w.pickAll(part, rows...)
	w.keepForm(part, len(rows))
}

// pickAll picks answers on the open form.
func (w *Walker) pickAll(part string, rows ...[2]string) int {
	w.T.Helper()
	for _, q := range rows {
		w.Pick(q[0], q[1])
		w.Remember(part, q[0], q[1])
	}
	return len(rows)
}

// fills opens a form of texts only, fills it, and keeps it.
func (w *Walker) fills(row, stage, part string, rows ...[3]string) {
	w.T.Helper()
	w.form(row, stage)
	w.keepForm(part, w.texts(part, rows...))
}

// planned enters what the plan of the bank rests on: loads, machines, the shelf
// and the lift.
func (w *Walker) planned(before string) {
	w.fills("Block sheet 1: size", before, "Block sheet 1",
		[3]string{"Mass of a block", "11.8", "kg"},
		[3]string{"Length of a block", "330", "mm"}, [3]string{"Width of a block", "173", "mm"}, [3]string{"Height of a block", "220", "mm"})
	w.fills("Block sheet 1: protection", before, "Block sheet 1",
		[3]string{"Under-voltage at which the protection opens, per cell", "2.3", "V"}, [3]string{"Discharge cut-off", "10.0", "V"})
	w.fills("Bank: plan", before, "Bank", [3]string{"Largest steady current of the bank", "60", "A"})
	w.form("Bank: where it stands", before)
	n := w.texts("Bank", [3]string{"Length of the shelf, along a row", "800", "mm"}, [3]string{"Depth of the shelf", "400", "mm"},
		[3]string{"What the shelf may carry", "80", "kg"})
	w.keepForm("Bank", n+w.pickAll("Bank", [2]string{"What the bank stands on", "A shelf or a tray"}))
	w.fills("Bank: lifting", before, "Bank", [3]string{"Hands in front of the ankles", "30", "cm"},
		[3]string{"Height of the hands above the floor", "75", "cm"}, [3]string{"How far up or down the block is moved", "40", "cm"})
	w.fills("Charger", before, "Charger", [3]string{"Rated current", "30", "A"},
		[3]string{"Lowest absorption voltage that can be set", "22", "V"}, [3]string{"Highest absorption voltage that can be set", "30", "V"})
	w.fills("Inverter", before, "Inverter", [3]string{"Rated power", "1000", "W"}, [3]string{"Low-voltage cut-off", "23.6", "V"},
		[3]string{"DC window from", "20", "V"}, [3]string{"DC window to", "32", "V"})
}

// wired enters what is looked at once the bank is wired: fuses, lugs, the
// insulation of the cables, the volts to the frame.
func (w *Walker) wired() {
	for _, f := range [][2]string{{"Main fuse", "15"}, {"Fuse of string A", "10"}, {"Fuse of string B", "10"}} {
		w.fills(f[0], "Wire", f[0], [3]string{"Cable without a fuse, from the post to this fuse", f[1], "cm"})
	}
	w.form("Bank: lugs", "Wire")
	n := w.texts("Bank", [3]string{"Most lugs on one post", "2", ""})
	w.keepForm("Bank", n+w.pickAll("Bank", [2]string{"At every post: lug on the pad, no washer between, largest lug first", "Yes"},
		[2]string{"Every bolt holds one diameter of thread and does not touch the ground of its hole", "Yes"}, [2]string{"Photo taken of every post", "Yes"}))
	w.form("Bank: insulation", "Wire")
	n = w.texts("Bank", [3]string{"Insulation of the cables to the frame", "25", "MΩ"}, [3]string{"Test voltage", "250", "V"})
	w.keepForm("Bank", n+w.pickAll("Bank", [2]string{"Both ends of the cables were off and joined together", "Yes"}, [2]string{"The tester was proved before and after", "Yes"}))
	w.form("Bank: frame", "Wire")
	n = w.texts("Bank", [3]string{"From the plus lead to the frame", "0.120", "V"}, [3]string{"From the minus lead to the frame", "-0.090", "V"})
	w.keepForm("Bank", n+w.pickAll("Bank", [2]string{"Which pole is bonded to the frame", "None, floating"}))
}

// precharged enters the precharge resistor, and what would charge in the cold.
func (w *Walker) precharged() {
	w.fills("Main switch: precharge", "Switch on", "Main switch", [3]string{"Precharge resistor", "25", "Ω"},
		[3]string{"Energy of one pulse that the resistor bears", "50", "J"}, [3]string{"How long the resistor bears the whole bank voltage", "10", "s"},
		[3]string{"Capacitance on the line", "10", "mF"})
	w.answers("Bank", "Switch on", "Bank", [2]string{"Other sources stop below 0 °C", "No other source"})
}

// closedNow enters what the main did when it closed.
func (w *Walker) closedNow() {
	w.form("Main switch: after closing", "Switch on")
	n := w.texts("Main switch", [3]string{"Current right after closing, nothing switched on", "0.12", "A"}, [3]string{"Bank voltage right after closing", "26.960", "V"})
	w.keepForm("Main switch", n+w.pickAll("Main switch", [2]string{"A protection tripped when the main closed", "No"}))
}

// loaded enters the load test: current, blocks, branches, joints, leads.
func (w *Walker) loaded() {
	prove := "Prove"
	w.round(prove, "Voltage under load", "V", blocks, []string{"13.121", "13.118", "13.124", "13.120"})
	w.round(prove, "Internal resistance, 10 s step", "mΩ", blocks, []string{"6.1", "6.2", "6.0", "6.1"})
	w.Row("Current of this branch under load")
	for i, s := range []string{"String A", "String B"} {
		w.Reading(s, "Current of this branch under load", []string{"30.20", "29.90"}[i], "A")
	}
	w.At(prove)
	w.form("Bank: load test", prove)
	n := w.texts("Bank", [3]string{"Current of the bank under load", "60.10", "A"}, [3]string{"How long it carried that load", "12", "min"},
		[3]string{"Current step with which the resistances were read", "40", "A"}, [3]string{"Current of the bank in the same minute", "60.10", "A"})
	w.keepForm("Bank", n+w.pickAll("Bank", [2]string{"Something tripped under load", "No"}, [2]string{"How the resistances were read", "A current step of ten seconds"},
		[2]string{"The clamp was zeroed before", "Yes"}))
	w.form("Bank: joints and leads", prove)
	n = w.texts("Bank", [3]string{"Hottest joint", "28", "°C"}, [3]string{"Coolest joint of the same kind", "28", "°C"}, [3]string{"Air beside it", "20", "°C"},
		[3]string{"Current of the bank while they are read", "60.10", "A"}, [3]string{"How long that current had flowed", "25", "min"},
		[3]string{"Temperature of the leads while lug to lug is read", "25", "°C"})
	w.keepForm("Bank", n+w.pickAll("Bank", [2]string{"How the joints were read", "Infrared on tape or paint"}))
	w.form("Bank: temperature sensor", prove)
	w.keepForm("Bank", w.pickAll("Bank", [2]string{"Temperature sensor on the blocks", "None"}))
	w.fills("Bank: what it draws at rest", prove, "Bank", [3]string{"Current with everything off", "2.10", "mA"},
		[3]string{"Current after the inverter's cut-off", "5.20", "mA"})
	w.answers("Shunt", prove, "Shunt", [2]string{"A counter with a shunt is fitted", "No"})
	w.fills("Capacity test 1: charged again", prove, "Capacity test 1", [3]string{"Charge put back until full again", "209", "Ah"},
		[3]string{"Duration of that charge", "8", "h"}, [3]string{"Of it, what the heaters took", "0", "Ah"})
}

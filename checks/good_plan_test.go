package checks

// goodPlan is what the plan, the arrival and the wired bank of the good job
// answer besides its readings.
const goodPlan = `
bank/use-volts = m1
charger1/voltage-min = 22 V
charger1/voltage-max = 30 V
inverter1/dc-min = 20 V
inverter1/dc-max = 32 V
sheet1/mass = 12 kg
bank/stands-on = shelf
bank/shelf-length = 800 mm
bank/shelf-depth = 400 mm
bank/shelf-rating = 60 kg
sheet1/block-length = 330 mm
sheet1/block-width = 173 mm
sheet1/block-height = 220 mm
bank/lift-reach = 30 cm
bank/lift-height = 75 cm
bank/lift-travel = 40 cm
site/altitude = 300 m
site/fuel-space = no
bank/arrival-photo = yes
b1/condition = whole
b2/condition = whole
b3/condition = whole
b4/condition = whole
b1/mass = 12.05 kg
b2/mass = 12.00 kg
b3/mass = 12.00 kg
b4/mass = 12.05 kg
b1/block-length = 331 mm
b1/block-width = 173 mm
b1/block-height = 219 mm
fuse.main/unfused-length = 15 cm
fuse.A/unfused-length = 10 cm
fuse.B/unfused-length = 10 cm
bank/lug-stacks = yes
bank/lugs-most = 2
bank/lug-thread = yes
bank/lug-photo = yes
bank/cable-insulation = 20 MOhm
bank/insulation-volts = 250 V
bank/insulation-free = yes
bank/insulation-proved = yes
bank/bond-plan = none
bank/stray-plus = 0.10 V
bank/stray-minus = -0.10 V
b1/serial = IV-1
b2/serial = IV-2
b3/serial = IV-3
b4/serial = IV-4
`

// goodNeedsNot are the checks that the good job does not need, and why.
var goodNeedsNot = map[string]string{
	"alternator-path": "it stands in a building",
	"parallel-rest":   "no rest was begun",
	"bond":            "no bond is planned",
	"asleep":          "no block slept",
}

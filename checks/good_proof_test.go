package checks

// goodProof is what switching on, the first charge and the proofs of the good
// job showed.
const goodProof = `
switch/precharge-resistor = 25 Ohm
switch/precharge-capacitance = 10 mF
switch/precharge-pulse = 50 J
switch/precharge-bears = 10 s
sheet1/under-voltage = 2.3 V
switch/close-tripped = no
switch/close-voltage = 27.20 V, m1
switch/close-current = 0.00 A, m2
charger1/cold-lockout = yes
bank/other-lockout = none
charger1/volts-at-charger = 28.50 V, m1
charger1/volts-at-bank = 28.40 V, m1
charger1/lead-current = 20.00 A, m2
charge1.019ab000-0000-7000-8000-000000000a01/sample-current = 20.00 A, m2, at -60s
charge1.019ab000-0000-7000-8000-000000000a01/sample-voltage = 28.30 V, m1, at -60s
charge1.019ab000-0000-7000-8000-000000000a01/sample-temperature = 18 C, at -60s
charge1.019ab000-0000-7000-8000-000000000a02/sample-current = 20.00 A, m2, at -20s
charge1.019ab000-0000-7000-8000-000000000a02/sample-voltage = 28.30 V, m1, at -20s
charge1.019ab000-0000-7000-8000-000000000a02/sample-temperature = 18 C, at -20s
sheet1/discharge-cut-off = 10.0 V
capacity1/recharge = 206 Ah
capacity1/recharge-duration = 8 h
capacity1/recharge-heater = 0 Ah
m5/measures = A
m5/percent = 1 %
m5/counts = 3
m5/step = 0.00001 A
m5/due = 2027-03-01
bank/own-draw = 2.00 mA, m5
bank/idle-current = 5.00 mA, m5
bank/load-current = 60.00 A, m2
bank/load-tripped = no
bank/load-time = 10 min
b1/load-voltage = 12.900 V, m1
b2/load-voltage = 12.910 V, m1
b3/load-voltage = 12.900 V, m1
b4/load-voltage = 12.910 V, m1
bank/resistance-method = step
bank/resistance-step = 40 A
bank/clamp-zeroed = yes
sA/share-current = 30.00 A, m2
sB/share-current = 30.00 A, m2
bank/share-total = 60.00 A, m2
shunt/counter-fitted = yes
shunt/counter-load = -60.0 A
shunt/clamp-load = -60.00 A, m2
shunt/counter-charge = 20.0 A
shunt/clamp-charge = 20.00 A, m2
shunt/counter-zero = 0.0 A
bank/joint-hottest = 28.0 C
bank/joint-like = 27.5 C
bank/joint-air = 20 C
bank/joint-load = 60.00 A, m2
bank/joint-time = 25 min
bank/joint-method = tape
lead.p/lug-to-lug = 0.32 mOhm
lead.n/lug-to-lug = 0.32 mOhm
bank/lead-temperature = 25 C
bank/sensor-type = shown
bank/sensor-reads = 18 C
bank/sensor-reference = 18 C
bank/sensor-method = contact
bank/sensor-soaked = yes
bank/labels = voltage, fault-current, isolator, date, emergency
bank/documents = drawing, manuals, settings, sheet, dates, spare-fuse
bank/alarm-first = yes
bank/owner-briefed = emergency, alarm, cold, depth, storage, call, return
`

// goodProofNot are the checks among them that it does not need, and why.
var goodProofNot = map[string]string{
	"cold-start":       "nothing heats",
	"heater-supply":    "nothing heats",
	"warm-up":          "nothing heats",
	"heater-to-charge": "nothing heats",
	"energy":           "its energy was not counted",
	"overload-trip":    "declared by the maker",
	"heat-cutout":      "declared by the maker",
	"time-to-full":     "information, and the charge is over",
}

package checks

import (
	"lugmark/core/bank"
	"lugmark/core/unit"
)

// What is read and confirmed on site, stage by stage.
var (
	hazardsRead = choice("hazards-read", Before, "Cautions read", "", options("hazards-read", "yes", "Read and understood", "no", "I cannot work under these"), bank.KindStage)

	// Receive
	arrivalVoltage = quantity[unit.Volt]("arrival-voltage", Receive, "Voltage on arrival", "Red probe on plus, black on minus, nothing connected.", bank.KindBlock).physics(-20, 20).round(2, "posts")

	// Match
	lastCurrent  = moment("last-current", Match, "Last time any current flowed", "Charge, load or a link, in any block.", bank.KindBank)
	firstVoltage = quantity[unit.Volt]("first-voltage", Match, "Earlier voltage, to see the drift", "At least 30 minutes before the resting voltage, with a meter that shows 1 mV.", bank.KindBlock).physics(-20, 20).round(2, "posts")
	restVoltage  = quantity[unit.Volt]("rest-voltage", Match, "Resting voltage at the posts", "Same meter, same range, same leads for all blocks. Wait until the last digit stands still.", bank.KindBlock).physics(-20, 20).round(2, "posts")
	restClose    = quantity[unit.Volt]("rest-voltage-close", Match, "First block again, at the end of the round", "Shows whether the meter drifted in a long round.", bank.KindBank).physics(-20, 20)
	blockTemp    = quantity[unit.Celsius]("temperature", Match, "Temperature of the block", "One contact probe, on the same spot of every block.", bank.KindBlock).physics(-40, 90).round(0, "")
	gapVoltage   = quantity[unit.Volt]("gap-voltage", Match, "Gap to the first block", "All links open, minus posts joined by a thin 1 A fused lead; probe from this plus to the plus of the first block of the string or group. The first block of a later group: to the first block of the bank.", bank.KindBlock).physics(-30, 30).in("mV").round(0, "gap")
	stringGap    = quantity[unit.Volt]("string-gap", Match, "Gap to the first string", "No link between the strings, minus ends joined by a thin 1 A fused lead; probe from this plus end to the first string's. Never above 60 V.", bank.KindString).physics(-300, 300).in("mV").round(0, "gap")
	gapOver      = choice("gap-over-range", Match, "The meter shows over-range on its millivolts", "Instead of a reading.", yesNo, bank.KindBlock, bank.KindString)
	blockR       = quantity[unit.Ohm]("resistance", Prove, "Internal resistance, 10 s step", "Fall of the voltage over a step of ten seconds, divided by the step. Read early, it makes the predictions narrower.", bank.KindBlock).physics(1e-4, 0.5).in("mOhm").round(0, "")
	joinLeadR    = quantity[unit.Ohm]("join-lead", Match, "Resistance of the joining lead", "With its fuse.", bank.KindBank).physics(1e-5, 10).in("mOhm")
	joinFuse     = quantity[unit.Ampere]("join-fuse", Match, "Fuse in the joining lead", "", bank.KindBank).physics(0.1, 1000)
	linksClear   = choice("links-clear", Match, "Only drawn links are on, no cross tie, both polarities read", "", yesNo, bank.KindBank)
	levelTaken   = choice("level-accepted", Match, "Equal charge is not proved; join all the same", "Only for one delivery of one build. Printed on the sheet.", options("level-accepted", "yes", "Accepted by name", "no", "Not accepted"), bank.KindBank)

	fullTemp     = quantity[unit.Celsius]("full-temperature", Match, "Charged alone: temperature of the block", "With a contact probe, before the charger comes on, and again when voltage and current are read. Not above the lowest temperature of its sheet: warm it first.", bank.KindBlock).physics(-40, 90).round(0, "")
	fullVoltage  = quantity[unit.Volt]("full-voltage", Match, "Charged alone: voltage at its posts", "While the charger still holds it, near the end.", bank.KindBlock).physics(-20, 20).round(2, "posts")
	fullCurrent  = quantity[unit.Ampere]("full-current", Match, "Charged alone: current", "", bank.KindBlock).physics(-2000, 2000).round(0, "")
	fullVoltage2 = quantity[unit.Volt]("full-voltage-again", Match, "Charged alone: voltage, a minute later", "At least 60 s after the first.", bank.KindBlock).physics(-20, 20).round(2, "posts")
	fullCurrent2 = quantity[unit.Ampere]("full-current-again", Match, "Charged alone: current, a minute later", "", bank.KindBlock).physics(-2000, 2000).round(0, "")
	fullEnded    = choice("full-ended", Match, "How the current ended", "", options("full-ended", "fell-slowly", "It fell slowly to the tail", "dropped", "It dropped to nothing at once", "not-seen", "Nobody saw it"), bank.KindBlock).round()

	// Wire
	closed       = choice("closed", Wire, "Closed", "Physically on.", yesNo, bank.KindLink, bank.KindSwitch, bank.KindLead, bank.KindFuse)
	lastGap      = quantity[unit.Volt]("last-gap", Wire, "Volts across the gap, last thing before closing", "", bank.KindLink, bank.KindSwitch).physics(-300, 300)
	torqueSet    = quantity[unit.NewtonMetre]("torque-set", Wire, "Torque, clicked or read", "Mark the bolt across lug and post.", bank.KindPost).physics(0.5, 60).round(0, "torque")
	stepVoltage  = quantity[unit.Volt]("step-voltage", Wire, "Volts from string minus up to here", "Black probe stays on the lowest minus; red climbs from plus to plus. Enter the sign.", bank.KindPost, bank.KindEnd).physics(-300, 300).round(2, "steps")
	totalVoltage = quantity[unit.Volt]("total-voltage", Wire, "Total voltage", "Across the whole string or bank, main open.", bank.KindBank, bank.KindString).physics(-300, 300).round(2, "posts")

	// Switch on
	inverterOff   = choice("off", SwitchOn, "Inverter is switched off", "", yesNo, bank.KindInverter)
	capacitors    = choice("capacitors", SwitchOn, "An inverter or another load with capacitors is on this line", "Inverters, motor drives, some radios: empty, they are a short circuit for an instant.", yesNo, bank.KindSwitch)
	prechargeLeft = quantity[unit.Volt]("precharge-left", SwitchOn, "Volts left across the open main switch", "After five time constants: five times the resistor in ohms times the capacitance in farads, in seconds.", bank.KindSwitch).physics(-300, 300).round(0, "switch")

	setAbsorption = quantity[unit.Volt]("absorption", SwitchOn, "Absorption voltage, as left", "Read it back from the charger.", bank.KindCharger).physics(1, 300)
	setFloat      = quantity[unit.Volt]("float", SwitchOn, "Float voltage, as left", "Zero when float is off.", bank.KindCharger).physics(0, 300)
	setCurrent    = quantity[unit.Ampere]("set-current", SwitchOn, "Charge current, as left", "", bank.KindCharger).physics(0, 2000)
	setEqualise   = choice("equalise", SwitchOn, "Equalise", "", options("equalise", "off", "Off", "on", "On"), bank.KindCharger)
	setTempComp   = choice("temp-comp", SwitchOn, "Temperature compensation", "", options("temp-comp", "off", "Off, 0 mV per kelvin", "on", "On"), bank.KindCharger)
	setRecover    = choice("recover", SwitchOn, "Recover or desulphate", "", options("recover", "off", "Off", "on", "On"), bank.KindCharger)
	heldAbsorb    = quantity[unit.Volt]("absorption-at-posts", FirstCharge, "Voltage at the posts while the charger holds absorption", "At the outer posts of what is charged, with the same meter as the blocks.", bank.KindCharger).physics(1, 300)
	foundAbsorb   = quantity[unit.Volt]("absorption-found", SwitchOn, "Absorption voltage, as found", "Optional.", bank.KindCharger).physics(1, 300)

	// First charge
	chargeTemp    = quantity[unit.Celsius]("charge-temperature", FirstCharge, "Temperature for the charge", "The coldest sensor of this block, now.", bank.KindBlock).physics(-40, 90).round(0, "")
	sensorKind    = choice("sensor", FirstCharge, "Which sensor", "", options("sensor", "own", "The block's own sensor", "glued", "Sensor glued to the case", "contact", "Contact thermometer on the case", "infrared", "Infrared on tape or paint"), bank.KindBlock).round()
	hoursHere     = choice("settled", Match, "Came in from the cold or heat today?", "Yes when the air round the blocks changed by more than 10 K in the last 6 hours, such as in a cold van.", yesNo, bank.KindBank)
	plannedCharge = quantity[unit.Ampere]("charge-current", FirstCharge, "Charge current planned", "For the whole bank.", bank.KindBank).physics(0, 5000)
	chargeTarget  = text("target", FirstCharge, "What is charged", "bank, a string or a block", bank.KindCharge)
	sampleVoltage = quantity[unit.Volt]("sample-voltage", FirstCharge, "Voltage", "At the posts of what is charged.", bank.KindSample).physics(-300, 300)
	sampleCurrent = quantity[unit.Ampere]("sample-current", FirstCharge, "Current", "Into the bank is plus.", bank.KindSample).physics(-5000, 5000)
	sampleTemp    = quantity[unit.Celsius]("sample-temperature", FirstCharge, "Temperature", "Of the coldest block.", bank.KindSample).physics(-40, 90)
	topVoltage    = quantity[unit.Volt]("top-voltage", FirstCharge, "Voltage at the end of charge", "All blocks within two minutes, charger still holding.", bank.KindBlock).physics(-20, 20).round(2, "posts")
	topVoltage2   = quantity[unit.Volt]("top-voltage-again", FirstCharge, "Voltage at the end of charge, a minute later", "At least 60 s after the first.", bank.KindBlock).physics(-20, 20).round(2, "posts")
	tailCurrent   = quantity[unit.Ampere]("tail-current", FirstCharge, "Current of the string at the end of charge", "For a bank of one string, the bank's current.", bank.KindString, bank.KindGroup).physics(-2000, 2000).round(0, "").worded("tail-current-of-string")
	tailCurrent2  = quantity[unit.Ampere]("tail-current-again", FirstCharge, "Current of the string, a minute later", "At least 60 s after the first.", bank.KindString, bank.KindGroup).physics(-2000, 2000).round(0, "")
	chargeEnded   = choice("charge-ended", FirstCharge, "How the current ended", "", options("charge-ended", "fell-slowly", "It fell slowly to the tail", "dropped", "It dropped to nothing at once", "not-seen", "Nobody saw it"), bank.KindBank)

	// Prove
	capTarget  = text("target", Prove, "What is discharged", "bank, a string or a block; the bank when left open", bank.KindCapacity).worded("target-of-capacity")
	capCharge  = quantity[unit.AmpereHour]("charge", Prove, "Charge delivered", "Counted from full to the cut-off.", bank.KindCapacity).physics(0, 10000)
	capError   = quantity[unit.AmpereHour]("charge-error", Prove, "Its uncertainty, when the counter's sheet gives one", "Optional: ± in Ah.", bank.KindCapacity).physics(0, 1000)
	capEnergy  = quantity[unit.WattHour]("energy", Prove, "Energy delivered", "Optional.", bank.KindCapacity).physics(0, 500000).in("kWh")
	capHours   = quantity[unit.Second]("duration", Prove, "Duration of the discharge", "", bank.KindCapacity).physics(60, 1e6).in("h")
	capCurrent = quantity[unit.Ampere]("test-current", Prove, "Discharge current", "", bank.KindCapacity).physics(0.01, 5000)
	capTemp    = quantity[unit.Celsius]("test-temperature", Prove, "Temperature during the test", "Of the blocks.", bank.KindCapacity).physics(-40, 90)
	capFull    = choice("started-full", Prove, "It started from a proved full charge", "", yesNo, bank.KindCapacity)
	capEnd     = quantity[unit.Volt]("end-voltage", Prove, "Voltage at the end", "", bank.KindCapacity).physics(0, 300)
	capWhy     = choice("end-reason", Prove, "Why it ended", "", options("end-reason", "cut-off", "The cut-off voltage was reached", "protection", "A block's protection opened", "inverter", "The inverter's own cut-off", "person", "Somebody stopped it"), bank.KindCapacity)

	jointDrop    = quantity[unit.Volt]("drop", Prove, "Drop across the joint, with current", "Probes on the lug barrel and on the post pad, not on the bolt.", bank.KindJoint).physics(-1, 1).in("mV").round(0, "joint")
	jointZero    = quantity[unit.Volt]("drop-zero", Prove, "Drop across the joint, no current", "Same spots, current off.", bank.KindJoint).physics(-1, 1).in("mV").round(0, "joint")
	jointCurrent = quantity[unit.Ampere]("drop-current", Prove, "Current while the drops are read", "50 A or more with a meter that shows 0.1 mV, 10 A with 0.01 mV. Where strings or blocks stand side by side: clamped at the link itself.", bank.KindBank, bank.KindLink).physics(0, 5000)
)

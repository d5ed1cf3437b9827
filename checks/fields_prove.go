package checks

import (
	"lugmark/core/bank"
	"lugmark/core/unit"
)

// What is entered and read from switching on to the handover, and at a return
// visit: precharge, heated blocks, sensors, load and what the bank loses at rest.
var (
	// Switch on
	prechargeR      = quantity[unit.Ohm]("precharge-resistor", SwitchOn, "Precharge resistor", "", bank.KindSwitch).physics(0.1, 1e5).setup()
	prechargePulse  = quantity[unit.WattHour]("precharge-pulse", SwitchOn, "Energy of one pulse that the resistor bears", "From its sheet, in joules.", bank.KindSwitch).physics(1e-6, 100).in("J").setup()
	prechargeBears  = quantity[unit.Second]("precharge-bears", SwitchOn, "How long the resistor bears the whole bank voltage", "From its sheet, at V²/R.", bank.KindSwitch).physics(0.001, 1e6).setup()
	prechargeFarad  = quantity[unit.Farad]("precharge-capacitance", SwitchOn, "Capacitance on the line", "Of all inverters together, from their manuals. Left open: take the time below.", bank.KindSwitch).physics(1e-6, 10).in("mF").setup()
	prechargeTime   = quantity[unit.Second]("precharge-time", SwitchOn, "Time until 5 % is left across the switch", "With a stop-watch, where the capacitance is not known.", bank.KindSwitch).physics(0.01, 1e4)
	sheetLowest     = quantity[unit.Volt]("under-voltage", Before, "Under-voltage at which the protection opens, per cell", "With its tolerance: 2.5 ± 0.05 V is 2.55 V.", bank.KindSheet).physics(1.5, 3.2).setup()
	closeAmps       = quantity[unit.Ampere]("close-current", SwitchOn, "Current right after closing, nothing switched on", "", bank.KindSwitch).physics(-2000, 2000)
	closeVolts      = quantity[unit.Volt]("close-voltage", SwitchOn, "Bank voltage right after closing", "", bank.KindSwitch).physics(-300, 300)
	closeTripped    = choice("close-tripped", SwitchOn, "A protection tripped when the main closed", "", yesNo, bank.KindSwitch)
	coldLockout     = choice("cold-lockout", SwitchOn, "Stops charging below 0 °C", "By its own sensor, or told by the blocks.", options("cold-lockout", "yes", "Yes", "no", "No", "unknown", "Not known"), bank.KindCharger).setup()
	otherLockout    = choice("other-lockout", SwitchOn, "Other sources stop below 0 °C", "Alternator, solar, wind: every one that can charge this bank.", options("other-lockout", "none", "No other source", "yes", "Yes, all", "no", "No", "unknown", "Not known"), bank.KindBank).setup()
	sheetHeated     = choice("heated", Before, "It heats itself from the charger when cold", "And keeps its cells off until it is warm.", yesNo, bank.KindSheet).setup()
	sheetHeaterAmps = quantity[unit.Ampere]("heater-current", Before, "Current of its heater", "", bank.KindSheet).physics(0.1, 100).setup()
	sheetRelease    = quantity[unit.Celsius]("heater-release", Before, "Temperature at which it lets charge in", "", bank.KindSheet).physics(-10, 40).setup()
	heatWatched     = choice("heat-watched", FirstCharge, "Somebody stays for ten minutes and at the step, and writes the current down", "", yesNo, bank.KindBank)

	// First charge
	airNow      = quantity[unit.Celsius]("air-now", FirstCharge, "Air round the blocks", "Now.", bank.KindBank).physics(-60, 60)
	warmUpPlan  = quantity[unit.Second]("warm-up-plan", FirstCharge, "Time planned for warming up", "Optional.", bank.KindBank).physics(60, 1e6).in("h")
	leadSource  = quantity[unit.Volt]("volts-at-charger", FirstCharge, "Voltage at the charger's posts", "While it charges; same meter as below.", bank.KindCharger).physics(1, 300)
	leadPosts   = quantity[unit.Volt]("volts-at-bank", FirstCharge, "Voltage at the bank's posts", "In the same minute.", bank.KindCharger).physics(1, 300)
	leadAmps    = quantity[unit.Ampere]("lead-current", FirstCharge, "Current of this charger while both are read", "", bank.KindCharger).physics(-2000, 2000)
	tailSeconds = quantity[unit.Second]("tail-constant", FirstCharge, "Time constant of the falling current", "Optional: how long the current takes to fall to about a third.", bank.KindBank).physics(10, 1e5).in("min")

	// Prove
	sheetEnergy   = quantity[unit.WattHour]("rated-energy", Before, "Rated energy", "Only where the sheet gives it.", bank.KindSheet).physics(1, 100000).setup()
	backCharge    = quantity[unit.AmpereHour]("recharge", Prove, "Charge put back until full again", "Read on the same counter.", bank.KindCapacity).physics(0, 10000)
	backHours     = quantity[unit.Second]("recharge-duration", Prove, "Duration of that charge", "", bank.KindCapacity).physics(60, 1e6).in("h")
	backHeater    = quantity[unit.AmpereHour]("recharge-heater", Prove, "Of it, what the heaters took", "Zero for blocks without heaters.", bank.KindCapacity).physics(0, 1000)
	loadVolts     = quantity[unit.Volt]("load-voltage", Prove, "Voltage under load", "At the end of ten minutes, all blocks within two minutes.", bank.KindBlock).physics(-20, 20).round(2, "posts")
	loadAmps      = quantity[unit.Ampere]("load-current", Prove, "Current of the bank under load", "", bank.KindBank).physics(0, 5000)
	loadTime      = quantity[unit.Second]("load-time", Prove, "How long it carried that load", "", bank.KindBank).physics(1, 1e5).in("min")
	loadTripped   = choice("load-tripped", Prove, "Something tripped under load", "", yesNo, bank.KindBank)
	stepAmps      = quantity[unit.Ampere]("resistance-step", Prove, "Current step with which the resistances were read", "", bank.KindBank).physics(0, 5000)
	stepMethod    = choice("resistance-method", Prove, "How the resistances were read", "", options("resistance-method", "step", "A current step of ten seconds", "1khz", "A tester at 1 kHz"), bank.KindBank)
	sheetRMethod  = choice("resistance-how", Before, "How the maker measures it", "", options("resistance-how", "step", "With direct current", "1khz", "At 1 kHz", "unknown", "Not stated"), bank.KindSheet).setup()
	shareAmps     = quantity[unit.Ampere]("share-current", Prove, "Current of this branch under load", "Clamp each in the same minute.", bank.KindString, bank.KindBlock).physics(-2000, 2000).round(2, "")
	shareTotal    = quantity[unit.Ampere]("share-total", Prove, "Current of the bank in the same minute", "", bank.KindBank).physics(-5000, 5000)
	clampZeroed   = choice("clamp-zeroed", Prove, "The clamp was zeroed before", "Closed, away from any lead.", yesNo, bank.KindBank)
	counterFitted = choice("counter-fitted", Prove, "A counter with a shunt is fitted", "", yesNo, bank.KindShunt).setup()
	counterOut    = quantity[unit.Ampere]("counter-load", Prove, "Counter under load, with its sign", "", bank.KindShunt).physics(-5000, 5000)
	clampOut      = quantity[unit.Ampere]("clamp-load", Prove, "Clamp under load, with its sign", "Out of the bank is minus.", bank.KindShunt).physics(-5000, 5000)
	counterIn     = quantity[unit.Ampere]("counter-charge", Prove, "Counter while charging, with its sign", "", bank.KindShunt).physics(-5000, 5000)
	clampIn       = quantity[unit.Ampere]("clamp-charge", Prove, "Clamp while charging, with its sign", "Into the bank is plus.", bank.KindShunt).physics(-5000, 5000)
	counterZero   = quantity[unit.Ampere]("counter-zero", Prove, "Counter with no current", "", bank.KindShunt).physics(-100, 100)
	sheetOverAmps = quantity[unit.Ampere]("overload-current", Before, "Overload at which the protection opens", "", bank.KindSheet).physics(1, 5000).worded("overload-current-of-sheet").setup()
	sheetOverFrom = quantity[unit.Second]("overload-from", Before, "It opens not before", "", bank.KindSheet).physics(0, 3600).setup()
	sheetOverTo   = quantity[unit.Second]("overload-to", Before, "It opens not later than", "", bank.KindSheet).physics(0.001, 3600).setup()
	overAmps      = quantity[unit.Ampere]("overload-current", Prove, "Current of one block in the overload test", "", bank.KindBank).physics(1, 5000)
	overTime      = quantity[unit.Second]("overload-time", Prove, "Until it opened, or until you opened the switch", "", bank.KindBank).physics(0, 3600)
	overOpened    = choice("overload-opened", Prove, "The protection opened by itself", "", yesNo, bank.KindBank)
	overSteady    = choice("overload-steady", Prove, "The current stood still", "", yesNo, bank.KindBank)
	heatJoint     = quantity[unit.Celsius]("joint-hottest", Prove, "Hottest joint", "After 20 minutes under load.", bank.KindBank).physics(-40, 200)
	heatLike      = quantity[unit.Celsius]("joint-like", Prove, "Coolest joint of the same kind", "In the same minute, the same way.", bank.KindBank).physics(-40, 200)
	heatAir       = quantity[unit.Celsius]("joint-air", Prove, "Air beside it", "", bank.KindBank).physics(-60, 80)
	heatAmps      = quantity[unit.Ampere]("joint-load", Prove, "Current of the bank while they are read", "", bank.KindBank).physics(0, 5000)
	heatTime      = quantity[unit.Second]("joint-time", Prove, "How long that current had flowed", "", bank.KindBank).physics(0, 1e5).in("min")
	heatMethod    = choice("joint-method", Prove, "How the joints were read", "", options("joint-method", "contact", "Contact thermometer", "tape", "Infrared on tape or paint", "bare", "Infrared on bare metal"), bank.KindBank)
	leadTemp      = quantity[unit.Celsius]("lead-temperature", Prove, "Temperature of the leads while lug to lug is read", "", bank.KindBank).physics(-40, 120)
	sensorType    = choice("sensor-type", Prove, "Temperature sensor on the blocks", "Of the charger or the counter.", options("sensor-type", "none", "None", "shown", "Its reading is shown in degrees", "ntc-3950", "10 kΩ NTC, Beta 3950", "ntc-8016", "10 kΩ NTC, curve 8016", "pt100", "Pt100", "unknown", "Not known"), bank.KindBank).setup()
	sensorReads   = quantity[unit.Celsius]("sensor-reads", Prove, "What the sensor reads", "Where degrees are shown.", bank.KindBank).physics(-60, 150)
	sensorOhms    = quantity[unit.Ohm]("sensor-ohms", Prove, "Resistance of the sensor", "Unplugged, where no degrees are shown.", bank.KindBank).physics(0, 1e8)
	sensorBeside  = quantity[unit.Celsius]("sensor-reference", Prove, "Thermometer beside it", "", bank.KindBank).physics(-60, 150)
	sensorWay     = choice("sensor-method", Prove, "How that thermometer reads", "", options("sensor-method", "contact", "By contact", "infrared", "By infrared on the case"), bank.KindBank)
	sensorSoaked  = choice("sensor-soaked", Prove, "Both had 30 minutes together, no current", "", yesNo, bank.KindBank)
	sheetCutOut   = quantity[unit.Celsius]("heat-cut-out", Before, "Temperature at which it opens for heat", "", bank.KindSheet).physics(40, 120).setup()
	cutOutAllowed = choice("cut-out-allowed", Prove, "The maker allows its heat cut-out to be tested with a resistor", "Never heat a block.", yesNo, bank.KindBank).setup()
	cutOutAt      = quantity[unit.Celsius]("cut-out-at", Prove, "Simulated temperature at which it opened", "", bank.KindBank).physics(20, 150)
	coldStartAmps = quantity[unit.Ampere]("cold-start-current", Prove, "Current of the bank with the charger on, blocks cold", "", bank.KindBank).physics(-100, 2000)
	coldStartTemp = quantity[unit.Celsius]("cold-start-temperature", Prove, "Coldest block at that moment", "", bank.KindBank).physics(-60, 60)
	ownDrawAmps   = quantity[unit.Ampere]("own-draw", Prove, "Current with everything off", "In milliamperes, at the main.", bank.KindBank).physics(-10, 10).in("mA")
	ownDrawStated = quantity[unit.Ampere]("own-draw-stated", Prove, "What the sheets of the parts left on state together", "Optional.", bank.KindBank).physics(0, 10).in("mA").setup()
	idleAmps      = quantity[unit.Ampere]("idle-current", Prove, "Current after the inverter's cut-off", "What still flows once it has switched off.", bank.KindBank).physics(-100, 100).in("mA")
	idleIsolator  = choice("idle-isolator", Prove, "An isolator opens at the cut-off", "", yesNo, bank.KindBank).setup()
	idleSource    = choice("idle-source", Prove, "A source charges the bank by itself", "Solar, mains, wind.", yesNo, bank.KindBank).setup()
	storeDays     = quantity[unit.Count]("storage-days", Prove, "Days in storage", "0 when it is never stored; 180 when left open.", bank.KindBank).physics(0, 3650).setup()
	storeLevel    = quantity[unit.Percent]("storage-level", Prove, "Charge level at the start of storage, at least", "Left open: from the proved full charge.", bank.KindBank).physics(0, 100)

	// Hand over
	labelsOn = several("labels", HandOver, "Labels that are on", "Take a photo of them.", options("labels", "voltage", "System voltage",
		"fault-current", "Fault current", "isolator", "Isolator", "date", "Date", "emergency", "What to do in an emergency"), bank.KindBank)
	papersLeft = several("documents", HandOver, "Left with the bank", "", options("documents", "drawing", "Drawing", "manuals", "Makers' manuals",
		"settings", "Settings as left", "sheet", "This sheet", "dates", "Maintenance dates", "spare-fuse", "Spare fuse"), bank.KindBank)
	alarmFirst   = choice("alarm-first", HandOver, "A sound or a light comes before the cut-off", "Tried, not read.", options("alarm-first", "yes", "Yes", "no", "No", "not-tried", "Not tried"), bank.KindBank)
	ownerBriefed = several("owner-briefed", HandOver, "Gone through with the owner", "In person, at the bank.", options("owner-briefed",
		"emergency", "How to switch off in an emergency and in which order", "alarm", "What the alarm means", "cold", "Never charge below 0 °C",
		"depth", "How deep to discharge", "storage", "Storage", "call", "Whom to call", "return", "The return visit"), bank.KindBank)

	// Return visit
	rebuilt     = choice("built-again", Return, "Something is opened, exchanged or joined again at this visit", "A link, a block, a cable, a fuse or the main. Yes: everything is asked again as on the first day.", yesNo, bank.KindBank)
	fullBefore  = choice("full-before", Return, "The bank was charged to full before this rest", "", yesNo, bank.KindBank)
	cutoffSeen  = quantity[unit.Volt]("cut-off-seen", Return, "Cut-off voltage, as found", "Read it off the inverter, not off the old sheet.", bank.KindInverter).physics(1, 300)
	changeMeant = choice("change-meant", Return, "What changed was meant to, and a note says why", "Only where a setting is not as it was left.", yesNo, bank.KindCharger, bank.KindInverter)
	marksMoved  = choice("marks-moved", Return, "A torque mark has moved", "Look at every bolt.", yesNo, bank.KindBank)
	soundStill  = choice("sound-still", Return, "No damage, chafe, corrosion or blocked air", "", yesNo, bank.KindBank)
	swellAgain  = quantity[unit.Percent]("swelling-most", Return, "Largest swelling, percent of the thickness", "Middle against edge, of the worst block.", bank.KindBank).physics(0, 100)
)

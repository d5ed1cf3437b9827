package checks

import (
	"lugmark/core/bank"
	"lugmark/core/unit"
)

// What is entered before work begins and holds until it is changed: the site,
// the people, the makers' sheets, the cables, fuses and meters.
var (
	layoutField = Field{&Spec{ID: "layout", Kind: Drawing, Of: []bank.Kind{bank.KindBank}, Stage: Before, Setup: true, Label: labelOf("layout", "Layout")}}

	siteName    = personal("name", Before, "Name", "As it shall stand on the handover sheet.", bank.KindSite, bank.KindPerson)
	sitePlace   = personal("place", Before, "Where the bank stands", "Such as: store room, low shelf.", bank.KindSite)
	personPhone = personal("phone", Before, "Telephone", "Whom the owner calls when something is wrong.", bank.KindPerson)
	siteAddress = personal("address", Before, "Address", "", bank.KindSite)
	siteKind    = choice("kind", Before, "Kind of site", "Decides which wiring table is used.",
		options("kind", "building", "Building or mast", "boat", "Boat", "vehicle", "Vehicle"), bank.KindSite).setup()
	siteHottest = quantity[unit.Celsius]("ambient-max", Before, "Hottest air at the cables", "In summer, with the load on.", bank.KindSite).physics(-40, 80).setup()
	personRole  = choice("role", Before, "Role", "", options("role", "technician", "Technician", "lead", "Lead technician", "owner", "Owner", "inspector", "Inspector"), bank.KindPerson).setup()

	designCurrent = quantity[unit.Ampere]("design-current", Before, "Largest steady current of the bank", "What the loads draw together, at the lowest bank voltage.", bank.KindBank).physics(0.1, 5000).setup()

	blockSheet  = text("sheet", Before, "Block sheet", "", bank.KindBlock)
	blockSerial = text("serial", Receive, "Serial number", "As on the label.", bank.KindBlock)
	blockCode   = text("date-code", Receive, "Date code", "Year and month of making, such as 2026-05; as on the label where no month stands there.", bank.KindBlock)
	blockFirm   = text("firmware", Receive, "Firmware", "As on the label or in the maker's papers; a dash when there is none.", bank.KindBlock)

	sheetModel     = text("model", Before, "Model", "", bank.KindSheet, bank.KindCharger, bank.KindInverter, bank.KindMeter, bank.KindWrench)
	sheetPage      = text("page", Before, "Page of the manual", "", bank.KindSheet, bank.KindInverter, bank.KindCharger, bank.KindLead, bank.KindLink)
	sheetCapacity  = quantity[unit.AmpereHour]("capacity", Before, "Rated capacity", "", bank.KindSheet).physics(1, 2000).setup()
	sheetRate      = quantity[unit.Ampere]("capacity-rate", Before, "Current at which it is rated", "", bank.KindSheet).physics(0.01, 2000).setup()
	sheetCutoff    = quantity[unit.Volt]("discharge-cut-off", Before, "Discharge cut-off", "", bank.KindSheet).physics(6, 13).setup()
	sheetVmax      = quantity[unit.Volt]("charge-voltage-max", Before, "Highest charge voltage", "", bank.KindSheet).physics(12, 16).setup()
	sheetAbsorb    = quantity[unit.Volt]("absorption-voltage", Before, "Absorption voltage of the maker", "", bank.KindSheet).physics(12, 16).setup()
	sheetTail      = quantity[unit.Ampere]("tail-current", Before, "Tail current that means full", "", bank.KindSheet).physics(0.01, 500).setup()
	sheetChargeMax = quantity[unit.Ampere]("charge-max", Before, "Highest charge current", "", bank.KindSheet).physics(0.1, 2000).setup()
	sheetDischarge = quantity[unit.Ampere]("discharge-max", Before, "Highest steady discharge current", "", bank.KindSheet).physics(0.1, 2000).setup()
	sheetTrip      = quantity[unit.Ampere]("short-trip", Before, "Short-circuit trip of the protection", "", bank.KindSheet).physics(1, 20000).setup()
	sheetShort     = quantity[unit.Ampere]("short-circuit", Before, "Short-circuit current of the block", "", bank.KindSheet).physics(1, 50000).setup()
	sheetR         = quantity[unit.Ohm]("resistance-max", Before, "Internal resistance, at most", "", bank.KindSheet).physics(1e-4, 0.5).in("mOhm").setup()
	sheetFuseMax   = quantity[unit.Ampere]("fuse-max", Before, "Largest fuse the maker allows", "", bank.KindSheet).physics(1, 5000).setup()
	sheetSeries    = quantity[unit.Count]("series-max", Before, "Blocks in series, at most", "", bank.KindSheet).physics(1, 16).setup()
	sheetParallel  = quantity[unit.Count]("parallel-max", Before, "Blocks in parallel, at most", "", bank.KindSheet).physics(1, 16).setup()
	sheetColdest   = quantity[unit.Celsius]("charge-temp-min", Before, "Lowest temperature for charging", "", bank.KindSheet).physics(-40, 40).setup()
	sheetHottest   = quantity[unit.Celsius]("charge-temp-max", Before, "Highest temperature for charging", "", bank.KindSheet).physics(0, 80).setup()
	sheetTorqueMin = quantity[unit.NewtonMetre]("torque-min", Before, "Torque from", "", bank.KindSheet).physics(0.5, 60).setup()
	sheetTorqueMax = quantity[unit.NewtonMetre]("torque-max", Before, "Torque to", "", bank.KindSheet).physics(0.5, 60).setup()
	sheetTorque    = quantity[unit.NewtonMetre]("torque-nominal", Before, "Torque, when one figure is given", "", bank.KindSheet).physics(0.5, 60).setup()

	chargerRating  = quantity[unit.Ampere]("current-max", Before, "Rated current", "", bank.KindCharger).physics(0.1, 2000).setup()
	inverterPower  = quantity[unit.Watt]("power", Before, "Rated power", "", bank.KindInverter).physics(1, 200000).setup()
	inverterCutoff = quantity[unit.Volt]("cut-off", Before, "Low-voltage cut-off", "", bank.KindInverter).physics(1, 300).setup()
	inverterOwn    = choice("precharges-itself", Before, "Its manual says that it precharges itself", "Enter the page too.", yesNo, bank.KindInverter).setup()

	cableSize     = text("size", Before, "Size", "Such as 35 mm2, 2/0 AWG.", bank.KindCable)
	cableStandard = text("standard", Before, "Standard printed on the jacket", "Such as IEC 60228, ASTM B258, SAE.", bank.KindCable)
	cableRating   = quantity[unit.Celsius]("insulation", Before, "Temperature rating of the insulation", "Printed on the jacket.", bank.KindCable).physics(50, 250).setup()
	cableTerminal = quantity[unit.Celsius]("terminal", Before, "Temperature rating of the terminals", "", bank.KindCable, bank.KindBank).physics(50, 120).setup()
	partCable     = text("cable", Before, "Cable", "", bank.KindLink, bank.KindLead)
	partLength    = quantity[unit.Metre]("length", Before, "Length of the conductor", "", bank.KindLink, bank.KindLead).physics(0.02, 100).setup()
	engineSpace   = choice("engine-space", Before, "Runs through an engine space", "Hot air: less current is allowed.", yesNo, bank.KindLink, bank.KindLead).setup()
	cableByMaker  = quantity[unit.Ampere]("maker-current", Before, "Current that a manual allows it", "Only where a manual of the block or the inverter names size, length and insulation. Enter the page too.", bank.KindLink, bank.KindLead).physics(1, 5000).setup()
	linkR         = quantity[unit.Ohm]("lug-to-lug", Wire, "Resistance, lug to lug", "Millivolts over amperes.", bank.KindLink, bank.KindLead).physics(1e-6, 0.1).in("mOhm").setup()

	fuseRating   = quantity[unit.Ampere]("rating", Before, "Fuse rating", "", bank.KindFuse).physics(0.1, 6000).setup()
	fuseVoltage  = quantity[unit.Volt]("voltage", Before, "DC voltage rating", "", bank.KindFuse).physics(1, 2000).setup()
	fuseBreaking = quantity[unit.Ampere]("breaking", Before, "Breaking capacity at that voltage", "On the fuse or its data sheet.", bank.KindFuse).physics(10, 500000).setup()
	fuseCopper   = quantity[unit.Ohm]("copper-before", Before, "Resistance between the posts and this fuse", "Optional, cold: only what a short right behind the fuse goes through.", bank.KindFuse).physics(1e-6, 0.1).in("mOhm").setup()

	meterMeasures = text("measures", Before, "Measures", "", bank.KindMeter, bank.KindWrench).oneOf(options("measures", "V", "Volts", "A", "Amperes", "C", "Temperature", "Ohm", "Resistance, insulation", "kg", "Mass", "m", "Length", "N.m", "Torque"))
	meterPercent  = quantity[unit.Percent]("percent", Before, "Accuracy, percent of the reading", "", bank.KindMeter, bank.KindWrench).physics(0, 20).setup()
	meterCounts   = quantity[unit.Count]("counts", Before, "Accuracy, counts of the last digit", "", bank.KindMeter).physics(0, 100).setup()
	meterDue      = moment("due", Before, "Calibration due", "", bank.KindMeter, bank.KindWrench).setup()
	meterStep     = text("step", Before, "Smallest step shown", "With its unit, such as 0.001 V.", bank.KindMeter)
	meterRange    = text("range", Before, "Top of the range", "With its unit, such as 60 V.", bank.KindMeter)
	wrenchTop     = quantity[unit.NewtonMetre]("max", Before, "Largest torque of the wrench", "", bank.KindWrench).physics(0.5, 1000).setup()
	wrenchClicks  = quantity[unit.Count]("clicks", Before, "Clicks since its calibration", "Optional.", bank.KindWrench).physics(0, 1e6).setup()

	useVolts   = text("use-volts", Before, "Voltmeter of this job", "", bank.KindBank)
	useMilli   = text("use-millivolts", Before, "Meter or range of this job for millivolts", "", bank.KindBank)
	useAmperes = text("use-amperes", Before, "Ammeter or clamp of this job", "", bank.KindBank)
	useSmall   = text("use-milliamperes", Before, "Meter or range of this job for milliamperes", "", bank.KindBank)
	useCelsius = text("use-celsius", Before, "Thermometer of this job", "", bank.KindBank)
	useTorque  = text("use-torque", Before, "Torque wrench of this job", "", bank.KindBank)

	useInsulation = text("use-insulation", Before, "Insulation tester of this job", "", bank.KindBank)
	useOhms       = text("use-ohms", Before, "Ohmmeter of this job", "", bank.KindBank)
	useMilliohms  = text("use-milliohms", Before, "Meter or range of this job for milliohms", "", bank.KindBank)
	useKilograms  = text("use-kilograms", Before, "Scale of this job", "", bank.KindBank)
	useMetres     = text("use-metres", Before, "Rule or tape of this job", "", bank.KindBank)
)

package checks

import (
	"lugmark/core/bank"
	"lugmark/core/unit"
)

// What is entered about the plan: ratings, chargers and inverters, the shelf,
// the lift and the place.
var (
	licensedPerson = personal("licensed-person", Before, "Licensed person on site", "Only for banks above 60 V: name and licence.", bank.KindBank)
	ratedVoltage   = quantity[unit.Volt]("rated-voltage", Before, "Voltage that it is rated for, DC", "Printed at the inputs or on the label.", bank.KindMeter, bank.KindSwitch).physics(1, 5000).setup()
	gloveVoltage   = quantity[unit.Volt]("glove-voltage", Before, "Voltage rating of the gloves, DC", "Printed on the cuff.", bank.KindBank).physics(1, 60000).setup()

	chargerLowest  = quantity[unit.Volt]("voltage-min", Before, "Lowest absorption voltage that can be set", "", bank.KindCharger).physics(1, 300).setup()
	chargerHighest = quantity[unit.Volt]("voltage-max", Before, "Highest absorption voltage that can be set", "", bank.KindCharger).physics(1, 300).setup()
	inverterLowest = quantity[unit.Volt]("dc-min", Before, "DC window from", "The lowest battery voltage in its manual.", bank.KindInverter).physics(1, 300).setup()
	inverterMost   = quantity[unit.Volt]("dc-max", Before, "DC window to", "The highest battery voltage in its manual.", bank.KindInverter).physics(1, 300).setup()
	inverterRipple = quantity[unit.Percent]("ripple", Before, "Ripple of its direct current, peak over mean", "Optional, from its manual. 100 % is assumed.", bank.KindInverter).physics(0, 200).setup()
	alternator     = choice("alternator", Before, "Alternator that charges this bank", "Of a boat's or vehicle's engine, or of a generator set.",
		options("alternator", "none", "None", "limited", "Through a limiter or a DC-DC charger", "direct", "Straight to the bank", "unknown", "Not known"), bank.KindBank).setup()

	standsOn    = choice("stands-on", Before, "What the bank stands on", "", options("stands-on", "floor", "The floor", "shelf", "A shelf or a tray"), bank.KindBank).setup()
	shelfLength = quantity[unit.Metre]("shelf-length", Before, "Length of the shelf, along a row", "Between the inner edges.", bank.KindBank).physics(0.05, 20).in("mm").setup()
	shelfDepth  = quantity[unit.Metre]("shelf-depth", Before, "Depth of the shelf", "From front to back, between the inner edges.", bank.KindBank).physics(0.05, 20).in("mm").setup()
	shelfRating = quantity[unit.Kilogram]("shelf-rating", Before, "What the shelf may carry", "As marked by whoever made it.", bank.KindBank).physics(1, 100000).setup()
	shelfRow    = quantity[unit.Count]("shelf-row", Before, "Blocks in one row", "All in one row when left open.", bank.KindBank).physics(1, 256).setup()
	blockGap    = quantity[unit.Metre]("block-gap", Before, "Gap between two blocks", "As the maker asks; 15 mm when left open.", bank.KindBank).physics(0, 1).in("mm").setup()
	sheetMass   = quantity[unit.Kilogram]("mass", Before, "Mass of a block", "", bank.KindSheet).physics(1, 100).worded("mass-of-sheet").setup()
	sheetLength = quantity[unit.Metre]("block-length", Before, "Length of a block", "", bank.KindSheet).physics(0.05, 2).in("mm").worded("block-length-of-sheet").setup()
	sheetWidth  = quantity[unit.Metre]("block-width", Before, "Width of a block", "", bank.KindSheet).physics(0.05, 2).in("mm").worded("block-width-of-sheet").setup()
	sheetHeight = quantity[unit.Metre]("block-height", Before, "Height of a block", "With its posts, where the sheet says so.", bank.KindSheet).physics(0.05, 2).in("mm").worded("block-height-of-sheet").setup()

	liftHoist   = choice("lift-hoist", Before, "A hoist or lift table does the lifting", "", yesNo, bank.KindBank).setup()
	liftReach   = quantity[unit.Metre]("lift-reach", Before, "Hands in front of the ankles", "The farthest, at either end of the lift.", bank.KindBank).physics(0.1, 2).in("cm").setup()
	liftHeight  = quantity[unit.Metre]("lift-height", Before, "Height of the hands above the floor", "At the worse end of the lift: farthest from 75 cm.", bank.KindBank).physics(0, 3).in("cm").setup()
	liftTravel  = quantity[unit.Metre]("lift-travel", Before, "How far up or down the block is moved", "", bank.KindBank).physics(0, 3).in("cm").setup()
	liftTwist   = quantity[unit.Count]("lift-twist", Before, "How far the body turns, in degrees", "Straight ahead when left open.", bank.KindBank).physics(0, 180).setup()
	liftGrip    = choice("lift-grip", Before, "Grip", "Poor when left open.", options("lift-grip", "good", "Handles", "fair", "Edges or straps", "poor", "Smooth sides"), bank.KindBank).setup()
	liftRate    = quantity[unit.Count]("lift-rate", Before, "Lifts in a minute", "For not more than an hour; one in five minutes or fewer when left open.", bank.KindBank).physics(0, 20).setup()
	liftPersons = quantity[unit.Count]("lift-persons", Before, "Persons who lift together", "One when left open.", bank.KindBank).physics(1, 3).setup()

	siteAltitude = quantity[unit.Metre]("altitude", Before, "Height above the sea", "", bank.KindSite).physics(-450, 6000).setup()
	siteColdest  = quantity[unit.Celsius]("ambient-min", Before, "Coldest air at the blocks", "In winter.", bank.KindSite).physics(-60, 60).setup()
	siteFuel     = choice("fuel-space", Before, "Petrol or gas can collect there", "Fuel tank, petrol engine, gas locker.", yesNo, bank.KindSite).setup()
	sparkProof   = choice("spark-proof", Before, "Every part there is marked ignition-protected", "Only for a petrol or gas space.", yesNo, bank.KindSite).setup()
	sheetAir     = quantity[unit.Celsius]("air-max", Before, "Hottest air that the maker allows", "", bank.KindSheet).physics(20, 90).setup()

	sheetPeak     = quantity[unit.Ampere]("discharge-peak", Before, "Peak discharge current", "Optional, with its time.", bank.KindSheet).physics(0.1, 5000).setup()
	sheetPeakTime = quantity[unit.Second]("peak-time", Before, "How long that peak may last", "", bank.KindSheet).physics(0.001, 3600).setup()
	shedTime      = quantity[unit.Second]("shed-time", Before, "How long until loads are shed when one is lost", "Optional: by an alarm and a person, or by the inverter.", bank.KindBank).physics(0, 3600).setup()
)

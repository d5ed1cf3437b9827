package checks

import (
	"lugmark/core/bank"
	"lugmark/core/unit"
)

// What is looked at on arrival, how a parallel rest went, and what is looked
// at and measured on the wired bank.
var (
	condition = choice("condition", Receive, "Look of the block", "Look at all sides, smell, listen, feel.",
		options("condition", "whole", "Whole", "dent", "Dented", "wet", "Wet", "swollen", "Swollen", "leak", "Leaks", "smell", "Smells", "hiss", "Hisses", "hot", "Hot"), bank.KindBlock).round()
	swelling     = quantity[unit.Percent]("swelling", Receive, "Swelling, percent of the thickness", "Only where a side is not flat: middle against edge.", bank.KindBlock).physics(0, 100)
	arrivalPhoto = choice("arrival-photo", Receive, "Photo taken of the blocks on arrival", "", yesNo, bank.KindBank)

	wakeMethod  = choice("wake-method", Receive, "Woken by the maker's method", "As the manual says; outdoors and watched.", yesNo, bank.KindBlock)
	wokenVolts  = quantity[unit.Volt]("woken-voltage", Receive, "Voltage one minute after the charger is off", "", bank.KindBlock).physics(-20, 20)
	wakeCurrent = quantity[unit.Ampere]("wake-current", Receive, "Largest current while waking", "", bank.KindBlock).physics(0, 500)
	wakeTime    = quantity[unit.Second]("wake-time", Receive, "How long the waking took", "", bank.KindBlock).physics(0, 1e5).in("min")
	wakeWarm    = choice("wake-warm", Receive, "It grew warm while waking", "", yesNo, bank.KindBlock)
	sleptAgain  = choice("slept-again", Receive, "It went to sleep again", "", yesNo, bank.KindBlock)
	lowestCell  = quantity[unit.Volt]("lowest-inside", Receive, "Lowest cell voltage that its display shows", "Optional.", bank.KindBlock).physics(-1, 5)

	supplierCharge = moment("last-charge", Receive, "Last charge by the supplier", "Optional, from the supplier's papers.", bank.KindBlock)
	blockMass      = quantity[unit.Kilogram]("mass", Receive, "Mass, weighed", "", bank.KindBlock).physics(1, 100).round(2, "")
	blockLength    = quantity[unit.Metre]("block-length", Receive, "Length, measured", "One block of each kind is enough.", bank.KindBlock).physics(0.05, 2).in("mm")
	blockWidth     = quantity[unit.Metre]("block-width", Receive, "Width, measured", "", bank.KindBlock).physics(0.05, 2).in("mm")
	blockHeight    = quantity[unit.Metre]("block-height", Receive, "Height, measured", "", bank.KindBlock).physics(0.05, 2).in("mm")

	restJoined  = moment("joined", Match, "Joined in parallel at", "When the last link or lead went on.", bank.KindRest)
	restCurrent = quantity[unit.Ampere]("rest-current", Match, "Largest current in any lead, at the end", "Before anything is opened.", bank.KindRest).physics(-2000, 2000)
	restOpened  = moment("opened", Match, "Opened again at", "When the first link or lead came off.", bank.KindRest)

	unfused     = quantity[unit.Metre]("unfused-length", Wire, "Cable without a fuse, from the post to this fuse", "Along the cable.", bank.KindFuse).physics(0, 50).in("cm")
	fuseSheath  = choice("sheathed", Wire, "That cable runs in a sheath or conduit", "", yesNo, bank.KindFuse)
	fuseAtPost  = choice("at-post", Wire, "That cable begins at a post of a block", "Not at a bus bar or a switch.", yesNo, bank.KindFuse)
	fuseClears  = choice("clears", Wire, "By its curve it opens at the lowest short circuit", "Only where the app cannot tell: read the curve at the current shown, within 5 s.", yesNo, bank.KindFuse)
	lugStacks   = choice("lug-stacks", Wire, "At every post: lug on the pad, no washer between, largest lug first", "", yesNo, bank.KindBank)
	lugCount    = quantity[unit.Count]("lugs-most", Wire, "Most lugs on one post", "", bank.KindBank).physics(1, 12)
	lugThread   = choice("lug-thread", Wire, "Every bolt holds one diameter of thread and does not touch the ground of its hole", "", yesNo, bank.KindBank)
	lugPhoto    = choice("lug-photo", Wire, "Photo taken of every post", "", yesNo, bank.KindBank)
	insulation  = quantity[unit.Ohm]("cable-insulation", Wire, "Insulation of the cables to the frame", "Cables alone, both ends off. Never across a block.", bank.KindBank).physics(0, 1e13).in("MOhm")
	insulVolts  = quantity[unit.Volt]("insulation-volts", Wire, "Test voltage", "", bank.KindBank).physics(1, 5000)
	insulFree   = choice("insulation-free", Wire, "Both ends of the cables were off and joined together", "", yesNo, bank.KindBank)
	insulProved = choice("insulation-proved", Wire, "The tester was proved before and after", "On a known resistor, and with its leads touched together.", yesNo, bank.KindBank)
	insulTop    = choice("insulation-over", Wire, "It showed over-range; the top of its range is entered", "", yesNo, bank.KindBank)

	bondPlan   = choice("bond-plan", Wire, "Which pole is bonded to the frame", "As planned.", options("bond-plan", "none", "None, floating", "minus", "Minus", "plus", "Plus"), bank.KindBank).setup()
	strayPlus  = quantity[unit.Volt]("stray-plus", Wire, "From the plus lead to the frame", "Bank open to loads and chargers.", bank.KindBank).physics(-300, 300)
	strayMinus = quantity[unit.Volt]("stray-minus", Wire, "From the minus lead to the frame", "", bank.KindBank).physics(-300, 300)
	strayMeter = quantity[unit.Ohm]("stray-meter", Wire, "Input resistance of the voltmeter", "10 MΩ when left open.", bank.KindBank).physics(1e3, 1e12).in("MOhm").setup()
	bondOhm    = quantity[unit.Ohm]("bond-resistance", Wire, "Resistance of the bond, pole to frame", "", bank.KindBank).physics(0, 1e6)
	bondPlaces = quantity[unit.Count]("bond-places", Wire, "Places where a pole is bonded to the frame", "Count chargers and inverters that bond inside.", bank.KindBank).physics(0, 100)
)

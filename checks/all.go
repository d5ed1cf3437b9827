package checks

// All lists every check in the order on site. The order is knowledge of the
// trade and stands here once; forms, drawing, sheet and exports range over it.
var All = []*Check{
	hazardsReadCheck,
	planSeries,
	planParallel,
	sameBuild,
	arrivalVoltageCheck,
	rested,
	sameTemp,
	voltageMatch,
	gapVoltageCheck,
	chargedFull,
	joinCurrent,
	joinCold,
	linksClearCheck,
	share,
	cableTerminalCheck,
	fuseSize,
	faultBreak,
	torque,
	polaritySteps,
	bankTotal,
	precharge,
	chargerSettings,
	coldGate,
	chargeRate,
	chargeDone,
	topSpread,
	capacity,
	jointResistance,
}

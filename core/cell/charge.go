package cell

import "lugmark/core/unit"

// Charging is allowed strictly above ChargeAbove and up to ChargeUpTo where the
// sheet names no other temperatures.
const (
	ChargeAbove unit.Celsius = 0
	ChargeUpTo  unit.Celsius = 45
)

// FullRate is the charge current between 15 and 45 °C, in multiples of the
// rated capacity per hour.
const FullRate unit.Ratio = 0.5

// ChargeRate is the highest charge current of a block whose sheet names none,
// in multiples of its rated capacity per hour: 0.2 is 20 A for 100 Ah, 0 is no
// charge at all. The coldest part of a block limits it from below, the hottest
// from above, each by the stricter of two makers' tables; a temperature on a
// border takes the lower rate. See cite.ChargeByTemperature.
//
// coldest and hottest are the sensors less and plus their uncertainty. False
// when one is not a number or they are the wrong way round: an unknown
// temperature allows nothing.
func ChargeRate(coldest, hottest unit.Celsius) (unit.Ratio, bool) {
	if !known(coldest) || !known(hottest) || coldest > hottest {
		return 0, false
	}
	return min(coldRate(coldest), hotRate(hottest)), true
}

func coldRate(coldest unit.Celsius) unit.Ratio {
	switch {
	case coldest <= ChargeAbove:
		return 0
	case coldest <= 10:
		return 0.1
	case coldest <= 15:
		return 0.2
	}
	return FullRate
}

func hotRate(hottest unit.Celsius) unit.Ratio {
	switch {
	case hottest > 55:
		return 0
	case hottest >= 50:
		return 0.1
	case hottest >= ChargeUpTo:
		return 0.2
	}
	return FullRate
}

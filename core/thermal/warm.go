package thermal

import (
	"math"

	"lugmark/core/measure"
	"lugmark/core/unit"
)

type (
	// PerKilogram is heat capacity by mass [J/(kg·K)].
	PerKilogram float64
	// PerKelvin is heat that a body loses for each kelvin above the air [W/K].
	PerKelvin float64
)

// Body is one block as a lump: it warms all over at the same time, which it
// does not really do. A sensor near the heater is warm earlier, the far cells
// later.
//
//	m·c·dT/dt = P − UA·(T − T_air)
type Body struct {
	Mass unit.Kilogram
	Heat PerKilogram
	Loss PerKelvin
}

// WarmUp is how long a heater takes from one temperature to another [s]:
//
//	T_inf = T_air + P/UA   τ = m·c/UA
//	t = −τ·ln((T_inf − target)/(T_inf − from))
//
// Without loss t = m·c·(target − from)/P. It is 0 for a body that is warm
// already. Reaches is false when it never gets there, or when an input is not
// known.
func (b Body) WarmUp(power unit.Watt, from, air, target unit.Celsius) (t unit.Second, reaches bool) {
	if !positive(b.Mass) || !positive(b.Heat) || !finite(b.Loss) || b.Loss < 0 || !positive(power) ||
		!finite(from) || !finite(air) || !finite(target) {
		return 0, false
	}
	if from >= target {
		return 0, true
	}
	store := float64(b.Mass) * float64(b.Heat)
	if b.Loss == 0 {
		return unit.Second(store * float64(target-from) / float64(power)), true
	}
	end := float64(air) + float64(power)/float64(b.Loss)
	if end <= float64(target) {
		return 0, false
	}
	ratio := (end - float64(target)) / (end - float64(from))
	return unit.Second(-store / float64(b.Loss) * math.Log(ratio)), true
}

// What nobody measures of a block is known this well. Our rule: the case and
// the protection dilute the heat of the cells, 800 to 1130 J/(kg·K) as
// published; losses of a 200 Ah case in still air from memory.
const (
	usualHeat    PerKilogram = 1000
	heatBand                 = 0.15
	powerBand                = 0.10
	leastLoss    PerKelvin   = 0.5
	usualLoss    PerKelvin   = 1.5
	mostLoss     PerKelvin   = 3
	releaseEarly             = 0.3 // common practice: in 0.3 of the nominal time some are released
)

// Forecast is what can be said beforehand about a warm-up. Always: even the
// worst corner of what is not known reaches the target; Ever: the best one
// does. The span runs from the shortest time seen in practice to the worst
// corner, and has an upper end only with Always.
type Forecast struct {
	Span         measure.Interval[unit.Second]
	Nominal      unit.Second
	Always, Ever bool
}

// Foresee works a warm-up out over the corners of what is not known: heat
// capacity ±15 %, power ±10 %, losses 0.5 to 3 W/K. False when an input is not
// known.
func Foresee(mass unit.Kilogram, power unit.Watt, from, air, target unit.Celsius) (f Forecast, ok bool) {
	if !positive(mass) || !positive(power) || !finite(from) || !finite(air) || !finite(target) {
		return f, false
	}
	var nominal bool
	f.Nominal, nominal = Body{mass, usualHeat, usualLoss}.WarmUp(power, from, air, target)
	best, ever := Body{mass, usualHeat * (1 - heatBand), leastLoss}.WarmUp(power*(1+powerBand), from, air, target)
	worst, always := Body{mass, usualHeat * (1 + heatBand), mostLoss}.WarmUp(power*(1-powerBand), from, air, target)
	f.Ever, f.Always = ever, always
	f.Span.Low = releaseEarly * f.Nominal
	if !nominal {
		f.Span.Low = releaseEarly * best
	}
	if always {
		f.Span.High = worst
	}
	return f, true
}

// slopeBand is how far the slope of the last ten minutes may change: our rule.
const slopeBand = 0.3

// FromSlope is the time left when a body warms by so much per second now:
//
//	t = (target − now)/slope, the slope ±30 %
//
// False for one that does not warm.
func FromSlope(now, target unit.Celsius, slope float64) (measure.Interval[unit.Second], bool) {
	if !finite(now) || !finite(target) || !positive(slope) {
		return measure.Interval[unit.Second]{}, false
	}
	t := math.Max(0, float64(target-now)) / slope
	return measure.Interval[unit.Second]{Low: unit.Second(t / (1 + slopeBand)), High: unit.Second(t / (1 - slopeBand))}, true
}

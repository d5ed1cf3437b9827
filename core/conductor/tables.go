package conductor

import (
	"lugmark/core/figure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// nec310_16 is copper at 60, 75 and 90 °C, at most three conductors that carry
// current, 30 °C around them, edition 2023 [A]; see cite.NEC310_16. Older
// editions print 20/20/25 for 14, 25/25/30 for 12, 85/100/110 for 3 and
// 110/130/150 for 1 AWG.
var nec310_16 = []struct {
	gauge            gauge
	at60, at75, at90 unit.Ampere
}{
	{14, 15, 20, 25}, {12, 20, 25, 30}, {10, 30, 35, 40}, {8, 40, 50, 55}, {6, 55, 65, 75},
	{4, 70, 85, 95}, {3, 85, 100, 115}, {2, 95, 115, 130}, {1, 110, 130, 145},
	{aught1, 125, 150, 170}, {aught2, 145, 175, 195}, {aught3, 165, 200, 225}, {aught4, 195, 230, 260},
	{250, 215, 255, 290}, {300, 240, 285, 320}, {350, 260, 310, 350}, {500, 320, 380, 430},
}

// ambient corrects for the air around the cable up to a temperature, base 30 °C;
// see cite.NEC310_15Ambient. 0 means that the column may not be used there.
var ambient = []struct {
	upTo             unit.Celsius
	at60, at75, at90 float64
}{
	{10, 1.29, 1.20, 1.15}, {15, 1.22, 1.15, 1.12}, {20, 1.15, 1.11, 1.08}, {25, 1.08, 1.05, 1.04},
	{30, 1, 1, 1}, {35, 0.91, 0.94, 0.96}, {40, 0.82, 0.88, 0.91}, {45, 0.71, 0.82, 0.87},
	{50, 0.58, 0.75, 0.82}, {55, 0.41, 0.67, 0.76}, {60, 0, 0.58, 0.71},
}

// bundle corrects for conductors that carry current side by side; see
// cite.NEC310_15Bundle.
var bundle = []struct {
	upTo   int
	factor float64
}{
	{3, 1}, {6, 0.80}, {9, 0.70}, {20, 0.50}, {30, 0.45}, {40, 0.40},
}

// bundleBeyond is the factor for more conductors than the last row of bundle.
const bundleBeyond = 0.35

// abycE11 is 105 °C insulation outside and inside an engine space [A]; see
// cite.ABYCE11.
var abycE11 = []struct {
	gauge           gauge
	outside, inside unit.Ampere
}{
	{18, 20, 17}, {16, 25, 21}, {14, 35, 30}, {12, 45, 38}, {10, 60, 51}, {8, 80, 68}, {6, 120, 102},
	{4, 160, 136}, {3, 180, 153}, {2, 210, 178}, {1, 245, 208},
	{aught1, 285, 242}, {aught2, 330, 280}, {aught3, 385, 327}, {aught4, 445, 378},
}

// iecB2 is method B2, PVC 70 °C, three loaded conductors, at 30 and 40 °C [A];
// see cite.IEC60364B2.
var iecB2 = []struct {
	area       unit.SquareMillimetre
	at30, at40 unit.Ampere
}{
	{4, 27, 23}, {6, 34, 30}, {10, 46, 40}, {16, 62, 54}, {25, 80, 70}, {35, 99, 86},
	{50, 118, 103}, {70, 149, 130}, {95, 179, 156}, {120, 206, 179},
}

// largest gives the last of n rows, in rising order, that has no more copper
// than s; false when even the first has more.
func largest(s Size, n int, area func(int) unit.SquareMillimetre) (int, bool) {
	found := -1
	for i := range n {
		if notLarger(area(i), s.Area) {
			found = i
		}
	}
	return found, found >= 0
}

func square(area unit.SquareMillimetre) say.Figure { return figure.Exact(float64(area), "mm2") }

func celsius(t unit.Celsius) say.Figure { return figure.Exact(float64(t), "C") }

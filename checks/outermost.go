package checks

import (
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// outermost keeps, of all that were read alike, the highest and the lowest: no
// other can belong to the widest pair. It keeps the order.
func outermost[T any](list []T, volts func(T) unit.Volt, alike func(T) string) []T {
	type ends struct{ low, high int }
	of := map[string]*ends{}
	for i, x := range list {
		e := of[alike(x)]
		if e == nil {
			of[alike(x)] = &ends{i, i}
			continue
		}
		if volts(x) < volts(list[e.low]) {
			e.low = i
		}
		if volts(x) >= volts(list[e.high]) { // equal ones are two all the same
			e.high = i
		}
	}
	keep := map[int]bool{}
	for _, e := range of {
		keep[e.low], keep[e.high] = true, true
	}
	var out []T
	for i, x := range list {
		if keep[i] {
			out = append(out, x)
		}
	}
	return out
}

// readAlike names what the uncertainty of a reading depends on besides its
// value.
func readAlike(v measure.Shown[unit.Volt]) string {
	key := v.Meter + "|" + string(v.Typed.Unit) + "|" + exact(v.Step, "V").Digits
	if v.Moving {
		key += "|moving"
	}
	return key + ";"
}

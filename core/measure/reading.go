package measure

import (
	"math"
	"time"

	"lugmark/core/unit"
)

// Shown is one value as a person read it off a meter: the number, the weight
// of its last digit and what the meter was doing. It is not yet a reading with
// an uncertainty; [Meter] makes it one.
type Shown[Q unit.Quantity] struct {
	Value    Q
	Step     Q   // weight of the last typed digit
	Decimals int // as typed: the same meter with the same decimals is the same range
	Typed    unit.Number
	Meter    string // id of the meter; "" when none is named
	Moving   bool   // the last digit would not stand still
	At       time.Time
	Lam      int // when in the job's own order it was kept
}

// Reading is a value and its expanded uncertainty U (k = 2, hard bounds not
// stretched). The zero Reading is a perfect zero: never use it for "missing".
type Reading[Q unit.Quantity] struct{ Value, U Q }

// Interval is what the true value may be.
func (r Reading[Q]) Interval() Interval[Q] { return Interval[Q]{r.Value - r.U, r.Value + r.U} }

// Exact is a value without uncertainty: a setting, a plate value.
func Exact[Q unit.Quantity](v Q) Reading[Q] { return Reading[Q]{Value: v} }

// Meter is what the sheet of a meter, clamp, thermometer or wrench says.
// Percent and Counts are its limits of error; zero Counts means the sheet
// gives none. Values are in the base unit of Measures.
type Meter struct {
	ID        string
	Measures  unit.Symbol
	Percent   float64 // of the reading
	Counts    float64 // of the last digit
	Step      float64 // weight of the last digit; 0: as typed
	Fixed     float64 // a further hard bound, such as the zero of a clamp
	Top       float64 // highest value it can show, 0 unknown; of a wrench: its largest torque
	OutOfDate bool    // past its due date: U doubles
	Assumed   bool    // no sheet was entered
}

// digit is the weight of the last digit that counts: the coarser of the typed
// digit and the meter's own.
func (m Meter) digit(step float64) float64 { return math.Max(step, m.Step) }

// half gives the limit of error a [base unit] of one reading y.
func (m Meter) half(y, step float64) float64 {
	a := m.Percent/100*math.Abs(y) + m.Counts*m.digit(step) + m.Fixed
	if m.Counts == 0 {
		a += m.digit(step) / 2
	}
	return a
}

// aged doubles U when the meter is past its due date.
func (m Meter) aged(u float64) float64 {
	if m.OutOfDate {
		return 2 * u
	}
	return u
}

// budget collects contributions: their squares, and the sum of their bounds.
type budget struct{ squares, bound float64 }

// hard adds a contribution known only by its limit of error a (rectangular,
// a/√3: JCGM 100, 4.3.7, clause from memory).
func (b *budget) hard(a float64) { b.squares += a * a / 3; b.bound += a }

// paired adds the difference of two equal resolutions d (triangular, d/√6).
func (b *budget) paired(d float64) { b.squares += d * d / 6; b.bound += d }

// expanded is U = min(2·u_c, B).
func (b budget) expanded() float64 { return math.Min(2*math.Sqrt(b.squares), b.bound) }

// Absolute gives one reading with the meter's whole limits of error.
// ±(0.5 % + 2 counts) at 13.30 V: 0.0665 + 0.02 = 0.0865 V.
func Absolute[Q unit.Quantity](x Shown[Q], m Meter) Reading[Q] {
	return Reading[Q]{x.Value, Q(m.aged(alone(x, m).expanded()))}
}

// alone is the budget of one reading.
func alone[Q unit.Quantity](x Shown[Q], m Meter) (b budget) {
	b.hard(m.half(float64(x.Value), float64(x.Step)))
	if x.Moving {
		b.hard(m.digit(float64(x.Step)))
	}
	return b
}

// Difference gives a − b. With one meter on one range the gain and the zero
// cancel and u² = (g·D)² + d²/6 + the movement; otherwise the two readings
// stand for themselves. Closing is the drift of a long run [same unit], found
// by reading the first block again; 0 for a short run.
func Difference[Q unit.Quantity](a, b Shown[Q], ma, mb Meter, closing Q) Reading[Q] {
	u := between(a, b, ma, mb, closing).expanded()
	if ma.OutOfDate || mb.OutOfDate {
		u *= 2
	}
	return Reading[Q]{a.Value - b.Value, Q(u)}
}

// between is the budget of a difference.
func between[Q unit.Quantity](a, b Shown[Q], ma, mb Meter, closing Q) (bud budget) {
	d := float64(a.Value - b.Value)
	if a.Meter == b.Meter && a.Decimals == b.Decimals && a.Typed.Unit == b.Typed.Unit {
		bud.hard(ma.Percent / 100 * math.Abs(d))
		bud.paired(math.Max(ma.digit(float64(a.Step)), ma.digit(float64(b.Step))))
	} else {
		bud.hard(ma.half(float64(a.Value), float64(a.Step)))
		bud.hard(mb.half(float64(b.Value), float64(b.Step)))
	}
	for _, x := range []struct {
		Shown[Q]
		m Meter
	}{{a, ma}, {b, mb}} {
		if x.Moving {
			bud.hard(x.m.digit(float64(x.Step)))
		}
	}
	if closing != 0 {
		bud.hard(math.Abs(float64(closing)))
	}
	return bud
}

// Over gives (a − b)/by and its U, such as a resistance from two drops and a
// current. Every contribution keeps its standard uncertainty, and only the
// whole is held to the sum of the bounds. NaN when by is zero.
func Over[N, D unit.Quantity](a, b Shown[N], ma, mb Meter, by Shown[D], mby Meter) (value, u float64) {
	under := float64(by.Value)
	value = float64(a.Value-b.Value) / under
	top, bottom := between(a, b, ma, mb, 0), alone(by, mby)
	per, each := math.Abs(1/under), math.Abs(value/under)
	all := budget{
		squares: top.squares*per*per + bottom.squares*each*each,
		bound:   top.bound*per + bottom.bound*each,
	}
	u = all.expanded()
	if ma.OutOfDate || mb.OutOfDate || mby.OutOfDate {
		u *= 2
	}
	return value, u
}

// Sum adds readings taken with one meter: its gain and its zero are the same
// in every one, so their limits of error add as they are, never as squares.
func Sum[Q unit.Quantity](xs []Shown[Q], meter func(string) Meter) Reading[Q] {
	var total, bound float64
	for _, x := range xs {
		total += float64(x.Value)
		m := meter(x.Meter)
		half := m.half(float64(x.Value), float64(x.Step))
		if x.Moving {
			half += m.digit(float64(x.Step))
		}
		bound += m.aged(half)
	}
	return Reading[Q]{Q(total), Q(bound)}
}

// Combine gives U of a value that depends on independent readings; each part
// is sensitivity times U of one reading, in the unit of the result.
func Combine(parts ...float64) float64 {
	var squares float64
	for _, p := range parts {
		squares += p * p
	}
	return math.Sqrt(squares)
}

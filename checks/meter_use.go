package checks

import (
	"slices"

	"lugmark/core/unit"
)

// MeterUse is one entry that names a meter of the job. One quantity may have
// several: millivolts stand on another range than volts, and what tests the
// insulation in megohms cannot read milliohms.
type MeterUse struct {
	Field    Field
	Quantity unit.Symbol   // base unit of what it reads
	Units    []unit.Symbol // typed in one of these; none: in any that no other use names
	Name     string        // in a plain file, and of its usual limits of error
}

// ID names the entry; "" for no use at all.
func (u MeterUse) ID() string {
	if u.Field.Spec == nil {
		return ""
	}
	return u.Field.ID
}

// MeterUses lists them all.
var MeterUses = []MeterUse{
	{useVolts.Field, "V", nil, "V"}, {useMilli.Field, "V", []unit.Symbol{"mV"}, "mV"},
	{useAmperes.Field, "A", nil, "A"}, {useSmall.Field, "A", []unit.Symbol{"mA"}, "mA"},
	{useCelsius.Field, "C", nil, "C"}, {useTorque.Field, "N.m", nil, "N.m"},
	{useInsulation.Field, "Ohm", []unit.Symbol{"MOhm", "kOhm"}, "MOhm"}, {useOhms.Field, "Ohm", nil, "Ohm"},
	{useMilliohms.Field, "Ohm", []unit.Symbol{"mOhm", "uOhm"}, "mOhm"},
	{useKilograms.Field, "kg", nil, "kg"}, {useMetres.Field, "m", nil, "m"},
}

// UseFor is the entry that names the meter for a figure typed in a unit; false
// where no meter is asked for. By the unit and not by the size: a reading belongs
// to the range it was typed in.
func UseFor(typed unit.Symbol) (MeterUse, bool) {
	base, known := typed.Base()
	for _, u := range MeterUses {
		if slices.Contains(u.Units, typed) {
			return u, true
		}
	}
	for _, u := range MeterUses {
		if known && u.Quantity == base && u.Units == nil {
			return u, true
		}
	}
	return MeterUse{}, false
}

// UseOfRange is the entry for a meter by the top of its range [base unit]: one
// that ends below 1 V, 1 A or 1 Ω reads the small ones, and an ohmmeter that
// reaches 1 MΩ the insulation. Our choice; a person may choose another.
func UseOfRange(quantity unit.Symbol, top float64) (MeterUse, bool) {
	typed := quantity
	switch small := map[unit.Symbol]unit.Symbol{"V": "mV", "A": "mA", "Ohm": "mOhm"}[quantity]; {
	case small != "" && top > 0 && top < 1:
		typed = small
	case quantity == "Ohm" && top >= 1e6:
		typed = "MOhm"
	}
	return UseFor(typed)
}

// notRead are numbers that no meter of the job shows: what is set or chosen on
// the spot, and what another thing's own display shows.
var notRead = []Field{
	setAbsorption.Field, foundAbsorb.Field, setFloat.Field, setCurrent.Field, plannedCharge.Field,
	joinFuse.Field, capError.Field, insulVolts.Field,
	counterOut.Field, counterIn.Field, counterZero.Field, sensorReads.Field, lowestCell.Field,
}

// Measured reports whether a number is read off a meter of the job. What holds
// until it is changed is copied from papers, unless it is read along the bank.
func Measured(f Field) bool {
	told := func(n Field) bool { return n.Spec == f.Spec }
	return f.Kind == Number && (!f.Setup || f.Round) && !slices.ContainsFunc(notRead, told)
}

package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// sheetOf gives the sheet that a block is entered under; false when none is.
func (f *Facts) sheetOf(block string) (sheet string, ok bool) {
	id, has := blockSheet.Of(f, block)
	kind, known := bank.PartKind(id)
	if !has || !known || kind != bank.KindSheet {
		return "", false
	}
	return id, true
}

// stated is what the makers' sheets say of one figure over the blocks of a
// part: the strictest value, and the first block about which no sheet says
// anything. The zero stated says nothing.
type stated[Q unit.Quantity] struct {
	Value  Q
	Sheet  string // the sheet that gives Value; "" none gives any
	Silent string // the first block for which the figure is missing; "" none
	asks   Field  // what to enter for it
	of     string // and about which part
}

// Any reports whether at least one sheet gives the figure.
func (s stated[Q]) Any() bool { return s.Sheet != "" }

// All reports whether it is given for every block.
func (s stated[Q]) All() bool { return s.Any() && s.Silent == "" }

// Missing is To do for the first entry that is not there.
func (s stated[Q]) Missing() finding.Finding { return missing(s.asks, s.of) }

// Enter names the first entry that is not there, as a next action.
func (s stated[Q]) Enter() say.Line { return enter(s.asks, s.of) }

// Base is the strictest value as a limit, with the page that gives it.
func (s stated[Q]) Base(f *Facts) base[Q] { return fromMaker(f, s.Sheet, s.Value) }

// lowest reads a figure of which the smallest binds: a highest current, a
// highest voltage, a rated capacity.
func lowest[Q unit.Quantity](f *Facts, field Quantity[Q], part string) stated[Q] {
	return strictest(f, field, part, func(a, b Q) bool { return a < b })
}

// highest reads a figure of which the largest binds: a lowest temperature.
func highest[Q unit.Quantity](f *Facts, field Quantity[Q], part string) stated[Q] {
	return strictest(f, field, part, func(a, b Q) bool { return a > b })
}

func strictest[Q unit.Quantity](f *Facts, field Quantity[Q], part string, tighter func(a, b Q) bool) stated[Q] {
	s, blocks := stated[Q]{}, f.BlocksOf(part)
	type answer struct {
		value Q
		ok    bool
	}
	read := map[string]answer{}
	for _, b := range blocks {
		sheet, ok := f.sheetOf(b)
		if !ok {
			s.silent(b, blockSheet.Field, b)
			continue
		}
		a, known := read[sheet]
		if !known {
			a.value, a.ok = field.Plain(f, sheet)
			read[sheet] = a
		}
		switch {
		case !a.ok:
			s.silent(b, field.Field, sheet)
		case !s.Any() || tighter(a.value, s.Value):
			s.Value, s.Sheet = a.value, sheet
		}
	}
	if len(blocks) == 0 {
		s.silent("bank", layoutField, "bank")
	}
	return s
}

// silent notes the first block that no sheet speaks of.
func (s *stated[Q]) silent(block string, asks Field, of string) {
	if s.Silent == "" {
		s.Silent, s.asks, s.of = block, asks, of
	}
}

// usualVmax is the highest charge voltage of a block whose sheet gives none:
// four cells of 3.65 V, common practice.
const usualVmax unit.Volt = 14.6

var sayAssumedVmax = say.Phrase{Key: "assumed.charge-voltage-max", English: "Highest charge voltage {volts} assumed for {part}; no sheet gives it."}

// vmax is the highest charge voltage of the blocks of a part, each at least as
// strict as its sheet; 14.6 V, said as assumed, where a sheet is silent.
func (f *Facts) vmax(part string) base[unit.Volt] {
	s := lowest(f, sheetVmax, part)
	if s.Any() && !s.All() && s.Value > usualVmax {
		s.Sheet = "" // the silent one counts as lower
	}
	return f.vmaxOf(s)
}

// vmaxOf is a highest charge voltage as the sheets give it. Where one is silent
// the usual figure stands for it, if it is the stricter one.
func (f *Facts) vmaxOf(s stated[unit.Volt]) base[unit.Volt] {
	if s.All() {
		return s.Base(f)
	}
	f.assume(sayAssumedVmax.With("volts", exact(usualVmax, "V"), "part", bank.Name(s.Silent)))
	if s.Any() {
		return s.Base(f)
	}
	return base[unit.Volt]{usualVmax, finding.Practice, cite.CommonPractice.Line()}
}

// capacity is the smallest rated capacity of the blocks of a part; what is
// missing is said by the result.
func (f *Facts) capacity(part string) stated[unit.AmpereHour] { return lowest(f, sheetCapacity, part) }

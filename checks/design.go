package checks

import (
	"slices"
	"strconv"
	"strings"

	"lugmark/core/bank"
	"lugmark/core/circuit"
	"lugmark/core/conductor"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var sayAssumedDesign = say.Phrase{Key: "assumed.design-current", English: "Largest steady current {amps} assumed: {power} at {volts}, with 90 % of it reaching the load."}

const (
	// What an inverter gives on of what it takes, and the bank voltage at which
	// it still runs where its cut-off is not entered: our choice.
	usualEfficiency unit.Ratio = 0.9
	lowestOperating unit.Volt  = 12.0 // per block in series
)

// designAmps is the largest steady current of the bank: as entered, else what
// its inverters draw at their cut-off, which is then said as assumed.
func (f *Facts) designAmps() (unit.Ampere, *finding.Finding) {
	if amps, ok := designCurrent.Plain(f, "bank"); ok {
		return amps, nil
	}
	var total unit.Ampere
	for _, id := range f.entered(bank.KindInverter, "inverter") {
		power, has := inverterPower.Plain(f, id)
		if !has {
			continue
		}
		volts, cut := inverterCutoff.Plain(f, id)
		if !cut {
			volts = lowestOperating * unit.Volt(f.Layout().Series)
		}
		amps, ok := circuit.InverterCurrent(power, volts, usualEfficiency)
		if !ok {
			continue
		}
		f.assume(sayAssumedDesign.With("amps", rounded(amps, "A"), "power", exact(power, "W"), "volts", exact(volts, "V")))
		total += amps
	}
	if total == 0 {
		x := missing(designCurrent.Field, "bank")
		return 0, &x
	}
	return total, nil
}

// highestCharge is the highest charge voltage of one block, and that of the
// whole bank.
func (f *Facts) highestCharge() (block base[unit.Volt], whole unit.Volt) {
	block = remember(f, "vmax", func() base[unit.Volt] { return f.vmax("bank") })
	return block, block.Value * unit.Volt(f.Layout().Series)
}

// entered lists the parts of a numbered kind that are set up: those about which
// anything is entered, at this visit or an earlier one, in number order.
func (f *Facts) entered(kind bank.Kind, prefix string) []string {
	last, err := strconv.Atoi(strings.TrimPrefix(f.visit, "v"))
	if err != nil {
		return f.done(kind, prefix)
	}
	var visits []string
	for v := 1; v <= last; v++ {
		visits = append(visits, "v"+strconv.Itoa(v))
	}
	return f.numbered(kind, prefix, visits)
}

// done lists the parts of a numbered kind that stand for something done at
// this visit: charges, tests.
func (f *Facts) done(kind bank.Kind, prefix string) []string {
	return f.numbered(kind, prefix, []string{f.visit})
}

func (f *Facts) numbered(kind bank.Kind, prefix string, visits []string) []string {
	var out []string
	for _, visit := range visits {
		for _, k := range f.state.KeysFrom(visit, prefix) {
			if is, ok := bank.PartKind(k.Part); ok && is == kind && !slices.Contains(out, k.Part) && len(f.state.Live(k)) > 0 {
				out = append(out, k.Part)
			}
		}
	}
	number := func(id string) int { n, _ := strconv.Atoi(strings.TrimPrefix(id, prefix)); return n }
	slices.SortFunc(out, func(a, b string) int { return number(a) - number(b) })
	return out
}

// cable reads the size of the cable of a link or lead; the field and part say
// what is missing or, with the slip, what cannot be read.
func (f *Facts) cable(part string) (size conductor.Size, cable string, gap *finding.Finding) {
	cable, ok := partCable.Of(f, part)
	if !ok {
		x := missing(partCable.Field, part)
		return size, "", &x
	}
	if kind, is := bank.PartKind(cable); !is || kind != bank.KindCable {
		x := missing(partCable.Field, part)
		return size, "", &x
	}
	text, ok := cableSize.Of(f, cable)
	if !ok {
		x := missing(cableSize.Field, cable)
		return size, cable, &x
	}
	standard, _ := cableStandard.Of(f, cable)
	size, slip := conductor.Parse(text, standard)
	if slip != nil {
		x := finding.CannotTell(slip.Line, enter(cableSize.Field, cable))
		return size, cable, &x
	}
	return size, cable, nil
}

// cableOhm is the resistance of a conductor from its cable and length.
func (f *Facts) cableOhm(part string, copper unit.Celsius) (unit.Ohm, bool) {
	size, _, gap := f.cable(part)
	if gap != nil {
		return 0, false
	}
	length, ok := partLength.Plain(f, part)
	if !ok {
		return 0, false
	}
	r, _, ok := size.Resistance(length, copper)
	return r, ok
}

// rounded says a computed figure with three digits.
func rounded[Q unit.Quantity](v Q, show unit.Symbol) say.Figure {
	digits := strconv.FormatFloat(show.FromBase(float64(v)), 'g', 3, 64)
	x, _ := strconv.ParseFloat(digits, 64)
	return exact(Q(show.ToBase(x)), show)
}

// roundedUp says a computed figure with three digits, never less than it is.
func roundedUp[Q unit.Quantity](v Q, show unit.Symbol) say.Figure {
	_, up := figure.Range(float64(v), float64(v), show, 3)
	return up
}

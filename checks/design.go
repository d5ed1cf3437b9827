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

// highestCharge is what the bank can reach: the highest charge voltage of any
// block, and that of the whole bank. A charger goes by the lowest, what must
// break an arc by the highest.
func (f *Facts) highestCharge() (block base[unit.Volt], whole unit.Volt) {
	block = remember(f, "vmax", func() base[unit.Volt] {
		s := highest(f, sheetVmax, "bank")
		if s.Any() && !s.All() && s.Value < usualVmax {
			s.Sheet = "" // the silent one counts as higher
		}
		return f.vmaxOf(s)
	})
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
	size, slip := conductor.Parse(doubted(text, standard), standard)
	if slip != nil {
		x := finding.CannotTell(slip.Line, enter(cableSize.Field, cable))
		return size, cable, &x
	}
	return size, cable, nil
}

// doubted is a size as it counts when no standard that is known here stands
// beside it: people say AWG of the smaller SAE gauges too.
func doubted(size, standard string) string {
	lower := strings.ToLower(standard)
	for _, known := range []string{"awg", "b258", "60228", "sae", "j1127"} {
		if strings.Contains(lower, known) {
			return size
		}
	}
	return strings.Replace(strings.ToLower(size), "awg", "gauge", 1)
}

// copper gives the resistance of a conductor from its cable and length.
type copper func(part string) (unit.Ohm, bool)

// warmOhm is the most that a cable may have in use: at 75 °C, by the table of
// its standard.
func (f *Facts) warmOhm(part string) (unit.Ohm, bool) {
	size, length, _, ok := f.cableRun(part)
	if !ok {
		return 0, false
	}
	r, _, ok := size.Resistance(length, warmCopper)
	return r, ok
}

// coldOhm is the least that a cable may have before the first current: solid
// annealed copper of its area at 20 °C. A table of highest resistances would
// make a rush too small.
func (f *Facts) coldOhm(part string) (unit.Ohm, bool) {
	size, length, text, ok := f.cableRun(part)
	if !ok {
		return 0, false
	}
	area := size.Area
	if size.Standard == conductor.Unstated { // as a gauge it may have the copper of AWG
		if full, slip := conductor.Parse(text, "AWG"); slip == nil {
			area = max(area, full.Area)
		}
	}
	return conductor.Copper(area, length, coldCopper)
}

// cableRun reads the size and the length of a conductor, and the size as typed.
func (f *Facts) cableRun(part string) (size conductor.Size, length unit.Metre, typed string, ok bool) {
	size, cable, gap := f.cable(part)
	if gap != nil {
		return size, 0, "", false
	}
	typed, _ = cableSize.Of(f, cable)
	length, ok = partLength.Plain(f, part)
	return size, length, typed, ok
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

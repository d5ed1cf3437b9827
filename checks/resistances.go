package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cell"
	"lugmark/core/conductor"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	sayAssumedBlockR = say.Phrase{Key: "assumed.block-resistance", English: "Block resistances were not all measured: worked out for good blocks ({low}) and for poor ones ({high}), each ±25 %."}
	sayAssumedLink   = say.Phrase{Key: "assumed.link", English: "Links of {ohms} assumed where neither a resistance nor cable and length is entered."}
	sayNetworkOdd    = say.Phrase{Key: "network.odd", English: "The resistances entered for blocks and links give no solution."}
	sayAssumedHot    = say.Phrase{Key: "assumed.lead-hot", English: "Resistance of the leads as measured at {was}, brought to {hot}."}
	sayAssumedCable  = say.Phrase{Key: "assumed.link-cable", English: "Resistance of links taken from cable size and length at 75 °C, plus {ohms} for both lugs."}
)

const (
	// A measured block is known to ±10 %, one taken from its capacity to ±25 %
	// about each of two values. Our choice.
	measuredBand unit.Ratio = 0.10
	assumedBand  unit.Ratio = 0.25

	// A short link of 35 mm² with its lugs. Our choice.
	usualLink unit.Ohm = 0.25e-3

	// Both lugs of a link with their joints, and the copper warm. Our choice.
	usualLugs  unit.Ohm     = 0.04e-3
	warmCopper unit.Celsius = 75
)

// bands gives the branch resistances: once where every block was measured,
// else once for good blocks and once for poor ones.
func (f *Facts) bands(branches [][]string, copper []unit.Ohm) ([]band, *finding.Finding) {
	bands := make([]band, 2)
	all := true
	for k, blocks := range branches {
		sums := [2]struct{ likely, low, high unit.Ohm }{}
		for _, b := range blocks {
			r, gap := f.blockOhm(b)
			if gap != nil {
				return nil, gap
			}
			all = all && r.measured
			tolerance := assumedBand
			if r.measured {
				tolerance = measuredBand
			}
			for i, likely := range []unit.Ohm{r.Low, r.High} {
				sums[i].likely += likely
				sums[i].low += likely * unit.Ohm(1-tolerance)
				sums[i].high += likely * unit.Ohm(1+tolerance)
			}
		}
		for i := range bands {
			bands[i].likely = append(bands[i].likely, sums[i].likely+copper[k])
			bands[i].low = append(bands[i].low, sums[i].low+copper[k])
			bands[i].high = append(bands[i].high, sums[i].high+copper[k])
		}
	}
	if all {
		bands = bands[:1]
	}
	return bands, nil
}

// blockOhms is the resistance of a block: measured, Low and High alike, or the
// pair for which a share is worked out.
type blockOhms struct {
	measure.Interval[unit.Ohm]
	measured bool
}

func (f *Facts) blockOhm(block string) (blockOhms, *finding.Finding) {
	if r, ok := blockR.Plain(f, block); ok {
		return blockOhms{measure.Interval[unit.Ohm]{Low: r, High: r}, true}, nil
	}
	rated := f.capacity(block)
	r, ok := cell.ShareResistance(rated.Value)
	if !rated.All() || !ok {
		x := rated.Missing()
		return blockOhms{}, &x
	}
	f.assume(sayAssumedBlockR.With("low", exact(r.Low, "mOhm"), "high", exact(r.High, "mOhm")))
	return blockOhms{r, false}, nil
}

// linkOhm is the resistance of a link with its lugs and joints: measured lug
// to lug, else from its cable and length, else assumed. Further conductors of
// the link stand beside the first.
func (f *Facts) linkOhm(link string) unit.Ohm {
	r, known := f.conductorOhm(link, f.warmOhm, usualLugs)
	if !known {
		f.assume(sayAssumedLink.With("ohms", exact(usualLink, "mOhm")))
		return usualLink
	}
	return r
}

// conductorOhm is the resistance of a link or lead as entered; lugs is added
// where it comes from cable and length. False when nothing is entered.
func (f *Facts) conductorOhm(part string, of copper, lugs unit.Ohm) (unit.Ohm, bool) {
	ids := []string{part}
	if kind, is := bank.PartKind(part); is && kind == bank.KindLink {
		ids = append(ids, f.entered(bank.KindLink, part+"~")...)
	}
	var siemens float64
	known := false
	for _, id := range ids {
		r, ok := linkR.Plain(f, id)
		if !ok {
			r, ok = of(id)
			if ok && lugs > 0 {
				r += lugs
				f.assume(sayAssumedCable.With("ohms", exact(lugs, "mOhm")))
			}
		}
		if ok && r > 0 {
			siemens, known = siemens+1/float64(r), true
		}
	}
	if !known {
		return 0, false
	}
	return unit.Ohm(1 / siemens), true
}

// hotLeadOhm is the resistance of a main lead in use: from cable and length at
// 75 °C, or as it was measured, brought there from the temperature that its
// copper had.
//
//	R75 = R·(1 + α20·(75 − 20))/(1 + α20·(T − 20))  [Ω]
func (f *Facts) hotLeadOhm(lead string) (unit.Ohm, bool) {
	r, known := f.conductorOhm(lead, f.warmOhm, usualLugs)
	if measured, ok := linkR.Plain(f, lead); !ok || measured <= 0 {
		return r, known
	}
	was, ok := leadTemp.Plain(f, "bank")
	if !ok {
		was = coldCopper
	}
	f.assume(sayAssumedHot.With("was", exact(was, "C"), "hot", exact(warmCopper, "C")))
	hot, _ := conductor.Copper(1, 1, warmCopper)
	then, ok := conductor.Copper(1, 1, was)
	return r * max(1, hot/then), ok
}

// enteredLink is the link or lead to look at when resistances give no solution:
// the first one whose resistance somebody entered, else the first one drawn.
func (f *Facts) enteredLink() string {
	var ids []string
	for _, l := range f.links {
		ids = append(ids, l.ID)
	}
	ids = append(ids, "lead.p", "lead.n")
	for _, id := range ids {
		if f.holds(linkR.Field, id) {
			return id
		}
	}
	return ids[0]
}

package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/conductor"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Heat and height take from what an inverter gives and a fuse carries, and a
// space where petrol or gas can collect bears no spark.
var siteConditions = &Check{
	ID: "site-conditions", Stage: Before,
	Title:   say.Phrase{Key: "site-conditions.title", English: "Heat, height, petrol and gas"},
	Asks:    say.Phrase{Key: "site-conditions.asks", English: "Do the parts still do their work in the heat and at the height of this place?"},
	Formula: "P·(1 − 0.01·(T − 40 °C))·(1 − (h − 1000 m)/10 000 m) ≥ P_need [W]; I_n·(1 − (h − 2000 m)/20 000 m) ≥ 1.25·I_cont [A]",
	Limits:  []LimitOf{{"air", finding.Maker}, {"fuse", finding.Practice}, {"place", finding.Practice}, {"power", finding.Practice}},
	Sources: []*cite.Source{&cite.FuseAltitude, &cite.CommonPractice},
	Fields: []*Field{&siteHottest.Field, &siteAltitude.Field, &siteFuel.Field, &sparkProof.Field, &sheetAir.Field, &inverterPower.Field,
		&designCurrent.Field, &fuseRating.Field},
	Parts: onBank,
	Eval:  evalSiteConditions,
}

var (
	sayPlaceGood     = say.Phrase{Key: "site-conditions.pass", English: "At {air} and {height} the parts entered keep what is asked of them."}
	sayPlaceFuel     = say.Phrase{Key: "site-conditions.fuel", English: "Petrol or gas can collect there, and nobody stated that every part is ignition-protected. One spark of a switch or fuse is enough."}
	sayPlaceAir      = say.Phrase{Key: "site-conditions.air", English: "The air reaches {air}; the maker of {part} allows {limit}."}
	sayPlaceInverter = say.Phrase{Key: "site-conditions.inverter", English: "{part} gives {found} at {air} and {height}; {limit} is asked of it."}
	sayPlaceFuse     = say.Phrase{Key: "site-conditions.fuse", English: "At {height} {fuse} carries {found}; {limit} is asked of it."}
	sayPlaceMove     = say.Phrase{Key: "site-conditions.next", English: "Move the bank, lower the load, or use derated parts."}
	sayPlaceSpark    = say.Phrase{Key: "site-conditions.spark", English: "Move the bank out of that space, or use parts marked ignition-protected throughout."}
	sayPlaceLimit    = say.Phrase{Key: "site-conditions.limit", English: "the rating left at this heat and height, at least what is asked"}
)

const (
	// An inverter loses 1 % for each kelvin above 40 °C and 1 % for each 100 m
	// above 1000 m: read in one drive manual, an example only; its own curve wins.
	inverterFullTo unit.Celsius = 40
	inverterUpTo   unit.Metre   = 1000
	perKelvin                   = 0.01
	perMetre                    = 0.01 / 100
)

func evalSiteConditions(f *Facts, _ string) []finding.Finding {
	air, hasAir := siteHottest.Plain(f, "site")
	height, hasHeight := siteAltitude.Plain(f, "site")
	fuel, hasFuel := siteFuel.Of(f, "site")
	limit := finding.Limit{Name: "place", Kind: finding.Practice, Source: cite.Both(cite.FuseAltitude, cite.CommonPractice), Text: sayPlaceLimit.With()}
	if x := firstMissing(need{hasAir, siteHottest.Field, "site"}, need{hasHeight, siteAltitude.Field, "site"}, need{hasFuel, siteFuel.Field, "site"}); x != nil {
		return one(x.Against(limit))
	}
	said := []any{"air", exact(air, "C"), "height", exact(height, "m")}
	if fuel == "yes" && !sparkProof.Yes(f, "site") {
		return one(finding.CannotTell(sayPlaceFuel.With(said...), sayPlaceSpark.With()).Against(limit))
	}
	if s := lowest(f, sheetAir, "bank"); s.Any() && measure.AtMost(measure.Exact(air).Interval(), s.Value) != measure.Inside {
		b := s.Base(f)
		said = append(said, "part", bank.Name(s.Sheet), "limit", exact(s.Value, "C"))
		return one(finding.Fails(sayPlaceAir.With(said...), sayPlaceMove.With()).
			Value(finding.Measured(measure.Exact(air), "C", finding.Limit{})).Against(finding.AtMost("air", b.Value, b.Kind, b.Source)))
	}
	if x, weak := f.inverterThere(air, height, said); weak {
		return one(x)
	}
	if x, weak := f.fuseThere(height, said); weak {
		return one(x)
	}
	return one(finding.Passes(sayPlaceGood.With(said...)).Against(limit))
}

// inverterThere finds an inverter that gives less here than the design asks of
// it. Without a design current nothing is asked but its own rating.
func (f *Facts) inverterThere(air unit.Celsius, height unit.Metre, said []any) (finding.Finding, bool) {
	design, ok := designCurrent.Plain(f, "bank")
	if !ok || !f.HasLayout() {
		return finding.Finding{}, false
	}
	var gives, rated unit.Watt
	var first string
	left := (1 - perKelvin*max(0, float64(air-inverterFullTo))) * (1 - perMetre*max(0, float64(height-inverterUpTo)))
	for _, id := range f.entered(bank.KindInverter, "inverter") {
		p, ok := inverterPower.Plain(f, id)
		if !ok {
			continue
		}
		if first == "" {
			first = id
		}
		rated += p
		gives += p * unit.Watt(max(0, left))
	}
	// What the design current is at the lowest bank voltage, never more than
	// the inverters are rated for: the rest goes to other loads.
	asked := min(rated, unit.Watt(float64(design)*float64(lowestOperating)*float64(f.Layout().Series)*float64(usualEfficiency)))
	if first == "" || measure.AtLeast(measure.Exact(gives).Interval(), asked) == measure.Inside {
		return finding.Finding{}, false
	}
	limit := finding.AtLeast("power", asked, finding.Practice, cite.CommonPractice.Line())
	found := finding.Measured(measure.Exact(gives), "W", limit)
	said = append(said, "part", bank.Name(first), "found", found.Text, "limit", rounded(asked, "W"))
	return finding.Fails(sayPlaceInverter.With(said...), sayPlaceMove.With()).About(first).Value(found).Against(limit), true
}

// fuseThere finds a fuse that carries less up here than it must.
func (f *Facts) fuseThere(height unit.Metre, said []any) (finding.Finding, bool) {
	if !f.HasLayout() {
		return finding.Finding{}, false
	}
	fuses, _ := fuseParts(f)
	for _, fuse := range fuses {
		rating, ok := fuseRating.Plain(f, fuse)
		if !ok {
			continue
		}
		amps, gap := f.fuseCurrent(fuse)
		if gap != nil {
			continue
		}
		asked := amps.High * unit.Ampere(conductor.Continuous)
		left := rating * unit.Ampere(conductor.AtAltitude(height))
		// A fuse too small everywhere is said by the check of its size.
		if measure.AtLeast(measure.Exact(left).Interval(), asked) == measure.Inside || rating < asked {
			continue
		}
		limit := finding.AtLeast("fuse", asked, finding.Practice, cite.FuseAltitude.Line())
		found := finding.Measured(measure.Exact(left), "A", limit)
		said = append(said, "fuse", bank.Name(fuse), "found", found.Text, "limit", rounded(asked, "A"))
		x := finding.CannotTell(sayPlaceFuse.With(said...), sayPlaceMove.With())
		if left < amps.Low*unit.Ampere(conductor.Continuous) {
			x = finding.Fails(sayPlaceFuse.With(said...), sayPlaceMove.With())
		}
		return x.About(fuse).Value(found).Against(limit), true
	}
	return finding.Finding{}, false
}

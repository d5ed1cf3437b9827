package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cell"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// What a resting voltage says of charge, both ends of it: on the flat part of
// the curve a wide span. It informs; no hold point waits for it.
var chargeLevel = &Check{
	ID: "charge-level", Stage: Match,
	Title:   say.Phrase{Key: "charge-level.title", English: "Level of charge"},
	Asks:    say.Phrase{Key: "charge-level.asks", English: "Can the blocks of one string be equally charged, as far as their voltages say?"},
	Formula: "z_lo = f_rising⁻¹((U − u − 50 mV)/4), z_hi = f_falling⁻¹((U + u + 50 mV)/4) [%]; min z_hi ≥ max z_lo",
	Limits:  []LimitOf{{"level", finding.Practice}},
	Sources: []*cite.Source{&cite.OpenOCV},
	Fields:  []*Field{&restVoltage.Field, &blockTemp.Field},
	Parts: func(f *Facts) ([]string, say.Line) {
		if f.Layout().Series == 1 {
			return nil, sayLevelAlone.With()
		}
		return []string{"bank"}, say.Line{}
	},
	Eval: evalChargeLevel,
}

var (
	sayLevelAlone = say.Phrase{Key: "charge-level.parallel", English: "No blocks stand in series, so unequal charge does not add up."}
	sayLevelFull  = say.Phrase{Key: "charge-level.pass", English: "Every block was charged to full, so all are equally charged."}
	sayLevelApart = say.Phrase{Key: "charge-level.fail", English: "By its resting voltage {a} is charged {high}, {b} {low}: not the same, whatever their past."}
	sayLevelUnk   = say.Phrase{Key: "charge-level.cant-tell", English: "By their resting voltages the blocks are charged between {found}. Any two of them may be equal or far apart."}
	sayLevelRest  = say.Phrase{Key: "charge-level.rest", English: "By its voltage {a} is charged {high}, {b} {low}, but they have not rested, so the voltages may only creep."}
	sayLevelCold  = say.Phrase{Key: "charge-level.cold", English: "{part} was read at {celsius}; the curve is known from 0 to 45 °C."}
	sayLevelOdd   = say.Phrase{Key: "charge-level.odd", English: "{part} reads {volts}, which no rested block shows."}
	sayLevelNext  = say.Phrase{Key: "charge-level.next", English: "Charge each block to full once it is warm enough; voltage cannot show equal charge here."}
	sayLevelWarm  = say.Phrase{Key: "charge-level.warm", English: "Let the blocks stand at room temperature and rest, then read again."}
	sayLevelSpan  = say.Phrase{Key: "charge-level.span", English: "{low} to {high}"}
	sayLevelLimit = say.Phrase{Key: "charge-level.limit", English: "levels that can be the same"}
)

// level is what the voltage of one block allows.
type level struct {
	block string
	z     measure.Interval[unit.Percent]
}

func (l level) line() say.Line {
	return sayLevelSpan.With("low", exact(l.z.Low, "%"), "high", exact(l.z.High, "%"))
}

func evalChargeLevel(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "level", Kind: finding.Practice, Source: cite.OpenOCV.Line(), Text: sayLevelLimit.With()}
	full := true
	for _, b := range f.Layout().Blocks() {
		full = full && f.allPass("charged-full", b)
	}
	if full {
		return one(finding.Passes(sayLevelFull.With()).Against(limit))
	}
	all := level{z: measure.Interval[unit.Percent]{Low: 100, High: 0}}
	var low, high level // that are farthest apart in one string
	for _, set := range f.seriesSets() {
		var levels []level
		for _, b := range set {
			l, gap := f.levelOf(b)
			if gap != nil {
				return one(gap.Against(limit))
			}
			levels = append(levels, l)
			all.z.Low, all.z.High = min(all.z.Low, l.z.Low), max(all.z.High, l.z.High)
		}
		for _, a := range levels {
			for _, b := range levels {
				if a.z.Low > b.z.High && (low.block == "" || a.z.Low-b.z.High > high.z.Low-low.z.High) {
					low, high = b, a
				}
			}
		}
	}
	found := finding.Found{Low: float64(all.z.Low), High: float64(all.z.High), Unit: "%", Text: all.line()}
	if low.block == "" {
		return one(finding.CannotTell(sayLevelUnk.With("found", found.Text), f.onceWarm(sayLevelNext.With(), "bank")).Value(found).Against(limit))
	}
	said := []any{"a", bank.Name(high.block), "high", high.line(), "b", bank.Name(low.block), "low", low.line()}
	x := finding.Fails(sayLevelApart.With(said...), f.onceWarm(sayLevelNext.With(), "bank"))
	if !f.passed(rested, "bank") {
		x = finding.CannotTell(sayLevelRest.With(said...), f.nextOf(rested, "bank"))
	}
	return one(x.About(low.block, high.block).Value(found).Against(limit))
}

// seriesSets gives the blocks that one current goes through: each string, or
// all blocks where groups stand in series.
func (f *Facts) seriesSets() [][]string {
	var out [][]string
	for _, s := range f.Layout().Strings() {
		out = append(out, s.Blocks)
	}
	if f.Layout().Join == bank.JoinGroups {
		out = [][]string{f.Layout().Blocks()}
	}
	return out
}

func (f *Facts) levelOf(block string) (level, *finding.Finding) {
	fail := func(x finding.Finding) (level, *finding.Finding) { return level{}, &x }
	v, ok := restVoltage.Read(f, block)
	if !ok {
		return fail(missing(restVoltage.Field, block))
	}
	t, ok := blockTemp.Of(f, block)
	if !ok {
		return fail(missing(blockTemp.Field, block))
	}
	if t.Value < cell.ColdestLevel || t.Value > cell.HottestLevel {
		return fail(finding.CannotTell(sayLevelCold.With("part", bank.Name(block), "celsius", typed(t)), sayLevelWarm.With()).About(block))
	}
	z, ok := cell.Level(v)
	if !ok {
		return fail(finding.CannotTell(sayLevelOdd.With("part", bank.Name(block), "volts", exact(v.Value, "V")), sayLevelWarm.With()).About(block))
	}
	return level{block, cell.Outward(z)}, nil
}

package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// What is lost on the way from the charger to the bank is missing at its posts.
var chargeDrop = &Check{
	ID: "charge-drop", Stage: FirstCharge,
	Title:   say.Phrase{Key: "charge-drop.title", English: "Drop in the charger leads"},
	Asks:    say.Phrase{Key: "charge-drop.asks", English: "Does what the charger holds also reach the posts?"},
	Formula: "U_charger − U_posts ≤ 0.01·Ns·14.4 V [V] at I ≥ 0.2·C/h",
	Limits:  []LimitOf{{"drop", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&leadSource.Field, &leadPosts.Field, &leadAmps.Field, &setCurrent.Field},
	Parts:   chargerParts,
	Eval:    evalChargeDrop,
}

var (
	sayDropSmall  = say.Phrase{Key: "charge-drop.pass", English: "At {amps} the leads lose {found}; the limit is {limit}."}
	sayDropLarge  = say.Phrase{Key: "charge-drop.fail", English: "At {amps} the leads lose {found}; the limit is {limit}. The blocks never see the voltage that was set."}
	sayDropUnk    = say.Phrase{Key: "charge-drop.cant-tell", English: "At {amps} the leads lose {found}, too close to the limit of {limit} for this meter."}
	sayDropLow    = say.Phrase{Key: "charge-drop.low-current", English: "At {amps} the leads lose {found}. That is not enough current to tell; {least} are asked for."}
	sayDropUphill = say.Phrase{Key: "charge-drop.uphill", English: "The charger's posts read less than the bank's, {found}, while it charges: swapped, or not read in the same minute."}
	sayDropAgain  = say.Phrase{Key: "charge-drop.again", English: "Read both again with one meter in the same minute, each in its own field."}
	sayDropMend   = say.Phrase{Key: "charge-drop.next", English: "Shorten or remake the charger lead, or use remote sensing."}
	sayDropMore   = say.Phrase{Key: "charge-drop.more", English: "Read both again while the charger gives {least} or more."}
)

const (
	// One percent of the usual absorption voltage, read at a fifth of the
	// capacity or more: our choice. A charger that never gives so much is read
	// at the most it is set to: more will never flow.
	dropPart        unit.Ratio = 0.01
	usualAbsorption unit.Volt  = 14.4
	dropRate        unit.Ratio = 0.2
)

func evalChargeDrop(f *Facts, part string) []finding.Finding {
	source, hasSource := leadSource.Of(f, part)
	posts, hasPosts := leadPosts.Of(f, part)
	amps, hasAmps := leadAmps.Read(f, part)
	if x := firstMissing(need{hasSource, leadSource.Field, part}, need{hasPosts, leadPosts.Field, part}, need{hasAmps, leadAmps.Field, part}); x != nil {
		return one(*x)
	}
	amps = size(amps)
	target, series := f.charged()
	rated, silent := f.ratedCharge(target)
	if silent.Silent != "" {
		return one(silent.Missing())
	}
	least := unit.Ampere(float64(rated) * float64(dropRate))
	if set, ok := setCurrent.Plain(f, part); ok && set > 0 {
		least = min(least, set)
	}
	limit, most, notes := upper(f, "charge-drop", "drop", base[unit.Volt]{usualAbsorption * unit.Volt(series) * unit.Volt(dropPart), finding.Practice, cite.OurRule.Line()})
	drop := difference(f, source, posts, 0)
	found := finding.Measured(drop, "V", limit)
	said := []any{"found", found.Text, "limit", exact(most, "V"), "amps", finding.Measured(amps, "A", finding.Limit{}).Text, "least", rounded(least, "A")}
	x := finding.Judge(measure.AtMost(drop.Interval(), most), finding.Words{
		Pass: sayDropSmall.With(said...), Fail: sayDropLarge.With(said...), CantTell: sayDropUnk.With(said...), Mend: sayDropMend.With(),
	})
	// Less current loses less: it can hide a fault, never make one.
	if x.Verdict() == finding.Pass && measure.AtLeast(amps.Interval(), least) == measure.Outside {
		x = finding.CannotTell(sayDropLow.With(said...), sayDropMore.With(said...))
	}
	if x.Verdict() == finding.Pass && measure.AtLeast(drop.Interval(), 0) == measure.Outside {
		x = finding.CannotTell(sayDropUphill.With(said...), sayDropAgain.With())
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

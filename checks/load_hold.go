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

// Ten minutes at the largest steady current, and every block stands.
//
// The spread allowed follows the current of one string and the usual
// resistance of its blocks.
var loadHold = &Check{
	ID: "load-hold", Stage: Prove,
	Title:   say.Phrase{Key: "load-hold.title", English: "Under full load"},
	Asks:    say.Phrase{Key: "load-hold.asks", English: "Do all blocks hold their voltage under the largest steady current?"},
	Formula: "trip = no; U − u ≥ V_cut of a block [V]; max U − min U ≤ max(0.10 V, 0.4·I·R_median) [V] within a string",
	Limits:  []LimitOf{{"spread", finding.Practice}, {"volts", finding.Maker}, {"volts", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&loadAmps.Field, &loadTime.Field, &loadTripped.Field, &loadVolts.Field, &designCurrent.Field},
	Parts:   onBank,
	Eval:    evalLoadHold,
}

var (
	sayLoadGood  = say.Phrase{Key: "load-hold.pass", English: "At {amps} nothing tripped, the lowest block stood at {low}, and within a string they lay {found} apart; the limit is {limit}."}
	sayLoadTrip  = say.Phrase{Key: "load-hold.trip", English: "Something tripped at {amps}."}
	sayLoadLow   = say.Phrase{Key: "load-hold.low", English: "{part} fell to {found}; its cut-off is {limit}."}
	sayLoadNear  = say.Phrase{Key: "load-hold.near", English: "{part} fell to {found}, too close to its cut-off of {limit}."}
	sayLoadWide  = say.Phrase{Key: "load-hold.fail", English: "At {amps} {high} and {part} lay {found} apart; the limit is {limit}."}
	sayLoadUnk   = say.Phrase{Key: "load-hold.cant-tell", English: "At {amps} {high} and {part} lay {found} apart, too close to the limit of {limit} for this meter."}
	sayLoadLight = say.Phrase{Key: "load-hold.light", English: "{amps} is less than 80 % of the {design} that the bank must carry."}
	sayLoadBrief = say.Phrase{Key: "load-hold.brief", English: "The load lasted {time}; ten minutes are asked for."}
	sayLoadSag   = say.Phrase{Key: "load-hold.next", English: "Reduce the load and find the block or joint that sags."}
	sayLoadMore  = say.Phrase{Key: "load-hold.more", English: "Repeat for ten minutes with {design}, if the fuse and the sheets allow it."}
)

const (
	// Our choice, all of them.
	loadSpread    unit.Volt   = 0.10
	loadSpreadRun             = 0.4
	loadEnough    unit.Ampere = 0.8
	loadLong      unit.Second = 600
)

func evalLoadHold(f *Facts, part string) []finding.Finding {
	amps, has := loadAmps.Read(f, part)
	tripped, known := loadTripped.Of(f, part)
	if tripped == "yes" {
		return one(finding.Fails(sayLoadTrip.With("amps", rounded(amps.Value, "A")), sayLoadSag.With()).From(cite.OurRule.Line()))
	}
	time, hasTime := loadTime.Plain(f, part)
	if x := firstMissing(need{has, loadAmps.Field, part}, need{known, loadTripped.Field, part}, need{hasTime, loadTime.Field, part}); x != nil {
		return one(*x)
	}
	lowest, gap := f.lowestUnderLoad(part)
	if gap != nil {
		return one(*gap)
	}
	wide, gap := f.spreadUnderLoad(amps.Value)
	if gap != nil {
		return one(*gap)
	}
	design, gap := f.designAmps()
	if gap != nil {
		return one(*gap)
	}
	said := []any{"amps", finding.Measured(amps, "A", finding.Limit{}).Text, "design", exact(design, "A"), "time", exact(time, "min"), "low", lowest.text}
	x := finding.Passes(sayLoadGood.With(append(said, "found", wide.found.Text, "limit", exact(wide.most, "V"))...))
	switch {
	case lowest.finding.Verdict() == finding.Fail:
		return one(lowest.finding)
	case wide.finding.Verdict() == finding.Fail:
		return one(wide.finding)
	case lowest.finding.Verdict() == finding.CantTell:
		return one(lowest.finding)
	case wide.finding.Verdict() == finding.CantTell:
		return one(wide.finding)
	case measure.AtLeast(amps.Interval(), design*loadEnough) != measure.Inside:
		x = finding.CannotTell(sayLoadLight.With(said...), sayLoadMore.With(said...))
	case time < loadLong:
		x = finding.CannotTell(sayLoadBrief.With(said...), sayLoadMore.With(said...))
	}
	return one(x.Value(wide.found).Against(wide.limit))
}

// underLoad is one half of the judgement: its finding, and what a Pass says.
type underLoad struct {
	finding finding.Finding
	found   finding.Found
	limit   finding.Limit
	most    unit.Volt
	text    say.Line
}

// lowestUnderLoad judges the block that stands closest above its cut-off.
func (f *Facts) lowestUnderLoad(part string) (out underLoad, gap *finding.Finding) {
	margin := unit.Volt(0)
	for i, b := range f.BlocksOf(part) {
		v, ok := loadVolts.Read(f, b)
		if !ok {
			x := missing(loadVolts.Field, b)
			return out, &x
		}
		cutoff := base[unit.Volt]{usualCutoff, finding.Practice, cite.CommonPractice.Line()}
		if own := highest(f, sheetCutoff, b); own.All() {
			cutoff = own.Base(f)
		}
		if left := v.Value - v.U - cutoff.Value; i > 0 && left >= margin {
			continue
		} else {
			margin = left
		}
		out.limit = finding.AtLeast("volts", cutoff.Value, cutoff.Kind, cutoff.Source)
		out.found = finding.Measured(v, "V", out.limit)
		out.text = out.found.Text
		said := []any{"part", bank.Name(b), "found", out.found.Text, "limit", exact(cutoff.Value, "V")}
		out.finding = finding.Judge(measure.AtLeast(v.Interval(), cutoff.Value), finding.Words{
			Pass: sayLoadGood.With(said...), Fail: sayLoadLow.With(said...), CantTell: sayLoadNear.With(said...), Mend: sayLoadSag.With(),
		}).Value(out.found).Against(out.limit).About(b)
	}
	return out, nil
}

// spreadUnderLoad judges the string whose blocks lie furthest apart against
// what the drop in them explains. Only blocks in series carry one current.
func (f *Facts) spreadUnderLoad(amps unit.Ampere) (out underLoad, gap *finding.Finding) {
	l := f.Layout()
	most, reach := loadSpread, unit.Volt(-1)
	if r, gap := f.usualOhm(); gap != nil {
		return out, gap
	} else {
		most = max(most, unit.Volt(loadSpreadRun*float64(amps)/float64(l.Parallel)*float64(r)))
	}
	out.most = most
	out.limit = finding.AtMost("spread", most, finding.Practice, cite.OurRule.Line())
	for _, s := range l.Strings() {
		var run []stop
		for _, b := range s.Blocks {
			v, ok := loadVolts.Of(f, b)
			if !ok {
				x := missing(loadVolts.Field, b)
				return out, &x
			}
			run = append(run, stop{b, loadVolts.Field, v})
		}
		w := worstPair(f, run, 0)
		if w.spread.Value+w.spread.U <= reach {
			continue
		}
		reach = w.spread.Value + w.spread.U
		out.found = finding.Measured(w.spread, "V", out.limit)
		if w.high.part == "" {
			continue
		}
		said := []any{"amps", rounded(amps, "A"), "high", bank.Name(w.high.part), "part", bank.Name(w.low.part), "found", out.found.Text, "limit", exact(most, "V")}
		out.finding = finding.Judge(measure.AtMost(w.spread.Interval(), most), finding.Words{
			Pass: sayLoadGood.With(said...), Fail: sayLoadWide.With(said...), CantTell: sayLoadUnk.With(said...), Mend: sayLoadSag.With(),
		}).Value(out.found).Against(out.limit).About(w.low.part, w.high.part)
	}
	return out, nil
}

// usualOhm is the middle resistance of the blocks where all were measured, else
// the least that blocks of their capacity have, so that what is not known makes
// no room.
func (f *Facts) usualOhm() (unit.Ohm, *finding.Finding) {
	var all []unit.Ohm
	for _, b := range f.Layout().Blocks() {
		r, ok := blockR.Plain(f, b)
		if !ok {
			c := f.capacity("bank")
			low, known := cell.Resistance(c.Value)
			if !c.All() || !known {
				x := c.Missing()
				return 0, &x
			}
			return low.Low, nil
		}
		all = append(all, r)
	}
	return middle(sorted(all)), nil
}

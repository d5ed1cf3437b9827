package checks

import (
	"math"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// The whole reads what its blocks add up to.
//
// One meter's gain is in every block alike, so in the sum it adds as it is.
var bankTotal = &Check{
	ID: "bank-total", Stage: Wire,
	Title:   say.Phrase{Key: "bank-total.title", English: "Total against its blocks"},
	Asks:    say.Phrase{Key: "bank-total.asks", English: "Does the whole read what its blocks add up to?"},
	Formula: "|U_total − ΣU_i| ≤ 1.5 V [V]; one block reversed reads ΣU − 2·U_k, one missing ΣU − U_k",
	Limits:  []LimitOf{{"difference", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&totalVoltage.Field, &restVoltage.Field, &stepVoltage.Field},
	Parts:   bankTotalParts,
	Eval:    evalBankTotal,
}

var (
	sayTotalGood   = say.Phrase{Key: "bank-total.pass", English: "It reads {total}; the blocks add up to {sum}. The difference of {found} is within {limit}."}
	sayTotalOff    = say.Phrase{Key: "bank-total.fail", English: "It reads {total}, but the blocks add up to {sum}. The difference of {found} is beyond {limit}."}
	sayTotalBack   = say.Phrase{Key: "bank-total.reversed", English: "It reads {total}, but the blocks add up to {sum}. That is what one block in backwards reads: {culprit}."}
	sayTotalLost   = say.Phrase{Key: "bank-total.missing", English: "It reads {total}, but the blocks add up to {sum}. That is what one missing or sleeping block reads: {culprit}."}
	sayTotalUnk    = say.Phrase{Key: "bank-total.cant-tell", English: "It reads {total}; the blocks add up to {sum}. The difference of {found} is too close to {limit} for this meter."}
	sayTotalAsleep = say.Phrase{Key: "bank-total.asleep", English: "It reads {total}, as its blocks add up to, but not {least}, which blocks that are awake and the right way round reach."}
	sayAnyOne      = say.Phrase{Key: "bank-total.any-one", English: "any one of them; the steps will tell which"}
	sayTotalFind   = say.Phrase{Key: "bank-total.find", English: "Do not close anything. Read the steps from minus to plus and find the reversed, missing or sleeping block."}
	sayTotalTurn   = say.Phrase{Key: "bank-total.turn", English: "Do not close anything. Open the links on both sides of {culprit}, look at its posts, and read the steps again."}
	sayTotalAgain  = say.Phrase{Key: "bank-total.again", English: "Read the total and the blocks again with one meter."}
	saySumOfSteps  = say.Phrase{Key: "bank-total.steps", English: "The sum was taken from the steps, not from readings at the posts of each block."}
	saySumGroups   = say.Phrase{Key: "bank-total.groups", English: "For each group the mean of its blocks was taken."}
)

// A tenth of a block: below it no block is missing, above it one may be. Our
// choice.
const widestTotal unit.Volt = 1.5

// bankTotalParts: the bank, and each string of several where strings have more
// than one block.
func bankTotalParts(f *Facts) ([]string, say.Line) {
	var parts []string
	if strs := f.Layout().Strings(); len(strs) > 1 && f.Layout().Series > 1 {
		for _, s := range strs {
			parts = append(parts, s.ID)
		}
	}
	return append(parts, "bank"), say.Line{}
}

// sumOf is what the blocks of a string, or of one path through the groups, add
// up to, and what each of them contributes.
type sumOf struct {
	total  measure.Reading[unit.Volt] // U is the plain sum of the limits of error
	owners []string
	volts  []unit.Volt
	steps  bool // from the steps
	means  bool // from the means of groups
}

func (s *sumOf) add(owner string, v measure.Reading[unit.Volt]) {
	s.total.Value += v.Value
	s.total.U += v.U
	s.owners, s.volts = append(s.owners, owner), append(s.volts, v.Value)
}

// sumUp adds up a string, or the groups for the bank: the resting voltages,
// else the size of every step. Missing is what to read first.
func (f *Facts) sumUp(part string) (sumOf, *finding.Finding) {
	rest, gap := f.sumOfRest(part)
	if gap == nil {
		return rest, nil
	}
	stairs, open := f.climb(part)
	if open != "" || len(stairs) == 0 {
		return sumOf{}, gap
	}
	s := sumOf{steps: true}
	for _, st := range stairs {
		v := st.step
		v.Value = max(v.Value, -v.Value)
		s.add(st.owner, v)
	}
	return s, nil
}

func (f *Facts) sumOfRest(part string) (sumOf, *finding.Finding) {
	rows := [][]string{}
	s := sumOf{}
	if f.Layout().Join == bank.JoinGroups {
		s.means = f.Layout().Parallel > 1
		for _, g := range f.Layout().Groups() {
			rows = append(rows, g.Blocks)
		}
	} else {
		for _, b := range f.BlocksOf(part) {
			rows = append(rows, []string{b})
		}
	}
	for i, blocks := range rows {
		var mean measure.Reading[unit.Volt]
		for _, b := range blocks {
			v, ok := restVoltage.Read(f, b)
			if !ok {
				x := missing(restVoltage.Field, b)
				return sumOf{}, &x
			}
			n := unit.Volt(len(blocks))
			mean.Value += v.Value / n
			mean.U += v.U / n
		}
		owner := blocks[0]
		if s.means {
			owner = f.Layout().Groups()[i].ID
		}
		s.add(owner, mean)
	}
	return s, nil
}

func evalBankTotal(f *Facts, part string) []finding.Finding {
	limit, most, notes := upper(f, "bank-total", "difference", base[unit.Volt]{widestTotal, finding.Practice, cite.OurRule.Line()})
	shown, ok := totalVoltage.Of(f, part)
	if !ok || f.unlinkedSince(part, shown.Lam, shown.At) {
		return one(missing(totalVoltage.Field, part).Against(limit))
	}
	total := absolute(f, shown)
	// Strings in parallel: each must fit; the one that fits worst speaks.
	paths := []string{part}
	if strs := f.Layout().Strings(); part == "bank" && len(strs) > 0 {
		paths = nil
		for _, s := range strs {
			paths = append(paths, s.ID)
		}
	}
	var worst sumOf
	var off measure.Reading[unit.Volt]
	for i, p := range paths {
		s, gap := f.sumUp(p)
		if gap != nil {
			return one(gap.Against(limit))
		}
		d := measure.Reading[unit.Volt]{Value: total.Value - s.total.Value, U: bounded(total.U, s.total.U)}
		if i == 0 || math.Abs(float64(d.Value))+float64(d.U) > math.Abs(float64(off.Value))+float64(off.U) {
			worst, off = s, d
		}
	}
	size := measure.Reading[unit.Volt]{Value: max(off.Value, -off.Value), U: off.U}
	found := finding.Measured(size, "V", limit)
	reason, culprit := worst.explain(off, most)
	said := []any{"total", typed(shown), "sum", exact(worst.total.Value, "V"), "found", found.Text, "limit", exact(most, "V"), "culprit", sayAnyOne.With()}
	next := sayTotalFind.With()
	if culprit != "" {
		said[len(said)-1] = bank.Name(culprit)
		next = sayTotalTurn.With("culprit", bank.Name(culprit))
	}
	x := finding.Judge(measure.AtMost(size.Interval(), most), finding.Words{
		Pass: sayTotalGood.With(said...), Fail: reason.With(said...), CantTell: sayTotalUnk.With(said...),
		Mend: next, Settle: sayTotalAgain.With(),
	})
	// Two wrongs agree: blocks that sleep, or probes that were turned for all.
	if least := aboveSleep * unit.Volt(f.Layout().Series); x.Verdict() == finding.Pass && measure.AtLeast(total.Interval(), least) != measure.Inside {
		x = finding.CannotTell(sayTotalAsleep.With("total", typed(shown), "least", exact(least, "V")), sayAsleepNext.With())
	}
	if x.Verdict() == finding.Fail && culprit != "" {
		x = x.About(culprit)
	}
	if worst.steps {
		notes = append(notes, saySumOfSteps.With())
	}
	if worst.means {
		notes = append(notes, saySumGroups.With())
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// explain finds out whether the difference is that of one block in backwards
// or of one that is not there. The culprit is named only when no other fits.
func (s sumOf) explain(off measure.Reading[unit.Volt], most unit.Volt) (reason say.Phrase, culprit string) {
	for _, way := range []struct {
		times  unit.Volt
		reason say.Phrase
	}{{2, sayTotalBack}, {1, sayTotalLost}} {
		fits := 0
		for k, v := range s.volts {
			if gap := off.Value + way.times*v; max(gap, -gap) <= most+off.U {
				fits++
				culprit = s.owners[k]
			}
		}
		switch {
		case fits == 1:
			return way.reason, culprit
		case fits > 1:
			return way.reason, ""
		}
	}
	return sayTotalOff, ""
}

// bounded is U = min(2·u_c, B) of independent parts known only by their limits
// of error: u of each is a/√3, B is their sum.
func bounded[Q unit.Quantity](parts ...Q) Q {
	var squares, bound float64
	for _, a := range parts {
		squares += float64(a) * float64(a) / 3
		bound += math.Abs(float64(a))
	}
	return Q(math.Min(2*math.Sqrt(squares), bound))
}

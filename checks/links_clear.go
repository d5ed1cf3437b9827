package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A series link that is left on between what is put side by side is a dead
// short once the last parallel link closes. Strings keep the series links that
// the drawing gives them; nothing else may be on.
var linksClearCheck = &Check{
	ID: "links-clear", Stage: Match,
	Title:   say.Phrase{Key: "links-clear.title", English: "Only drawn links"},
	Asks:    say.Phrase{Key: "links-clear.asks", English: "Is every link that is not in the drawing off, and is each side the right way round?"},
	Formula: "closed = no for every link that is not in the drawing; U of each side ≥ n·8 V [V]",
	Limits:  []LimitOf{{"links", finding.House}, {"polarity", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&linksClear.Field, &closed.Field, &restVoltage.Field, &totalVoltage.Field},
	Parts:   parallelPart,
	Eval:    evalLinksClear,
}

var (
	sayClear       = say.Phrase{Key: "links-clear.pass", English: "Only drawn links are on, and every side shows its voltage with the right sign."}
	sayClearShort  = say.Phrase{Key: "links-clear.short", English: "{link} is on and not in the drawing. With the parallel links closed it is a dead short of thousands of amperes."}
	sayClearOther  = say.Phrase{Key: "links-clear.undrawn", English: "{link} is on and not in the drawing. Nothing that is not drawn may be on when strings or blocks are joined."}
	sayClearNo     = say.Phrase{Key: "links-clear.refused", English: "Somebody answered that not everything that is on is drawn. A series link left on is a dead short."}
	sayClearTurned = say.Phrase{Key: "links-clear.reversed", English: "{part} reads {volts}: it is the wrong way round. Joined like this it is a dead short."}
	sayClearWeak   = say.Phrase{Key: "links-clear.weak", English: "{part} reads {volts}; below {limit} the sign proves nothing. A block in it may be reversed or asleep."}
	sayClearLimit  = say.Phrase{Key: "links-clear.limit", English: "only drawn links on, every side the right way round"}

	sayClearRemove = say.Phrase{Key: "links-clear.remove", English: "Remove every series link that is not in the drawing before joining in parallel."}
	sayClearOff    = say.Phrase{Key: "links-clear.off", English: "Take this link off, or correct the drawing."}
	sayClearTurn   = say.Phrase{Key: "links-clear.turn", English: "Find what is turned round and put it right; close nothing before that."}
	sayClearFind   = say.Phrase{Key: "links-clear.find", English: "Read it again post by post and find the reversed or sleeping block."}
)

func evalLinksClear(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "links", Kind: finding.House, Source: cite.OurRule.Line(), Text: sayClearLimit.With()}
	if x, found := f.undrawnLink(); found {
		return one(x.Against(limit))
	}
	var lack, weak *finding.Finding
	for _, p := range f.sidesByVoltage() {
		v, ok := p.of.Read(f, p.part)
		if !ok {
			if lack == nil {
				x := missing(p.of.Field, p.part)
				lack = &x
			}
			continue
		}
		least := aboveSleep * p.blocks
		at := finding.AtLeast("polarity", least, finding.Practice, cite.CommonPractice.Line())
		found := finding.Measured(v, "V", at)
		said := []any{"part", bank.Name(p.part), "volts", found.Text, "limit", exact(least, "V")}
		switch {
		case v.Value+v.U <= -aboveSleep:
			return one(finding.Fails(sayClearTurned.With(said...), sayClearTurn.With()).Value(found).Against(limit).About(p.part))
		case measure.AtLeast(v.Interval(), least) != measure.Inside && weak == nil:
			x := finding.CannotTell(sayClearWeak.With(said...), sayClearFind.With()).Value(found).Against(at).About(p.part)
			weak = &x
		}
	}
	answer, confirmed := linksClear.Of(f, "bank")
	switch {
	case confirmed && answer != "yes":
		return one(finding.Fails(sayClearNo.With(), sayClearRemove.With()).Against(limit))
	case weak != nil:
		return one(*weak)
	case lack != nil:
		return one(lack.Against(limit))
	case !confirmed:
		return one(missing(linksClear.Field, "bank").Against(limit))
	}
	return one(finding.Passes(sayClear.With()).Against(limit))
}

// undrawnLink finds a link that is entered as on and is not in the drawing; one
// that shorts a block comes first.
func (f *Facts) undrawnLink() (x finding.Finding, found bool) {
	for _, id := range f.everClosed(f.state.MaxLam()) {
		if is, said := closed.Of(f, id); said && is != "yes" || !said && !f.leftClosed(id) {
			continue
		}
		if _, drawn := f.Layout().Link(id); drawn {
			continue
		}
		if f.shorts(id) {
			return finding.Fails(sayClearShort.With("link", bank.Name(id)), sayClearRemove.With()).About(id), true
		}
		if !found {
			x, found = finding.Fails(sayClearOther.With("link", bank.Name(id)), sayClearOff.With()).About(id), true
		}
	}
	return x, found
}

// shorts reports whether a link would make a dead short with any parallel link
// of the drawing closed.
func (f *Facts) shorts(id string) bool {
	for _, l := range f.links {
		if l.Kind == bank.Parallel && f.Layout().Shorts(l.ID, id) {
			return true
		}
	}
	return false
}

// sideVolts is where the sign of one side of a parallel join is read.
type sideVolts struct {
	part   string
	of     Quantity[unit.Volt]
	blocks unit.Volt // in series
}

// sidesByVoltage lists what the parallel links put side by side: strings by
// their totals, blocks by their resting voltage, or on arrival where that was
// not read.
func (f *Facts) sidesByVoltage() (out []sideVolts) {
	l := f.Layout()
	if l.Join == bank.JoinStrings && l.Series > 1 {
		for _, s := range l.Strings() {
			out = append(out, sideVolts{s.ID, totalVoltage, unit.Volt(l.Series)})
		}
		return out
	}
	for _, b := range l.Blocks() {
		of := restVoltage
		f.quietly(func() {
			if _, rests := restVoltage.Of(f, b); rests {
				return
			}
			if _, arrived := arrivalVoltage.Of(f, b); arrived {
				of = arrivalVoltage
			}
		})
		out = append(out, sideVolts{b, of, 1})
	}
	return out
}

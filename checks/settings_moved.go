package checks

import (
	"slices"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A setting that nobody remembers changing is how a good bank is spoiled: each
// is read again and must be what it was. What was changed on purpose must still
// be one that the blocks bear.
var settingsMoved = &Check{
	ID: "settings-moved", Stage: Return, Visits: AtReturn,
	Title:   say.Phrase{Key: "settings-moved.title", English: "Settings since the last visit"},
	Asks:    say.Phrase{Key: "settings-moved.asks", English: "Is every setting of charger and inverter as the last visit left it?"},
	Formula: "setting now = setting at the last visit; where it was changed on purpose, the rule of its first day",
	Limits:  []LimitOf{{"settings", finding.House}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields: []*Field{&setAbsorption.Field, &setFloat.Field, &setCurrent.Field, &setEqualise.Field, &setTempComp.Field, &setRecover.Field,
		&cutoffSeen.Field, &changeMeant.Field},
	Parts: settingsParts,
	Eval:  evalSettingsMoved,
}

var (
	sayMovedNone  = say.Phrase{Key: "settings-moved.pass", English: "Every setting is as {visit} left it."}
	sayMovedMeant = say.Phrase{Key: "settings-moved.meant", English: "Some settings were changed on purpose, and the blocks bear them."}
	sayMovedBad   = say.Phrase{Key: "settings-moved.fail", English: "“{setting}” is {now}; {visit} left it at {was}. No note says why."}
	sayMovedNew   = say.Phrase{Key: "settings-moved.no-baseline", English: "“{setting}” is {now}; no earlier visit has entered it, so nobody knows whether it moved."}
	sayMovedPlan  = say.Phrase{Key: "settings-moved.plan", English: "The cut-off was changed to {now} on purpose, but the bank is still planned with {was}."}
	sayMovedNote  = say.Phrase{Key: "settings-moved.note", English: "“{setting}” was {was} and is {now}, on purpose."}
	sayMovedNext  = say.Phrase{Key: "settings-moved.next", English: "Restore the setting or note why it changed."}
	sayMovedAsk   = say.Phrase{Key: "settings-moved.ask", English: "Judge it by the maker's sheet; the next visit compares with what is entered now."}
	sayMovedLimit = say.Phrase{Key: "settings-moved.limit", English: "every setting as the last visit left it"}
)

// settingsParts: every charger and inverter that is entered.
func settingsParts(f *Facts) ([]string, say.Line) {
	chargers, why := chargerParts(f)
	return append(chargers, f.entered(bank.KindInverter, "inverter")...), why
}

func evalSettingsMoved(f *Facts, part string) []finding.Finding {
	limit := finding.Limit{Name: "settings", Kind: finding.House, Source: cite.OurRule.Line(), Text: sayMovedLimit.With()}
	all := f.settings(part)
	meant := changeMeant.Yes(f, part)
	said := func(s settingThen) []any {
		return []any{"setting", s.field.Label, "now", s.now, "was", s.was, "visit", s.visit}
	}
	var notes []say.Line
	var moved []settingThen
	for _, s := range all {
		if s.moved && !meant {
			return one(finding.Fails(sayMovedBad.With(said(s)...), sayMovedNext.With()).Against(limit))
		}
		if s.moved {
			moved = append(moved, s)
			notes = append(notes, sayMovedNote.With(said(s)...))
		}
	}
	for _, s := range all {
		if !s.has {
			return one(missing(s.field, part).Against(limit))
		}
	}
	for _, s := range all {
		if !s.had {
			return one(finding.CannotTell(sayMovedNew.With(said(s)...), sayMovedAsk.With()).Against(limit))
		}
	}
	if len(moved) == 0 {
		return one(finding.Passes(sayMovedNone.With("visit", all[0].visit)).Against(limit))
	}
	if x, bad := f.movedWrong(part, moved); bad {
		return one(x.Against(limit).Noting(notes...))
	}
	return one(finding.Passes(sayMovedMeant.With()).Against(limit).Noting(notes...))
}

// movedWrong judges what was changed on purpose by the rule of the first day.
func (f *Facts) movedWrong(part string, moved []settingThen) (finding.Finding, bool) {
	kind, _ := bank.PartKind(part)
	if kind == bank.KindInverter {
		s := moved[0]
		if s.stillPlan {
			return finding.CannotTell(sayMovedPlan.With("now", s.now, "was", s.was), enter(inverterCutoff.Field, part)), true
		}
		x := evalInverterCutoff(f, part)[0]
		return x, x.Verdict() != finding.Pass
	}
	for _, x := range evalChargerSettings(f, part) {
		l, _ := x.Limit()
		judged := slices.ContainsFunc(moved, func(s settingThen) bool { return s.rule == l.Name })
		if judged && x.Verdict() != finding.Pass {
			return x, true
		}
	}
	return finding.Finding{}, false
}

// settings reads every setting of a charger or an inverter, now and before.
func (f *Facts) settings(part string) []settingThen {
	if kind, _ := bank.PartKind(part); kind == bank.KindInverter {
		s := numberMoved(f, cutoffSeen, part, "cut-off", func(then *Facts) (v measure.Shown[unit.Volt], ok bool) {
			if v, ok = cutoffSeen.Of(then, part); !ok {
				v, ok = inverterCutoff.Of(then, part)
			}
			return v, ok
		})
		seen, _ := cutoffSeen.Of(f, part)
		plan, ok := inverterCutoff.Of(f, part)
		s.stillPlan = !ok || differ(float64(seen.Value), float64(plan.Value))
		return []settingThen{s}
	}
	out := []settingThen{
		numberAgain(f, setAbsorption, part, "absorption"), numberAgain(f, setFloat, part, "float"), numberAgain(f, setCurrent, part, "current"),
	}
	for _, c := range []ChoiceField{setEqualise, setTempComp, setRecover} {
		out = append(out, choiceAgain(f, c, part))
	}
	return out
}

package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
)

// A protection that opens without a word leaves a boat without a bilge pump. A
// sound or a light comes first, and somebody has tried that it does.
var alarmBeforeCutoff = &Check{
	ID: "alarm-before-cutoff", Stage: HandOver,
	Title:   say.Phrase{Key: "alarm-before-cutoff.title", English: "Alarm before cut-off"},
	Asks:    say.Phrase{Key: "alarm-before-cutoff.asks", English: "Does a sound or a light warn before the protection opens?"},
	Formula: "sound or light before the cut-off = yes",
	Limits:  []LimitOf{{"alarm", finding.Standard}},
	Sources: []*cite.Source{&cite.ABYCE13},
	Fields:  []*Field{&alarmFirst.Field},
	Parts:   onBank,
	Eval:    evalAlarmBeforeCutoff,
}

var (
	sayAlarmGood  = say.Phrase{Key: "alarm-before-cutoff.pass", English: "A sound or a light comes before the cut-off. It was tried."}
	sayAlarmNone  = say.Phrase{Key: "alarm-before-cutoff.fail", English: "Neither a sound nor a light comes before the cut-off. The power goes without a warning."}
	sayAlarmUnk   = say.Phrase{Key: "alarm-before-cutoff.cant-tell", English: "Whether a sound or a light comes before the cut-off was not tried."}
	sayAlarmNext  = say.Phrase{Key: "alarm-before-cutoff.next", English: "Show the owner the alarm and set its level."}
	sayAlarmTry   = say.Phrase{Key: "alarm-before-cutoff.try", English: "Try the alarm, show it to the owner and set its level."}
	sayAlarmLimit = say.Phrase{Key: "alarm-before-cutoff.limit", English: "a sound or a light first"}
)

func evalAlarmBeforeCutoff(f *Facts, part string) []finding.Finding {
	limit := finding.Limit{Name: "alarm", Kind: finding.Standard, Source: cite.ABYCE13.Line(), Text: sayAlarmLimit.With()}
	answer, answered := alarmFirst.Of(f, part)
	x := finding.CannotTell(sayAlarmUnk.With(), sayAlarmTry.With())
	switch {
	case !answered:
		x = missing(alarmFirst.Field, part)
	case answer == "yes":
		x = finding.Passes(sayAlarmGood.With())
	case answer == "no":
		x = finding.Fails(sayAlarmNone.With(), sayAlarmNext.With())
	}
	return one(x.Against(limit))
}

package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// SkipReasons are the short answers to why something is not measured; free
// text may stand beside them.
var SkipReasons = options("skip", "no-access", "Out of reach", "no-meter", "No meter for it here", "not-fitted", "Not fitted on this bank",
	"wait", "Must wait", "agreed", "Agreed with the owner", "other", "Another reason")

// Skips are the four ways not to measure, as the record has them.
var Skips = options("skip-kind", "not-needed", "Not needed here", "later", "Later", "cannot", "My meter can't do this", "unsafe", "Unsafe to measure")

var (
	saySkipNot    = say.Phrase{Key: "skip.not-needed", English: "“{field}” of {part} was set aside as not needed: {why}."}
	saySkipLater  = say.Phrase{Key: "skip.later", English: "“{field}” of {part} is put off: {why}."}
	saySkipCannot = say.Phrase{Key: "skip.cannot", English: "“{field}” of {part} could not be measured: {why}."}
	saySkipUnsafe = say.Phrase{Key: "skip.unsafe", English: "“{field}” of {part} was unsafe to measure. This stage stops here."}
	sayDoLater    = say.Phrase{Key: "skip.do-later", English: "Measure it when it is due."}
	sayBring      = say.Phrase{Key: "skip.bring", English: "Bring a meter that can do it, or make the place reachable."}
	sayMakeSafe   = say.Phrase{Key: "skip.make-safe", English: "Step back, make the place safe with a second person, then measure."}
)

// note remembers what a skip says about the entry that was asked for. Unsafe
// outweighs everything; otherwise the first skip met speaks.
func (f *Facts) note(v job.Value, field Field, part string) {
	if f.skipped != nil && v.Skip != "unsafe" {
		return
	}
	args := []any{"field", field.Label, "part", bank.Name(part), "why", optionLabel(SkipReasons, v.Why)}
	var x finding.Finding
	switch v.Skip {
	case "not-needed":
		x = finding.SetAside(saySkipNot.With(args...))
	case "later":
		due, dated := parseTime(v.Until)
		if dated && f.isDue(due, v.Until) {
			return // it is time: nothing stands in the way of asking again
		}
		x = finding.Waits(saySkipLater.With(args...), sayDoLater.With(), due)
	case "unsafe":
		x = finding.Fails(saySkipUnsafe.With(args...), sayMakeSafe.With())
	default:
		x = finding.CannotTell(saySkipCannot.With(args...), sayBring.With())
	}
	f.skipped = &x
}

// isDue reports whether a time to which something was put off has come; a day
// comes when it begins, in the offset of the time of judging.
func (f *Facts) isDue(due time.Time, text string) bool {
	if len(text) == len(time.DateOnly) {
		return f.now.Format(time.DateOnly) >= text
	}
	return !f.now.Before(due)
}

// optionLabel says an option by its code; an unknown code is said as it stands.
func optionLabel(list []Option, code string) say.Line {
	for _, o := range list {
		if o.Code == code {
			return o.Label.With()
		}
	}
	return say.Phrase{Key: "option.as-it-stands", English: "{code}"}.With("code", code)
}

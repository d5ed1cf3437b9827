package screen

import (
	"time"

	"lugmark/checks"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
)

// valueText says an entry as it was typed.
func (r *root) valueText(k finding.Key, v job.Value) string {
	f, _ := checks.FieldOf(k.Field, k.Part)
	switch v.Kind {
	case job.KindQuantity:
		return r.voice.Figure(say.Figure{Digits: v.Number, Unit: v.Unit})
	case job.KindChoice, job.KindText:
		text := v.Choice + v.Text // one of them is empty
		if _, names := references[f.ID]; names && f.Kind == checks.Text {
			return r.refName(text)
		}
		for _, o := range f.Options {
			if o.Code == text {
				return r.say(o.Label.With())
			}
		}
		return text
	case job.KindChoices:
		return r.tickedWords(f, v.Choices)
	case job.KindPersonal:
		return r.written(v.X)
	case job.KindTime:
		if t, err := time.Parse(time.RFC3339, v.Time); err == nil {
			return r.clock(t)
		}
		return v.Time
	case job.KindLayout:
		return r.layoutWords(v.Layout)
	case job.KindSkip:
		return r.skipText(v)
	}
	return ""
}

// written is the personal text that x names, or the word that it was erased.
func (r *root) written(x job.Ref) string {
	s, here := job.Text(r.job.blobs, x)
	if !here && x != (job.Ref{}) {
		return r.t("erased", "(erased)")
	}
	return s
}

func (r *root) skipText(v job.Value) string {
	what := ""
	for _, o := range checks.Skips {
		if o.Code == v.Skip {
			what = r.say(o.Label.With())
		}
	}
	why := ""
	for _, o := range checks.SkipReasons {
		if o.Code == v.Why {
			why = r.say(o.Label.With())
		}
	}
	return r.t("skipped", "{what}: {why}", "what", what, "why", why)
}

// entryMeta says who kept an entry, when, and with which meter.
func (r *root) entryMeta(e job.Entry) string {
	says := r.t("entry.meta", "{who}, {when}", "who", r.by(e.By), "when", r.clock(e.Moment()))
	if e.Value.Meter != "" {
		says += ", " + r.t("entry.meter", "read with {meter}", "meter", r.meterName(e.Value.Meter))
	}
	if e.Value.Moving {
		says += ", " + r.t("entry.moving", "last digit moving")
	}
	if e.Value.Odd {
		says += ", " + r.t("entry.odd", "out of the usual range")
	}
	return says
}

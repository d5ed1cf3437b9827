package checks

import (
	"math"
	"time"

	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// settingThen is one setting as it is now and as an earlier visit left it.
type settingThen struct {
	field     Field
	rule      string // the limit of charger-settings that judges it
	has, had  bool
	moved     bool
	now, was  any // what is said of them
	visit     say.Line
	stillPlan bool // the plan still has another value
}

// numberAgain reads a setting that is a number.
func numberAgain[Q unit.Quantity](f *Facts, q Quantity[Q], part, rule string) settingThen {
	return numberMoved(f, q, part, rule, func(then *Facts) (measure.Shown[Q], bool) { return q.Of(then, part) })
}

func numberMoved[Q unit.Quantity](f *Facts, q Quantity[Q], part, rule string, before func(*Facts) (measure.Shown[Q], bool)) settingThen {
	s := settingThen{field: q.Field, rule: rule, now: "", was: ""}
	now, has := q.Of(f, part)
	if has {
		s.has, s.now = true, typed(now)
	}
	all := baselines(f, before)
	if len(all) == 0 {
		return s
	}
	was := all[0].Value
	s.had, s.was, s.visit = true, typed(was), visitLine(all[0].Visit, was.At)
	s.moved = s.has && differ(float64(now.Value), float64(was.Value))
	return s
}

// differ reports whether two settings are not the same number, however many
// zeros somebody typed behind it.
func differ(a, b float64) bool { return math.Abs(a-b) > 1e-9*math.Max(1, math.Abs(b)) }

// choiceAgain reads a setting that is one of several answers.
func choiceAgain(f *Facts, c ChoiceField, part string) settingThen {
	s := settingThen{field: c.Field, rule: c.ID, now: "", was: ""}
	now, has := c.Of(f, part)
	if has {
		s.has, s.now = true, optionLabel(c.Options, now)
	}
	type answer struct {
		code string
		at   time.Time
	}
	all := baselines(f, func(then *Facts) (answer, bool) {
		e, ok := then.entry(c.Field, part)
		return answer{e.Value.Choice, entryTime(e)}, ok && e.Value.Choice != ""
	})
	if len(all) == 0 {
		return s
	}
	was := all[0].Value
	s.had, s.was, s.visit = true, optionLabel(c.Options, was.code), visitLine(all[0].Visit, was.at)
	s.moved = s.has && now != was.code
	return s
}

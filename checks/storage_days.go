package checks

import (
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// How long a bank may stand by itself before it is down to a tenth.
//
// The lowest charge level and the highest current count, never the likely ones.
var storageDays = &Check{
	ID: "storage-days", Stage: Prove,
	Title:   say.Phrase{Key: "storage-days.title", English: "Days in storage"},
	Asks:    say.Phrase{Key: "storage-days.asks", English: "Does the charge last as long as the bank will stand unused?"},
	Formula: "days = C·(z_lo − 0.10)/(24·I_hi + C·0.03/30.4) ≥ days planned [d], else 180",
	Limits:  []LimitOf{{"days", finding.Practice}},
	Sources: []*cite.Source{&cite.OurRule},
	Fields:  []*Field{&storeDays.Field, &storeLevel.Field, &ownDrawAmps.Field},
	Parts:   onBank,
	Eval:    evalStorage,
}

var (
	sayStoreNever = say.Phrase{Key: "storage-days.never", English: "This bank is never stored."}
	sayStoreLong  = say.Phrase{Key: "storage-days.pass", English: "From {level} the charge lasts {found}; planned are {limit}."}
	sayStoreShort = say.Phrase{Key: "storage-days.fail", English: "From {level} the charge lasts {found}; planned are {limit}."}
	sayStoreBlank = say.Phrase{Key: "storage-days.no-level", English: "At which charge level the storage begins is not known."}
	sayStoreNext  = say.Phrase{Key: "storage-days.next", English: "Fit an isolator or shorten the storage."}
	sayAssumedDay = say.Phrase{Key: "assumed.storage-days", English: "{days} days of storage assumed."}
	sayAssumedTop = say.Phrase{Key: "assumed.storage-level", English: "Stored from the full charge that the first charge proved, {level}."}
)

const (
	// Half a year, to a tenth of the charge; blocks lose up to 3 % a month by
	// themselves, as sheets say.
	usualStorage unit.Count   = 180
	storedTo     unit.Percent = 10
	selfMonthly               = 0.03
	daysInMonth               = 30.4

	// A bank that ended its charge by voltage and tail: above 99 % on the curve
	// of the open data.
	provedFull unit.Percent = 99
)

func evalStorage(f *Facts, part string) []finding.Finding {
	planned, ok := storeDays.Plain(f, part)
	switch {
	case ok && planned == 0:
		return one(finding.Unneeded(sayStoreNever.With()))
	case !ok:
		planned = usualStorage
		f.assume(sayAssumedDay.With("days", exact(planned, "1")))
	}
	amps, ok := ownDrawAmps.Read(f, part)
	if !ok {
		return one(missing(ownDrawAmps.Field, part))
	}
	rated, silent := f.ratedCharge(part)
	if silent.Silent != "" {
		return one(silent.Missing())
	}
	level, ok := storeLevel.Plain(f, part)
	if !ok {
		if !f.allPass("charge-done", "bank") {
			return one(finding.CannotTell(sayStoreBlank.With(), enter(storeLevel.Field, part)))
		}
		level = provedFull
		f.assume(sayAssumedTop.With("level", exact(level, "%")))
	}
	amps = size(amps)
	c := float64(rated)
	days := func(i unit.Ampere) unit.Count {
		return unit.Count(max(0, c*float64(level-storedTo)/100/(hoursInDay*max(0, float64(i))+c*selfMonthly/daysInMonth)))
	}
	span := measure.Interval[unit.Count]{Low: days(amps.Value + amps.U), High: days(amps.Value - amps.U)}
	limit := finding.AtLeast("days", planned, finding.Practice, cite.OurRule.Line())
	found := inDays(span, limit)
	said := []any{"found", found.Text, "limit", sayDaysOne.With("days", exact(planned, "1")), "level", exact(level, "%")}
	return one(finding.Judge(measure.AtLeast(span, planned), finding.Words{
		Pass: sayStoreLong.With(said...), Fail: sayStoreShort.With(said...), CantTell: sayStoreShort.With(said...), Mend: sayStoreNext.With(),
	}).Value(found).Against(limit))
}

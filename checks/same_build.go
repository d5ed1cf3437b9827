package checks

import (
	"strings"
	"time"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// Blocks of one bank should be of one build: the same model and capacity, made
// within half a year of each other, with the same firmware.
var sameBuild = &Check{
	ID: "same-build", Stage: Receive,
	Title:   say.Phrase{Key: "same-build.title", English: "Same build"},
	Asks:    say.Phrase{Key: "same-build.asks", English: "Are all blocks of one model, one capacity and one delivery?"},
	Formula: "model, C alike; max − min of the date codes ≤ 6 months; firmware alike",
	Limits:  []LimitOf{{"build", finding.Practice}},
	Sources: []*cite.Source{&cite.CommonPractice, &cite.OurRule},
	Fields:  []*Field{&blockSheet.Field, &sheetModel.Field, &sheetCapacity.Field, &blockCode.Field, &blockFirm.Field},
	Parts:   manyBlocks,
	Eval:    evalSameBuild,
}

var (
	sayBuildAlike  = say.Phrase{Key: "same-build.pass", English: "All blocks are {model}, {capacity}, firmware {firmware}, with date codes from {first} to {last}; the limit is 6 months apart."}
	sayModelOdd    = say.Phrase{Key: "same-build.fail-model", English: "{a} is {model}, {b} is {other}. Blocks of two models share neither charge nor current alike."}
	sayCapacityOdd = say.Phrase{Key: "same-build.fail-capacity", English: "{a} is rated {capacity}, {b} {other}. The smaller is empty and full before the larger."}
	sayFirmOdd     = say.Phrase{Key: "same-build.firmware", English: "{a} has firmware {firmware}, {b} {other}. Their protections may open at other values."}
	sayCodesApart  = say.Phrase{Key: "same-build.apart", English: "{a} has date code {code}, {b} {other}: more than 6 months apart. They may have aged differently."}
	sayCodeUnread  = say.Phrase{Key: "same-build.code", English: "The date code {code} of {a} differs from the others and cannot be read as a month."}
	saySwapOdd     = say.Phrase{Key: "same-build.next", English: "Swap the odd block for one of the same delivery."}
	sayAskMaker    = say.Phrase{Key: "same-build.ask", English: "Ask the maker whether these may stand in one bank, or swap the odd block for one of the same delivery."}
	sayCodeAsMonth = say.Phrase{Key: "same-build.as-month", English: "Enter the date codes as year and month, such as 2026-05."}
	sayBuildAlone  = say.Phrase{Key: "same-build.one-block", English: "One block alone has no other to be like."}
	sayBuildLimit  = say.Phrase{Key: "same-build.limit", English: "one model, one capacity, one firmware, date codes within 6 months"}
)

// Date codes this far apart still count as one delivery: our choice.
const deliveryMonths = 6

// manyBlocks: the bank, unless it is one block.
func manyBlocks(f *Facts) ([]string, say.Line) {
	if len(f.Layout().Blocks()) < 2 {
		return nil, sayBuildAlone.With()
	}
	return []string{"bank"}, say.Line{}
}

// label is what one block says of itself.
type label struct {
	block    string
	model    string
	capacity measure.Shown[unit.AmpereHour]
	code     string
	firmware string
}

func evalSameBuild(f *Facts, _ string) []finding.Finding {
	limit := finding.Limit{Name: "build", Kind: finding.Practice, Source: cite.CommonPractice.Line(), Text: sayBuildLimit.With()}
	var first *finding.Finding // what is missing
	lack := func(field Field, part string) {
		if first == nil {
			x := missing(field, part)
			first = &x
		}
	}
	var labels []label
	for _, b := range f.Layout().Blocks() {
		l := label{block: b}
		sheet, ok := f.sheetOf(b)
		if !ok {
			lack(blockSheet.Field, b)
		} else {
			if l.model, ok = sheetModel.Of(f, sheet); !ok {
				lack(sheetModel.Field, sheet)
			}
			if l.capacity, ok = sheetCapacity.Of(f, sheet); !ok {
				lack(sheetCapacity.Field, sheet)
			}
		}
		if l.code, ok = blockCode.Of(f, b); !ok {
			lack(blockCode.Field, b)
		}
		if l.firmware, ok = blockFirm.Of(f, b); !ok {
			lack(blockFirm.Field, b)
		}
		labels = append(labels, l)
	}
	if odd, x := wrongBuild(labels); odd {
		return one(x.Against(limit))
	}
	if first != nil {
		return one(first.Against(limit))
	}
	return one(oneDelivery(labels).Against(limit))
}

// wrongBuild finds a block of another model or capacity; what is not entered
// is not compared.
func wrongBuild(labels []label) (bool, finding.Finding) {
	if a, b, odd := oddOne(labels, func(l label) string { return plainText(l.model) }); odd {
		x := finding.Fails(sayModelOdd.With("a", bank.Name(a.block), "model", a.model, "b", bank.Name(b.block), "other", b.model), saySwapOdd.With())
		return true, x.About(a.block, b.block)
	}
	rated := func(l label) string {
		if l.capacity.Typed.Digits == "" {
			return ""
		}
		return exact(l.capacity.Value, "Ah").Digits
	}
	if a, b, odd := oddOne(labels, rated); odd {
		x := finding.Fails(sayCapacityOdd.With("a", bank.Name(a.block), "capacity", typed(a.capacity), "b", bank.Name(b.block), "other", typed(b.capacity)), saySwapOdd.With())
		return true, x.About(a.block, b.block)
	}
	return false, finding.Finding{}
}

// oneDelivery judges firmware and date codes, all of which are entered.
func oneDelivery(labels []label) finding.Finding {
	if a, b, odd := oddOne(labels, func(l label) string { return plainText(l.firmware) }); odd {
		return finding.CannotTell(sayFirmOdd.With("a", bank.Name(a.block), "firmware", a.firmware, "b", bank.Name(b.block), "other", b.firmware), sayAskMaker.With()).About(a.block, b.block)
	}
	oldest, newest := labels[0], labels[0]
	if odd, _, differ := oddOne(labels, func(l label) string { return plainText(l.code) }); differ {
		var from, to time.Time
		for i, l := range labels {
			made, ok := madeIn(l.code)
			if !ok {
				if _, readable := madeIn(odd.code); readable {
					odd = l
				}
				return finding.CannotTell(sayCodeUnread.With("code", odd.code, "a", bank.Name(odd.block)), sayCodeAsMonth.With()).About(odd.block)
			}
			if i == 0 || made.Before(from) {
				from, oldest = made, l
			}
			if i == 0 || made.After(to) {
				to, newest = made, l
			}
		}
		if to.After(from.AddDate(0, deliveryMonths, 0)) {
			said := []any{"a", bank.Name(oldest.block), "code", oldest.code, "b", bank.Name(newest.block), "other", newest.code}
			return finding.CannotTell(sayCodesApart.With(said...), sayAskMaker.With()).About(oldest.block, newest.block)
		}
	}
	l := labels[0]
	return finding.Passes(sayBuildAlike.With("model", l.model, "capacity", typed(l.capacity), "firmware", l.firmware, "first", oldest.code, "last", newest.code))
}

// oddOne finds the block that differs from most: the rarest answer, the first
// of its kind, beside a block with the commonest. An empty answer is none.
func oddOne(labels []label, of func(label) string) (rare, common label, differ bool) {
	count := map[string]int{}
	for _, l := range labels {
		if v := of(l); v != "" {
			count[v]++
		}
	}
	for _, l := range labels {
		v := of(l)
		if v == "" {
			continue
		}
		if common.block == "" || count[v] > count[of(common)] {
			common = l
		}
		if rare.block == "" || count[v] < count[of(rare)] {
			rare = l
		}
	}
	if len(count) > 1 && of(rare) == of(common) { // all as frequent: take any two that differ
		for _, l := range labels {
			if v := of(l); v != "" && v != of(common) {
				rare = l
				break
			}
		}
	}
	return rare, common, len(count) > 1
}

// plainText drops what does not matter between two labels: case and blanks.
func plainText(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// madeIn reads a date code as the first day that it can mean. A bare number
// such as 2605 is not read: makers mean month or week by it.
func madeIn(code string) (time.Time, bool) {
	code = strings.TrimSpace(code)
	for _, form := range []string{"2006-01-02", "2006-01", "2006/01/02", "2006/01", "2006.01.02", "2006.01", "01/2006", "01.2006", "Jan 2006", "January 2006"} {
		if t, err := time.Parse(form, code); err == nil {
			return t, true
		}
	}
	return time.Time{}, false
}

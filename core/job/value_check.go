package job

import (
	"fmt"
	"slices"
	"sort"
	"strings"
)

// Validate reports the first member of v that is not as it must be.
func (v Value) Validate() error {
	switch v.Kind {
	case KindQuantity:
		switch {
		case !isNumber(v.Number):
			return fmt.Errorf("n: %q is not digits with a dot", v.Number)
		case !isUnit(v.Unit):
			return fmt.Errorf("u: %q is not the sign of a unit", v.Unit)
		case v.Meter != "" && !isSegment(v.Meter):
			return fmt.Errorf("m: %q is not a part", v.Meter)
		case !isWord(v.Source):
			return fmt.Errorf("src: %q is not a word", v.Source)
		case v.When != "" && !isTime(v.When):
			return fmt.Errorf("when: %q is not a time with its offset", v.When)
		}
	case KindChoice:
		switch {
		case !isSegment(v.Choice):
			return fmt.Errorf("c: %q is not a choice", v.Choice)
		case v.When != "" && !isTime(v.When):
			return fmt.Errorf("when: %q is not a time with its offset", v.When)
		}
	case KindChoices:
		return checkSet("cs", v.Choices, isSegment)
	case KindText:
		if !isText(v.Text) {
			return fmt.Errorf("s: empty or not UTF-8")
		}
	case KindPersonal:
		return under("x", v.X.personal())
	case KindTime:
		if !isTimeOrDay(v.Time) {
			return fmt.Errorf("t: %q is neither a time with its offset nor a day", v.Time)
		}
	case KindFile:
		return under("file", v.File.validate())
	case KindLayout:
		r := &reader{raw: v.Layout, deepest: MaxDepth - 2}
		if len(v.Layout) == 0 || v.Layout[0] != '{' {
			return fmt.Errorf("layout: not an object")
		}
		if _, err := r.skip(); err != nil {
			return under("layout", err)
		}
		return under("layout", r.end())
	case KindSkip:
		return v.validateSkip()
	case KindOverride:
		return v.validateOverride()
	default:
		return fmt.Errorf("no value")
	}
	return nil
}

func (v Value) validateSkip() error {
	switch v.Skip {
	case SkipNotNeeded, SkipLater, SkipCannot, SkipUnsafe:
	default:
		return fmt.Errorf("skip: %q is not a way to skip", v.Skip)
	}
	switch {
	case !isWord(v.Why):
		return fmt.Errorf("why: %q is not a word", v.Why)
	case v.Until != "" && !isTimeOrDay(v.Until):
		return fmt.Errorf("until: %q is neither a time with its offset nor a day", v.Until)
	case v.X != Ref{}:
		return under("x", v.X.personal())
	}
	return nil
}

func (v Value) validateOverride() error {
	if len(v.Over) == 0 {
		return fmt.Errorf("over: names no verdict")
	}
	if err := checkSet("over", v.Over, isCheckAtPart); err != nil {
		return err
	}
	if !isPerson(v.Who) {
		return fmt.Errorf("who: %q is not p and a number", v.Who)
	}
	return under("x", v.X.personal())
}

// isCheckAtPart: a check, @ and a part, which may hold an @ of its own.
func isCheckAtPart(s string) bool {
	check, part, _ := strings.Cut(s, "@")
	return isWord(check) && isSegment(part)
}

func isTimeOrDay(s string) bool { return isTime(s) || isDate(s) }

// checkSet asks for ascending order, so that a set has one spelling and two
// people who tick the same boxes agree.
func checkSet(name string, list []string, ok func(string) bool) error {
	for i, s := range list {
		if !ok(s) {
			return fmt.Errorf("%s: %q has not the form of a name", name, s)
		}
		if i > 0 && list[i-1] >= s {
			return fmt.Errorf("%s: not in ascending order, or %q twice", name, s)
		}
	}
	return nil
}

// sorted returns list as a set: in ascending order, nothing twice.
func sorted(list []string) []string {
	out := append([]string{}, list...)
	sort.Strings(out)
	return slices.Compact(out)
}

func under(name string, err error) error {
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}

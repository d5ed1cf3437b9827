package job

import "strings"

// variants of a value: the members of each in their order. The first member
// tells which it is; the rest of needs must be there too.
var variants = []struct {
	kind    Kind
	members []string
	needs   uint
}{
	{KindQuantity, []string{"n", "u", "m", "src", "when", "moving", "odd"}, 1 | 2 | 8},
	{KindChoice, []string{"c", "when"}, 1},
	{KindChoices, []string{"cs"}, 1},
	{KindText, []string{"s"}, 1},
	{KindPersonal, []string{"x"}, 1},
	{KindTime, []string{"t"}, 1},
	{KindFile, []string{"file"}, 1},
	{KindLayout, []string{"layout"}, 1},
	{KindSkip, []string{"skip", "why", "until", "x"}, 1 | 2},
	{KindOverride, []string{"over", "who", "x"}, 1 | 2 | 4},
}

// value reads the body of a set; with a place for of, that of a choose.
func (r *reader) value(of *string) (v Value, err error) {
	start := *r
	if err := r.enter('{'); err != nil {
		return v, err
	}
	first, err := r.name()
	if err != nil {
		return v, err
	}
	*r = start
	for _, variant := range variants {
		if variant.members[0] != first {
			continue
		}
		v.Kind = variant.kind
		names, needs := variant.members, variant.needs
		if of != nil {
			needs |= 1 << len(names)
			names = append(names[:len(names):len(names)], "of")
		}
		seen, err := r.fields(names, func(i int) error {
			if names[i] == "of" {
				*of, err = r.text()
				return err
			}
			return under(names[i], r.valueMember(&v, names[i]))
		})
		if err != nil {
			return v, err
		}
		if missing := needs &^ seen; missing != 0 {
			return v, r.fail("missing: %s", strings.Join(pick(names, missing), ", "))
		}
		return v, nil
	}
	return v, r.fail("a value cannot begin with %q", first)
}

func pick(names []string, bits uint) (out []string) {
	for i, name := range names {
		if bits&(1<<i) != 0 {
			out = append(out, name)
		}
	}
	return out
}

func (r *reader) valueMember(v *Value, name string) (err error) {
	switch name {
	case "n":
		v.Number, err = r.text()
	case "u":
		v.Unit, err = r.text()
	case "m":
		v.Meter, err = r.something()
	case "src":
		v.Source, err = r.text()
	case "when":
		v.When, err = r.something()
	case "moving":
		v.Moving, err = r.mark()
	case "odd":
		v.Odd, err = r.mark()
	case "c":
		v.Choice, err = r.text()
	case "cs":
		v.Choices, err = r.texts(MaxBody)
	case "s":
		v.Text, err = r.text()
	case "x":
		v.X, err = r.ref()
	case "t":
		v.Time, err = r.text()
	case "file":
		v.File, err = r.ref()
	case "layout":
		v.Layout, err = r.skip()
	case "skip":
		v.Skip, err = r.text()
	case "why":
		v.Why, err = r.text()
	case "until":
		v.Until, err = r.something()
	case "over":
		v.Over, err = r.texts(MaxBody)
	case "who":
		v.Who, err = r.text()
	}
	return err
}

// something reads a string that is left out when empty.
func (r *reader) something() (string, error) {
	s, err := r.text()
	if err == nil && s == "" {
		err = r.fail("empty; then it is left out")
	}
	return s, err
}

// mark reads true; false is said by leaving it out.
func (r *reader) mark() (bool, error) {
	on, err := r.truth()
	if err == nil && !on {
		err = r.fail("false; then it is left out")
	}
	return on, err
}

package checks

import (
	"time"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// offset is where a block or string stands above the first one: the sum of its
// gaps, none for the first itself.
type offset struct {
	part string
	gaps []measure.Shown[unit.Volt]
}

func (o offset) volts() (v unit.Volt) {
	for _, g := range o.gaps {
		v += g.Value
	}
	return v
}

// stringsStand reports whether a match of this part compares whole strings.
func (f *Facts) stringsStand(part string) bool {
	return part == "bank" && f.Layout().Join == bank.JoinStrings && f.Layout().Series > 1
}

// gapRun gives where each block or string of a match stands above the first
// one. Over names the first whose gap is beyond the meter's range; otherwise
// the finding says what is missing, nil when nothing is.
func (f *Facts) gapRun(part string) (run []offset, over string, lack *finding.Finding) {
	read := func(q Quantity[unit.Volt], p string) measure.Shown[unit.Volt] {
		v, ok := q.Of(f, p)
		switch {
		case gapOver.Yes(f, p) || ok && f.beyondTop(v):
			if over == "" {
				over = p
			}
		case !ok && lack == nil:
			x := missing(q.Field, p)
			lack = &x
		}
		return v
	}
	if f.stringsStand(part) {
		for i, u := range f.Layout().Strings() {
			o := offset{part: u.ID}
			if i > 0 {
				v := read(stringGap, u.ID)
				o.gaps = append(o.gaps, v)
			}
			run = append(run, o)
		}
		return run, over, lack
	}
	units := []bank.Unit{{ID: part, Blocks: f.BlocksOf(part)}}
	if part == "bank" && f.Layout().Join == bank.JoinGroups {
		units = f.Layout().Groups()
	}
	for k, u := range units {
		first := offset{part: u.Blocks[0]}
		if k > 0 {
			v := read(gapVoltage, first.part)
			first.gaps = append(first.gaps, v)
		}
		run = append(run, first)
		for _, b := range u.Blocks[1:] {
			v := read(gapVoltage, b)
			run = append(run, offset{b, append([]measure.Shown[unit.Volt]{v}, first.gaps...)})
		}
	}
	return run, over, lack
}

// beyondTop reports whether a reading is not below the top of its meter's
// range: what stands there then is no reading.
func (f *Facts) beyondTop(v measure.Shown[unit.Volt]) bool {
	top := specOf(f, v).Top
	return top > 0 && float64(max(v.Value, -v.Value)) >= top
}

// widestOffset finds the two that stand furthest apart, with the uncertainty
// of that pair. Of those read alike only the highest and the lowest can be it.
func widestOffset(f *Facts, run []offset) (high, low string, spread measure.Reading[unit.Volt]) {
	kept := outermost(run, offset.volts, func(o offset) string {
		key := ""
		for _, g := range o.gaps {
			key += readAlike(g)
		}
		return key
	})
	for i, a := range kept {
		for _, b := range kept[i+1:] {
			top, bottom := a, b
			if b.volts() > a.volts() {
				top, bottom = b, a
			}
			d := between(f, top, bottom)
			if high == "" || d.Value+d.U > spread.Value+spread.U {
				high, low, spread = top.part, bottom.part, d
			}
		}
	}
	return high, low, spread
}

// between is how far a stands above b. One gap is one reading; two gaps to the
// same first block are a difference, no surer than that gap read directly;
// longer ways add their limits of error.
func between(f *Facts, a, b offset) measure.Reading[unit.Volt] {
	for len(a.gaps) > 0 && len(b.gaps) > 0 && a.gaps[len(a.gaps)-1] == b.gaps[len(b.gaps)-1] {
		a.gaps, b.gaps = a.gaps[:len(a.gaps)-1], b.gaps[:len(b.gaps)-1]
	}
	if len(a.gaps) == 1 && len(b.gaps) == 1 {
		d := difference(f, a.gaps[0], b.gaps[0], 0)
		d.U = max(d.U, asOneGap(f, a.gaps[0], b.gaps[0]))
		return d
	}
	d := measure.Reading[unit.Volt]{Value: a.volts() - b.volts()}
	for _, g := range append(append([]measure.Shown[unit.Volt](nil), a.gaps...), b.gaps...) {
		d.U += absolute(f, g).U
	}
	return d
}

// asOneGap is U of the gap between two blocks as if it had been read directly:
// ±(% + counts) at its own size, 0.35 mV at 10 mV with ±(0.5 % + 3 counts) of
// 0.1 mV. The zero of a meter cancels between two gaps and its gain is small;
// what its counts stand for besides does not, for the two stand at different
// places of the range and often on both sides of zero.
func asOneGap(f *Facts, a, b measure.Shown[unit.Volt]) unit.Volt {
	apart := a
	apart.Value, apart.Step, apart.Moving = a.Value-b.Value, max(a.Step, b.Step), false
	u := absolute(f, apart).U
	for _, x := range []measure.Shown[unit.Volt]{a, b} {
		if x.Moving {
			u += max(x.Step, unit.Volt(specOf(f, x).Step))
		}
	}
	return u
}

// firstOf is when the first gap of a run was read.
func firstOf(run []offset) (first time.Time) {
	for _, o := range run {
		for _, g := range o.gaps {
			if first.IsZero() || g.At.Before(first) {
				first = g.At
			}
		}
	}
	return first
}

// closedDuring finds a link, drawn or not, that was on when one of the gaps of
// a run was read. Between strings the links inside a string do not count.
func (f *Facts) closedDuring(run []offset, strings bool) (link string, on bool) {
	of := map[string]string{}
	reads := map[int]time.Time{}
	for _, o := range run {
		for _, b := range f.BlocksOf(o.part) {
			of[b] = o.part
		}
		for _, g := range o.gaps {
			reads[g.Lam] = g.At
		}
	}
	for _, l := range f.everClosed(f.state.MaxLam()) {
		touched := map[string]bool{}
		for _, b := range f.BlocksOf(l) {
			if of[b] != "" {
				touched[of[b]] = true
			}
		}
		if len(touched) == 0 || strings && len(touched) < 2 {
			continue
		}
		for lam, at := range reads {
			if f.wasOn(l, lam, at) {
				return l, true
			}
		}
	}
	return "", false
}

// everClosed lists the links, drawn or not, that were ever entered as closed
// up to a point of the record.
func (f *Facts) everClosed(lam int) (links []string) {
	for _, l := range remember(f, "first-closed", f.firstClosed) {
		if l.lam <= lam {
			links = append(links, l.id)
		}
	}
	return links
}

// closedLink is a link and when in the record it was first entered as closed.
type closedLink struct {
	id  string
	lam int
}

func (f *Facts) firstClosed() (links []closedLink) {
	for _, id := range f.leftOn() {
		links = append(links, closedLink{id, 0})
	}
	for _, k := range f.state.KeysFrom(f.visit, "") {
		if k.Field != closed.ID {
			continue
		}
		if kind, _ := bank.PartKind(k.Part); kind != bank.KindLink {
			continue
		}
		for _, e := range f.state.History(k) {
			if e.Value.Choice == "yes" {
				links = append(links, closedLink{k.Part, e.Lam})
				break
			}
		}
	}
	return links
}

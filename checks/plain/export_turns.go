package plain

import (
	"slices"

	"lugmark/checks"
	"lugmark/core/job"
)

// turns writes what a key held at every point of the record at which that
// changed, the last one without a mark.
func (x *exporter) turns(k job.Key, f checks.Field) (out []item, err error) {
	history := x.state.History(k)
	var points []int
	gone := map[string]int{} // event -> when something first replaced it
	for _, e := range history {
		points = append(points, e.Lam)
		for _, id := range e.SupersededBy {
			by, ok := x.state.Event(id)
			if !ok {
				continue
			}
			points = append(points, by.Lam)
			if at, known := gone[e.ID]; !known || by.Lam < at {
				gone[e.ID] = by.Lam
			}
		}
	}
	slices.Sort(points)
	for _, lam := range slices.Compact(points) {
		var live []job.Entry
		for _, e := range history {
			if at, replaced := gone[e.ID]; e.Lam <= lam && (!replaced || at > lam) {
				live = append(live, e)
			}
		}
		value, err := x.together(live, f)
		if err != nil {
			return nil, err
		}
		turn := item{key: k, nth: len(out) + 1, lam: lam, value: value}
		if value == nil {
			turn.value, turn.none = nothingHolds(), true
		}
		out = append(out, turn)
	}
	if n := len(out); n > 0 {
		out[n-1].nth = 0
	}
	return out, nil
}

// unseen leaves out what was replaced before anything else was kept: nothing
// was read while it held. An opening stays, with the closing before it: what was
// read of a link before it was opened says nothing any more. The rest is counted
// anew.
func unseen(items []item) (out []item) {
	turn := map[job.Key]int{}
	for i, it := range items {
		if i+1 < len(items) && items[i+1].key == it.key && !turns(it.value, items[i+1].value) {
			continue
		}
		if it.none && turn[it.key] == 0 {
			continue // nothing was read while anything held
		}
		if it.nth > 0 {
			turn[it.key]++
			it.nth = turn[it.key]
		}
		out = append(out, it)
	}
	return out
}

// turns reports whether a link that was on is off next, or the other way round.
func turns(a, b *node) bool {
	x, y := answer(a), answer(b)
	return x == "yes" && y == "no" || x == "no" && y == "yes"
}

// answer is the one answer that a value gives; "" where it gives none or several.
func answer(n *node) string {
	switch {
	case n == nil:
		return ""
	case n.shape == text:
		return n.text
	}
	if v := n.get("n"); v != nil {
		return v.text
	}
	return ""
}

// nothingHolds stands where a value was taken back and none came after it: the
// form can say that only as a skip.
func nothingHolds() *node {
	n := &node{shape: object}
	n.set("skip", quoted(job.SkipCannot))
	n.set("why", quoted("other"))
	return n
}

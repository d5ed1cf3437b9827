package main

import (
	"slices"

	"lugmark/core/job"
)

// checkFields compares what a tab shows of fields with the rule, applied slowly
// to what really happened; nil checks every field. Nothing concurrent may be
// hidden: a value may only be out of view when somebody who had it on the screen
// put something in its place.
func (o *opened) checkFields(which []string) {
	w := o.device.w
	keys := o.state.Keys()
	if which != nil {
		keys = nil
		for _, text := range which {
			k, _ := job.ParseKey(text)
			keys = append(keys, k)
		}
	}
	for _, k := range keys {
		want := w.history.live(o.job.id, k, o.seen)
		var ids, got, says []string
		for _, m := range want {
			ids = append(ids, m.ID)
			if !slices.Contains(says, m.says) {
				says = append(says, m.says)
			}
		}
		for _, e := range o.state.Live(k) {
			got = append(got, e.ID)
		}
		slices.Sort(ids)
		slices.Sort(got)
		if !slices.Equal(ids, got) {
			w.broken("O8: %s shows %d values of %s %s, %d are in view", o.device.name, len(got), o.job.kind, k, len(ids))
			return
		}
		standing := []job.Standing{job.Missing, job.One, job.Conflict}[min(len(says), 2)]
		e, stands := o.state.Get(k)
		if stands != standing || stands == job.One && !slices.Contains(ids, e.ID) {
			w.broken("O8: %s says %d of %s %s with %d different values in view", o.device.name, stands, o.job.kind, k, len(says))
			return
		}
		if len(w.history.view(o.job.id, k, o.seen)) > len(want) && !o.state.UnknownField(k) {
			w.broken("O8: %s judges %s, about which a newer app said something", o.device.name, k)
			return
		}
		if standing == job.Conflict {
			w.tally.count("conflicts shown")
		}
		o.checkHidden(k, got)
	}
}

// checkHidden is the same with vector clocks: whoever took a value out of view
// had it in their past.
func (o *opened) checkHidden(k job.Key, live []string) {
	w := o.device.w
	list := w.history.values[o.job.id+k.String()]
	for _, v := range list {
		if !v.value || !o.seen.has(v.at) || slices.Contains(live, v.ID) {
			continue
		}
		if !slices.ContainsFunc(list, func(by *made) bool { return o.seen.has(by.at) && by.past.has(v.at) }) {
			w.broken("O8: %s hides value %d of %s, and nobody who saw it took it away", o.device.name, v.at, k)
			return
		}
	}
}

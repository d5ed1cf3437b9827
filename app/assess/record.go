//go:build !js

package assess

import (
	"time"

	"lugmark/core/job"
	"lugmark/core/record"
)

// openRecord reads a record file. What is damaged or not signed well is a
// complaint and is left out; a record is judged by what remains of it unless
// that is nothing, or more than one job.
func openRecord(raw []byte, o Options) (c content, out []fault) {
	contents, faults := record.Read(raw)
	good, more := record.Verify(contents)
	for _, f := range append(faults, more...) {
		out = append(out, fault{max(f.Line, 1), f.Why})
	}
	if len(good.Events) == 0 {
		return c, append(out, fault{1, "No event of this record can be trusted."})
	}
	state := job.New(good.Events[0].Job)
	c.visit = "v1"
	for i, e := range good.Events {
		if e.Job != good.Events[0].Job {
			return content{}, append(out, fault{lineOf(good, i), "A second job begins here. Give each job its own file."})
		}
		if err := state.ApplySigned(e); err != nil {
			out = append(out, fault{lineOf(good, i), err.Error()})
		}
	}
	if state.Kind() == job.KindRegister {
		return content{}, append(out, fault{1, "This is a register, not a job: there is nothing in it to judge."})
	}
	c.now = latest(state)
	for _, k := range state.Keys() {
		if len(k.Visit) > len(c.visit) || len(k.Visit) == len(c.visit) && k.Visit > c.visit {
			c.visit = k.Visit
		}
	}
	if !o.Now.IsZero() {
		c.now = o.Now
	}
	if c.now.IsZero() {
		return content{}, append(out, fault{1, "The record holds no time to judge at. Give one with --now."})
	}
	c.state = state
	return c, out
}

// latest is the last time at which anything was kept or measured: the record
// is judged as it stood then, so that the same file always says the same.
func latest(state *job.State) (t time.Time) {
	for _, k := range state.Keys() {
		for _, e := range state.History(k) {
			if kept, err := time.Parse(time.RFC3339, e.At); err == nil && kept.After(t) {
				t = kept
			}
		}
	}
	return t
}

func lineOf(c record.Contents, i int) int {
	if i < len(c.Lines) {
		return c.Lines[i]
	}
	return 1
}

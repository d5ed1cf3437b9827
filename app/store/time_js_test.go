package store

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"lugmark/core/job"
)

// timeKeeping keeps acts with a mirror and without one, in turns, and says how
// long each took [ms]: an act after a pause, as a person keeps, and one right
// behind another; and how long the store takes to open with what is in it.
// Beside them stands what the browser itself takes: the same bytes as one text,
// put by a few lines of JavaScript into a database of its own.
func timeKeeping() error {
	const n = 200
	name := fmt.Sprint("timed-", time.Now().UnixNano())
	var tabs [2]*DB // with a mirror, without
	open := func(i int) (*DB, error) {
		if i == 1 {
			defer hideBuckets()()
		}
		return Open(fmt.Sprint(name, i))
	}
	for i := range tabs {
		d, err := open(i)
		if err != nil {
			return err
		}
		defer d.Close()
		tabs[i] = d
	}
	seq := 0
	next := func() job.Act {
		seq++
		return job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", seq, fmt.Sprintf(`{"n":%d,"as":%q}`, seq, strings.Repeat("event", 60)))},
			Blobs: []job.Blob{blob("text/plain", fmt.Sprint("note ", seq))}, Summary: fmt.Append(nil, strings.Repeat("line", 50))}
	}
	keep := func(d *DB) (time.Duration, error) {
		act, began := next(), time.Now()
		err := d.Keep(act)
		return time.Since(began), err
	}
	bare, err := openBare(name + "bare")
	if err != nil {
		return err
	}
	var paused, behind [2][]time.Duration
	var alone []time.Duration
	for range n {
		took, err := bare.keep(seq, next())
		if err != nil {
			return err
		}
		alone = append(alone, took)
		tell("turn", len(alone))
		for i, d := range tabs {
			took, err := keep(d)
			if err != nil {
				return err
			}
			paused[i] = append(paused[i], took)
			d.enter()() // the mirror has it now
			time.Sleep(2 * time.Millisecond)
		}
	}
	for range n / 10 {
		for i, d := range tabs {
			for range 10 {
				took, err := keep(d)
				if err != nil {
					return err
				}
				behind[i] = append(behind[i], took)
			}
			d.enter()()
		}
	}
	var opened [2][]time.Duration
	for range 15 {
		for i := range tabs {
			began := time.Now()
			again, err := open(i)
			opened[i] = append(opened[i], time.Since(began))
			if err != nil {
				return err
			}
			again.Close()
		}
	}
	for i, than := range []string{"mirrored", "single"} {
		tell(than, fmt.Sprintf("half of them within %.2f ms, 95 of 100 within %.2f ms; plain JavaScript %.2f and %.2f ms; ratio %.2f and %.2f",
			share(paused[i], 50), share(paused[i], 95), share(alone, 50), share(alone, 95),
			share(paused[i], 50)/share(alone, 50), share(paused[i], 95)/share(alone, 95)))
	}
	for what, both := range map[string][2][]time.Duration{"paused": paused, "behind": behind, "opened": opened} {
		with, without := share(both[0], 50), share(both[1], 50)
		tell(what, fmt.Sprintf("%.2f ms with, %.2f ms without, ratio %.2f", with, without, with/without))
	}
	return nil
}

// share is the time within which so many of a hundred were done [ms].
func share(all []time.Duration, percent int) float64 {
	slices.Sort(all)
	return float64(all[len(all)*percent/100].Microseconds()) / 1000
}

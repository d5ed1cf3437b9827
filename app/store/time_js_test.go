package store

import (
	"fmt"
	"slices"
	"time"

	"lugmark/core/job"
)

// timeKeeping keeps acts with a mirror and without one, in turns, and says how
// long each took [ms]: an act after a pause, as a person keeps, and one right
// behind another; and how long the store takes to open with what is in it.
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
	keep := func(d *DB) (time.Duration, error) {
		seq++
		act := job.Act{Job: "j1", Events: []job.Signed{signed("j1", "s1", seq, fmt.Sprintf(`{"n":%d}`, seq))},
			Blobs: []job.Blob{blob("text/plain", fmt.Sprint("note ", seq))}, Summary: fmt.Append(nil, seq)}
		began := time.Now()
		err := d.Keep(act)
		return time.Since(began), err
	}
	var paused, behind [2][]time.Duration
	for range n {
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
	for what, both := range map[string][2][]time.Duration{"paused": paused, "behind": behind, "opened": opened} {
		with, without := middle(both[0]), middle(both[1])
		tell(what, fmt.Sprintf("%.2f ms with, %.2f ms without, ratio %.2f", with, without, with/without))
	}
	return nil
}

// middle is the median [ms].
func middle(all []time.Duration) float64 {
	slices.Sort(all)
	return float64(all[len(all)/2].Microseconds()) / 1000
}

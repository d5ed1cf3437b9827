package record

import (
	"slices"
	"sort"

	"lugmark/core/job"
	"lugmark/core/seal"
)

// Verify checks every signature and every chain, job by job. It returns the
// contents without the events that cannot be trusted by themselves, because
// their signature is not good, and all faults by line. What has a hole before
// it is kept, also when the first event of a stream is lost and with it the key
// that the others could be checked by: the fault says so.
func Verify(c Contents) (Contents, []Fault) { return VerifyTelling(c, func(int, int) {}) }

// VerifyTelling is Verify that tells how many of all signatures it has checked.
func VerifyTelling(c Contents, tell func(n, all int)) (Contents, []Fault) {
	var faults []Fault
	forged := map[int]bool{} // by index in c.Events
	n := 0
	one := func() { n++; tell(n, len(c.Events)) }
	for _, name := range c.jobs() {
		var events []job.Signed
		var at []int
		for i, e := range c.Events {
			if e.Job == name {
				events, at = append(events, e), append(at, i)
			}
		}
		for _, f := range seal.VerifyChainTelling(name, events, one) {
			line := 0
			if f.Line > 0 {
				i := at[f.Line-1]
				line = c.line(i)
				forged[i] = forged[i] || f.Trouble == seal.Forged || f.Trouble == seal.Unreadable
			}
			faults = append(faults, Fault{Line: line, Why: f.Why, stream: f.Stream, keyless: f.Trouble == seal.Keyless})
		}
	}
	sort.SliceStable(faults, func(i, j int) bool { return faults[i].Line < faults[j].Line })
	good := Contents{Blobs: c.Blobs}
	for i, e := range c.Events {
		if !forged[i] {
			good.Events = append(good.Events, e)
			good.Lines = append(good.Lines, c.line(i))
		}
	}
	return good, faults
}

// Missing returns the blobs that events name and the contents do not hold, in
// the order of events: erased, or not yet here. They are no fault.
func Missing(c Contents) (out []job.Ref) {
	held := map[string]bool{}
	for _, b := range c.Blobs {
		held[b.Sum] = true
	}
	for _, signed := range c.Events {
		e, err := job.Decode(signed.Raw)
		if err != nil {
			continue
		}
		for _, x := range job.Refs(e) {
			if p, ok := e.Body.(job.Photo); ok && allHeld(held, p.Chunks) {
				continue
			}
			if !held[x.Sum] {
				held[x.Sum] = true // once is enough
				out = append(out, x)
			}
		}
	}
	return out
}

func allHeld(held map[string]bool, sums []string) bool {
	return !slices.ContainsFunc(sums, func(sum string) bool { return !held[sum] })
}

func (c Contents) jobs() (out []string) {
	for _, e := range c.Events {
		out = append(out, e.Job)
	}
	sort.Strings(out)
	return slices.Compact(out)
}

// line returns the line of event i, or its number from 1 outside a file.
func (c Contents) line(i int) int {
	if i < len(c.Lines) {
		return c.Lines[i]
	}
	return i + 1
}

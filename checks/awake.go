package checks

import (
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	sayMatchAsleep = say.Phrase{Key: "voltage-match.asleep", English: "{part} shows {volts}. Below 8 V for each block that is no resting voltage: the protection is open, the probes are turned or the block is."}
	sayGapAsleep   = say.Phrase{Key: "gap-voltage.asleep", English: "No voltage of at least 8 V is known for {part} itself. Two sleeping or two turned blocks show no gap either."}
	sayAsleepNext  = say.Phrase{Key: "match.asleep-next", English: "Read each block by itself, red on plus; wake a sleeping one by the maker's method only."}
)

// awakeAt reports whether a reading of a part is that of blocks that are awake
// and the right way round: at least 8 V for each block in series, with its
// uncertainty.
func (f *Facts) awakeAt(s stop) bool {
	least := aboveSleep
	if s.field.ID == totalVoltage.ID {
		least *= unit.Volt(f.Layout().Series)
	}
	r := absolute(f, s.shown)
	return measure.AtLeast(r.Interval(), least) == measure.Inside
}

// anyAsleep finds a block of a run of gaps that no reading of its own shows to
// be awake: the resting voltage where there is one, else what was read while it
// was charged alone or when it arrived.
func (f *Facts) anyAsleep(run []offset) (part string, asleep bool) {
	f.quietly(func() {
		for _, o := range run {
			for _, b := range f.BlocksOf(o.part) {
				if !asleep && !f.ownAwake(b) {
					part, asleep = b, true
				}
			}
		}
	})
	return part, asleep
}

func (f *Facts) ownAwake(block string) bool {
	for _, q := range []Quantity[unit.Volt]{restVoltage, fullVoltage2, fullVoltage, arrivalVoltage} {
		if v, ok := q.Of(f, block); ok {
			return f.awakeAt(stop{block, q.Field, v})
		}
	}
	return false
}

// readGaps leaves out of a run what has no gap, but for the first.
func readGaps(run []offset) (out []offset) {
	for i, o := range run {
		whole := true
		for _, g := range o.gaps {
			whole = whole && g.Typed.Digits != ""
		}
		if i == 0 || whole {
			out = append(out, o)
		}
	}
	return out
}

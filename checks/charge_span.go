package checks

import "slices"

// chargeSpan is the time for which the temperature of a charge must be known:
// now, until the charge is on record as ended; then from its first sample to
// its last, so that a sheet printed later tells what was known while it ran.
// An ended charge without samples has no such time, and stays judged by now.
func (f *Facts) chargeSpan() (s span) {
	s = moments(f.now)
	if !f.chargeEnded() {
		return s
	}
	first := true
	for _, k := range f.state.KeysFrom(f.visit, "charge1.") {
		for _, e := range f.state.Live(k) {
			at := entryTime(e)
			if first || at.Before(s.from) {
				s.from = at
			}
			if first || at.After(s.to) {
				s.to = at
			}
			first = false
		}
	}
	return s
}

// chargeEnded reports whether the end of the first charge is on record: the
// last voltage of every block.
func (f *Facts) chargeEnded() bool {
	ended := f.HasLayout()
	f.quietly(func() {
		for _, b := range f.Layout().Blocks() {
			_, read := topVoltage2.Of(f, b)
			ended = ended && read
		}
	})
	return ended
}

// WhileCharging reports whether a field is read while a charger runs.
func WhileCharging(field string) bool {
	return slices.Contains([]string{
		sampleVoltage.ID, sampleCurrent.ID, sampleTemp.ID, topVoltage.ID, topVoltage2.ID, tailCurrent.ID, tailCurrent2.ID,
		chargeEnded.ID, heldAbsorb.ID, leadSource.ID, leadPosts.ID, leadAmps.ID,
	}, field)
}

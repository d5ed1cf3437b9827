// Package plain reads and writes the plain job file: one bank as JSON that a
// person can write by hand and another program can make.
//
// It is not the record. It has no ids, no signatures and, but for one mark, no
// history; importing one makes ordinary events in a new job. The record file
// is the truth and the safe copy.
//
//	file, faults := plain.Parse(raw)      // every fault with its line
//	state, blobs, err := file.State()     // to judge it as it stands
//	for _, batch := range file.Batches(shift) { … }  // to import it
//	raw, err := plain.Export(state, blobs, "v1", now)
//
// Reading is strict, because a slip that is passed over becomes a wrong
// verdict: an unknown name, a wrong unit, a number outside physics or a key
// that comes twice is refused with its line, a sentence and the nearest name
// that is known. All faults are collected, not only the first.
//
// The package has no clock, network, disk or randomness.
package plain

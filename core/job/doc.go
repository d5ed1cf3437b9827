// Package job is the record of one job: a set of signed events, what each may
// hold, and the state that the set amounts to.
//
// An event is the exact bytes of one line of JSON; it is never re-encoded and
// never removed. State is a function of the set of events alone: the order in
// which they arrive, repeats and batches cannot matter. Order within a job is
// (lam, id), a counter and a name; the phone's clock is a claim and decides
// nothing.
//
//	e, err := job.Decode(raw)        // strict; a kind from a newer app is kept, e.Known is false
//	s := job.New(jobID)
//	err = s.Apply(e)                 // any order, any number of times
//	entry, standing := s.Get(job.Key{Visit: "v1", Part: "b3", Field: "rest-voltage"})
//
// Reading a state:
//
//	Get Live History AsOf StandingAsOf Lookup     the values of one key
//	Keys KeysFrom                                 which keys there are
//	Notes Photos Signs Seals Kind Event Len       the rest of the record
//	Unknown UnknownFields UnknownField            what a newer app wrote
//	Heads MaxLam Frontier SealedAt ChangedSince   how far the record goes
//
// Adding to it: a [Writer] stamps, the caller signs, saves and then applies.
//
// The package does not sign (see core/seal), does not store, and knows no
// check: a field is a name, a value is what a person put there. Time, names
// and random bytes enter as values.
package job

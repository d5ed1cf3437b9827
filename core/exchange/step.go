package exchange

import (
	"time"

	"lugmark/core/job"
)

// Kind is what a phone wants next.
type Kind int

const (
	Nothing Kind = iota // as far as is known, both sides are equal
	Send                // Message: a push, a pull or a have
	Put                 // the piece Sum, whose bytes the store has
	Get                 // the piece Sum
)

// Ask is one request. The zero Ask asks for nothing.
type Ask struct {
	Kind    Kind
	Message Message
	Sum     string

	from   Cursor // the phone's, when it asked
	number int    // of the asks of one Phone, from 1
}

// Reply is what came of an ask. The zero Reply: nothing came.
type Reply struct {
	Status  int           // of HTTP
	Message Message       // zero for a piece
	Data    []byte        // of a Get
	Took    time.Duration // from asking to the end of the reply; 0 unknown
}

// Step is what follows from a reply. The zero Step: go on with Next.
type Step struct {
	Keep    *Keep   // what the store must have before [Phone.Kept] is called
	Wait    bool    // the round is over; a new one after a [Pause]
	Trouble Trouble // what a person should hear, if anything
}

// Keep is what arrived. It is kept whole or not at all: a cursor that outlives
// the events before it would leave them out for ever.
type Keep struct {
	Events []Event
	Aside  []Event // another event has their place on this phone; kept apart, never folded
	Blobs  []job.Blob
	Cursor Cursor // from now on
}

// Trouble is what goes wrong and is worth a sentence.
type Trouble int

const (
	Fine          Trouble = iota
	Away                  // no answer, or the office is busy: nothing to do but wait
	Shut                  // the office does not let this device write to or read this job
	Full                  // the office has no room
	Forked                // two events in one place: a profile was copied while in use
	Spoilt                // an event on this phone is no longer as it was signed
	NotUnderstood         // the office cannot read an event that is good here: it is older
	Damaged               // what came from the office cannot be trusted; nothing of it was kept
)

package screen

import (
	"lugmark/core/job"
	"lugmark/core/say"
)

// Store is what the screens need of a store. Every method may wait for the
// device and is called from a goroutine.
type Store interface {
	Keep(job.Act) error
	Job(id string) ([]job.Signed, []job.Blob, error)
	Blob(id, sum string) (b job.Blob, there bool, err error)
	Summaries() (map[string][]byte, error)
	PutDraft(key, text string) error
	Draft(key string) (string, bool, error)
	Erase(id string, sums ...string) error
	Forget(id string) error
	Persist() (granted, known bool)
	Estimate() (used, quota int64)
	Watch(f func(job string)) (stop func())
}

// Device is the phone as the screens know it: where things are kept, who signs
// and which program this is.
type Device struct {
	Store     Store
	PublicKey []byte // DER
	Soft      bool   // the private half can be copied out of this phone
	NewKey    bool   // the key was made at this start, and there were jobs already
	Sign      func(hash []byte) ([]byte, error)
	App       string // "lugmark 0.1.0"
	Trouble   func(error) Trouble
	Lost      func() bool // the browser threw away what was kept here, and it did not come back
	Healed    func() int  // entries that came back from the second copy at this start
}

// Trouble is what kept the store from keeping, as far as a person can mend it.
type Trouble uint8

const (
	Unclear   Trouble = iota
	Full              // no room left on the phone
	Refused           // the browser lets this page store nothing
	Elsewhere         // another tab, with a newer app, has the store
	Forked            // another program wrote in this one's place
	Faulty            // the storage was not even asked: a fault of ours
	Unsigned          // the key of this phone did not sign
)

var troubles = map[Trouble]say.Phrase{
	Unclear:   {Key: "trouble.unclear", English: "It was not kept: the phone's storage gave no reason. Your text is still on the screen. Try once more."},
	Full:      {Key: "trouble.full", English: "It was not kept: this phone has no room left. Your text is still on the screen. Make room on the phone, then keep it again. All that was kept before is safe."},
	Refused:   {Key: "trouble.refused", English: "This browser lets Lugmark store nothing, perhaps because it is a private window. Nothing can be kept here: open Lugmark in an ordinary window."},
	Elsewhere: {Key: "trouble.elsewhere", English: "Another tab has a newer version of Lugmark and holds the storage. It was not kept. Your text is still on the screen: copy it, close the other tab, then reload."},
	Faulty:    {Key: "trouble.faulty", English: "It was not kept: Lugmark has a fault here. Your text is still on the screen, and everything kept before is safe. Tell the makers of Lugmark what you did."},
	Unsigned:  {Key: "trouble.unsigned", English: "It was not kept: the signing key of this phone did not answer. Your text is still on the screen. Copy it, close Lugmark and open it again; everything kept before is safe."},
	Forked:    {Key: "trouble.forked", English: "It was not kept: another program wrote in this place. Your text is still on the screen. Keep it again."},
}

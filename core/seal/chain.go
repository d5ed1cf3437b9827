package seal

import (
	"cmp"
	"crypto/ed25519"
	"encoding/base64"
	"encoding/hex"
	"fmt"
	"sort"
	"strings"

	"lugmark/core/job"
)

// Trouble is the kind of a fault.
type Trouble int

const (
	Unreadable Trouble = iota + 1 // the bytes are not an event, or are filed under another name
	Foreign                       // an event of another job
	Forged                        // the signature is not of the stream's key over these bytes
	Keyless                       // the stream's key is not here: none of its signatures can be checked
	Gap                           // an event of the stream is missing before this one
	Broken                        // the event does not follow the one before it
	Twin                          // two events with one seq or one id: a copied or a lying device
	Unseen                        // others have seen more of the stream, or something else, than is here
)

// Fault is one thing wrong with a record. Line counts the events from 1 as they
// were handed in, 0 when the fault lies in what is not there.
type Fault struct {
	Line    int
	Trouble Trouble
	Stream  string
	Seq     int
	Why     string
}

func (f Fault) String() string {
	if f.Line == 0 {
		return f.Why
	}
	return fmt.Sprintf("event %d: %s", f.Line, f.Why)
}

// link is an event on its way through the checks.
type link struct {
	job.Event
	line int
	sig  []byte
}

// VerifyChain checks all events of one job, in any order; the same event twice
// is no fault. It returns what is wrong, by line, and nothing when every
// signature is good, every stream runs from 1 without a hole, and everything
// that an event or a seal says it has seen is here.
//
// Which devices may write to a job is not its question.
func VerifyChain(jobID string, events []job.Signed) []Fault {
	return VerifyChainTelling(jobID, events, func() {})
}

// VerifyChainTelling is VerifyChain that calls tell after each event: a phone
// takes a second for a thousand signatures.
func VerifyChainTelling(jobID string, events []job.Signed, tell func()) []Fault {
	var faults []Fault
	streams := map[string][]link{}
	named := map[string]link{}
	for i, signed := range events {
		e, err := job.Decode(signed.Raw)
		f := Fault{Line: i + 1, Stream: signed.Stream, Seq: signed.Seq}
		switch {
		case err != nil:
			f.Trouble, f.Why = Unreadable, err.Error()
		case e.Job != signed.Job || e.Stream != signed.Stream || e.Seq != signed.Seq:
			f.Trouble, f.Why = Unreadable, fmt.Sprintf("filed as %s %d of job %s, but it is %s %d of job %s",
				signed.Stream, signed.Seq, signed.Job, e.Stream, e.Seq, e.Job)
		case e.Job != jobID:
			f.Trouble, f.Why = Foreign, fmt.Sprintf("belongs to job %s", e.Job)
		default:
			l := link{e, i + 1, signed.Sig}
			streams[e.Stream] = append(streams[e.Stream], l)
			if was, ok := named[e.ID]; !ok {
				named[e.ID] = l
			} else if was.Hash != l.Hash {
				faults = append(faults, l.fault(Twin, "its id %s is also that of event %d here", e.ID, was.line))
			}
			continue
		}
		faults = append(faults, f)
	}
	for _, links := range streams {
		sort.Slice(links, func(i, j int) bool {
			return cmp.Or(links[i].Seq-links[j].Seq, links[i].line-links[j].line) < 0
		})
		faults = append(faults, verifyStream(links, tell)...)
	}
	faults = append(faults, verifySeen(streams)...)
	sort.SliceStable(faults, func(i, j int) bool {
		a, b := faults[i], faults[j]
		return cmp.Or(a.Line-b.Line, strings.Compare(a.Stream, b.Stream), a.Seq-b.Seq) < 0
	})
	return faults
}

func (l link) fault(what Trouble, format string, args ...any) Fault {
	return Fault{l.line, what, l.Stream, l.Seq, fmt.Sprintf(format, args...)}
}

// verifyStream checks the events of one stream, which stand in order of seq,
// and calls tell after each.
func verifyStream(links []link, tell func()) (faults []Fault) {
	key, why := streamKey(links)
	if key == nil {
		faults = append(faults, links[0].fault(Keyless, "stream %s: %s; none of its signatures can be checked", links[0].Stream, why))
	}
	for i, l := range links {
		tell()
		if key == nil && l.Seq == 1 || key != nil && !Verify(key, l.Hash, l.sig) {
			faults = append(faults, l.fault(Forged, "event %d of stream %s: the signature does not match", l.Seq, l.Stream))
		}
		before := link{} // of the stream's beginning
		if i > 0 {
			before = links[i-1]
		}
		switch {
		case l.Hash == before.Hash:
		case l.Seq == before.Seq:
			faults = append(faults, l.fault(Twin, "event %d of stream %s is there twice, with other content (the other is event %d here)", l.Seq, l.Stream, before.line))
		case l.Seq > before.Seq+1:
			faults = append(faults, l.fault(Gap, "stream %s: events %d to %d are missing", l.Stream, before.Seq+1, l.Seq-1))
		case i > 0 && !follows(l, links[:i]):
			faults = append(faults, l.fault(Broken, "event %d of stream %s does not follow event %d", l.Seq, l.Stream, before.Seq))
		}
	}
	return faults
}

// follows reports whether l names one of the events with the seq before its own.
func follows(l link, earlier []link) bool {
	for i := len(earlier) - 1; i >= 0 && earlier[i].Seq >= l.Seq-1; i-- {
		if earlier[i].Seq == l.Seq-1 && hex.EncodeToString(earlier[i].Hash[:]) == l.Prev {
			return true
		}
	}
	return false
}

// streamKey returns the key in the first event of a stream, if it is good for
// the signature of that event itself; else why not. A damaged first event must
// not make forgeries of all the others.
func streamKey(links []link) (ed25519.PublicKey, string) {
	why := "its first event is missing, and with it the key"
	for _, l := range links {
		if l.Open == nil {
			break
		}
		why = "its first event is not as it was signed"
		der, err := base64.StdEncoding.DecodeString(l.Open.Dev)
		if err != nil {
			continue // Decode has read it
		}
		key, err := ParseKey(der)
		if err != nil {
			why = "its key is not an Ed25519 key"
			continue
		}
		if Verify(key, l.Hash, l.sig) {
			return key, ""
		}
	}
	return nil, why
}

// verifySeen compares what events say they have seen with what is here.
func verifySeen(streams map[string][]link) (faults []Fault) {
	for _, links := range streams {
		for _, l := range links {
			var seen []job.Head
			if l.Open != nil {
				seen = append(seen, l.Open.After...)
			}
			if s, ok := l.Body.(job.Seal); ok {
				seen = append(seen, s.Frontier...)
			}
			for _, h := range seen {
				if why := unseen(streams[h.Stream], h); why != "" {
					faults = append(faults, l.fault(Unseen, "its author had seen event %d of stream %s, %s", h.Seq, h.Stream, why))
				}
			}
		}
	}
	return faults
}

func unseen(links []link, h job.Head) string {
	other := false
	for _, l := range links {
		if l.Seq == h.Seq {
			if l.Hash == h.Hash {
				return ""
			}
			other = true
		}
	}
	if other {
		return "but here it reads otherwise"
	}
	return "which is not here"
}

package exchange

import (
	"bytes"
	"encoding/hex"
	"encoding/json"
	"fmt"

	"lugmark/core/job"
	"lugmark/core/record"
)

// Kinds of messages. What a message of each kind holds stands beside it.
const (
	Push    = "push/1"    // to the office: Job Events; none asks for the truth alone
	Truth   = "truth/1"   // from it: Job End Heads Aside
	Brief   = "brief/1"   // from it, in a list of jobs: Job End Aside
	Pull    = "pull/1"    // to the office: Job From
	Page    = "page/1"    // from it: Job From To Events
	Have    = "have/1"    // to the office: Job Sums, the pieces of blobs that are here
	Lack    = "lack/1"    // from it: Job Sums, those of them that it is without
	Problem = "problem/1" // from it: Code Index Why
)

// Limits of one message.
const (
	MaxEvents = 2000    // of a push
	MaxPage   = 1000    // of a page
	MaxSums   = 1000    // of a have
	MaxBytes  = 4 << 20 // of any message, before it is compressed
)

// Event is an event that was read, with its signature.
type Event struct {
	job.Event
	Sig []byte // 64 bytes
}

// Signed returns the event as a store keeps it.
func (e Event) Signed() job.Signed {
	return job.Signed{Job: e.Job, Stream: e.Stream, Seq: e.Seq, Raw: e.Raw, Sig: e.Sig}
}

// head returns how far e takes its stream.
func (e Event) head() job.Head { return job.Head{Stream: e.Stream, Seq: e.Seq, Hash: e.Hash} }

// Read reads a stored event.
func Read(signed job.Signed) (Event, error) {
	e, err := job.Decode(signed.Raw)
	return Event{e, signed.Sig}, err
}

// Message is one message in either direction. Members that its Kind does not
// name are zero.
type Message struct {
	Kind   string
	Job    string
	From   Cursor     // where the page begins: the cursor that was asked with
	To     Cursor     // where it ends; From when there is no more
	End    Cursor     // of the whole log
	Heads  []job.Head // how far each stream goes in the log, in ascending order
	Aside  []job.Head // events that stand aside because another has their place
	Sums   []string   // SHA-256 in hex, in ascending order
	Code   string     // one word, see the Code constants
	Index  int        // the event of the push that is meant, from 0
	Why    string     // for a person who looks for the fault
	Events []Event
}

// Codes of a problem.
const (
	CodeSyntax  = "syntax"  // the message cannot be read
	CodeCursor  = "cursor"  // the cursor names no part of this log: begin again
	CodeRefused = "refused" // the event at Index is not to be trusted; nothing was kept
	CodeUnnamed = "unnamed" // no event here names this piece
	CodeSum     = "sum"     // the bytes do not have the sum that they are sent under
	CodeBusy    = "busy"    // later
)

// line is the first line of a message. Its order is the order of its members.
type line struct {
	Kind  string   `json:"lugmark"`
	Job   string   `json:"job,omitempty"`
	From  string   `json:"from,omitempty"`
	To    string   `json:"to,omitempty"`
	End   string   `json:"end,omitempty"`
	Heads []string `json:"heads,omitempty"`
	Aside []string `json:"aside,omitempty"`
	Sums  []string `json:"sums,omitempty"`
	Code  string   `json:"code,omitempty"`
	Index int      `json:"index,omitempty"`
	Why   string   `json:"why,omitempty"`
}

// Encode returns the lines of a message: one of JSON that says what it is, then
// one for each event, as in a record file. It does not check m; [Decode] does.
func Encode(m Message) []byte {
	l := line{Kind: m.Kind, Job: m.Job, Heads: headTexts(m.Heads), Aside: headTexts(m.Aside), Sums: m.Sums, Code: m.Code, Index: m.Index, Why: m.Why}
	switch m.Kind {
	case Truth, Brief:
		l.End = m.End.String()
	case Pull:
		l.From = m.From.String()
	case Page:
		l.From, l.To = m.From.String(), m.To.String()
	}
	out, err := json.Marshal(l)
	if err != nil {
		panic("exchange: a line of texts is always JSON: " + err.Error())
	}
	out = append(out, '\n')
	for _, e := range m.Events {
		out = append(record.AppendEvent(out, e.Signed()), '\n')
	}
	return out
}

// Decode reads what Encode writes, and refuses every other spelling: a message
// that is read is, byte for byte, the one that Encode makes of what was read.
// Doubled, unknown or foreign members cannot hide behind that. Signatures are
// not verified.
func Decode(data []byte) (Message, error) {
	m, err := decode(data)
	if err != nil {
		return Message{}, fmt.Errorf("exchange: message: %w", err)
	}
	return m, nil
}

func decode(data []byte) (m Message, err error) {
	if len(data) > MaxBytes {
		return m, fmt.Errorf("%d bytes, at most %d", len(data), MaxBytes)
	}
	first, rest, _ := bytes.Cut(data, []byte("\n"))
	var l line
	if err := json.Unmarshal(first, &l); err != nil {
		return m, fmt.Errorf("line 1: %w", err)
	}
	m = Message{Kind: l.Kind, Job: l.Job, Sums: l.Sums, Code: l.Code, Index: l.Index, Why: l.Why}
	for _, c := range []struct {
		text string
		to   *Cursor
	}{{l.From, &m.From}, {l.To, &m.To}, {l.End, &m.End}} {
		if c.text == "" {
			continue
		}
		if *c.to, err = ParseCursor(c.text); err != nil {
			return m, fmt.Errorf("line 1: %w", err)
		}
	}
	if m.Heads, err = heads(l.Heads); err == nil {
		m.Aside, err = heads(l.Aside)
	}
	if err == nil {
		err = m.fits()
	}
	if err != nil {
		return m, fmt.Errorf("line 1: %w", err)
	}
	most := map[string]int{Push: MaxEvents, Page: MaxPage}[m.Kind]
	for n := 2; len(rest) > 0; n++ {
		var text []byte
		text, rest, _ = bytes.Cut(rest, []byte("\n"))
		if len(m.Events) == most {
			return m, fmt.Errorf("line %d: more than %d events", n, most)
		}
		e, signed, err := record.ParseEvent(text)
		if err != nil {
			return m, fmt.Errorf("line %d: %w", n, err)
		}
		if e.Job != m.Job {
			return m, fmt.Errorf("line %d: belongs to job %s", n, e.Job)
		}
		m.Events = append(m.Events, Event{e, signed.Sig})
	}
	if !bytes.Equal(Encode(m), data) {
		return m, fmt.Errorf("not written as it is written here")
	}
	return m, nil
}

// fits checks what the kind of a message asks of its members.
func (m Message) fits() error {
	bare := m // what is left when the members of the kind are taken away
	bare.Kind = ""
	if m.Kind != Problem {
		if m.Job == "" {
			return fmt.Errorf("no job")
		}
		bare.Job = ""
	}
	switch m.Kind {
	case Push:
	case Truth:
		bare.End, bare.Heads, bare.Aside = Cursor{}, nil, nil
	case Brief:
		bare.End, bare.Aside = Cursor{}, nil
	case Pull:
		bare.From = Cursor{}
	case Page:
		bare.From, bare.To = Cursor{}, Cursor{}
	case Have, Lack:
		bare.Sums = nil
		if len(m.Sums) > MaxSums {
			return fmt.Errorf("more than %d sums", MaxSums)
		}
	case Problem:
		bare.Code, bare.Index, bare.Why = "", 0, ""
		if m.Index < 0 || m.Index >= MaxEvents {
			return fmt.Errorf("index %d", m.Index)
		}
	default:
		return fmt.Errorf("%.40q is not a kind of message", m.Kind)
	}
	if bare.Job != "" || bare.From != (Cursor{}) || bare.To != (Cursor{}) || bare.End != (Cursor{}) ||
		len(bare.Heads)+len(bare.Aside)+len(bare.Sums) > 0 || bare.Code != "" || bare.Index != 0 || bare.Why != "" {
		return fmt.Errorf("a %s does not hold that", m.Kind)
	}
	for i, h := range m.Heads {
		if i > 0 && m.Heads[i-1].Stream >= h.Stream {
			return fmt.Errorf("heads: not in ascending order of streams")
		}
	}
	for i, sum := range m.Sums {
		if b, err := hex.DecodeString(sum); err != nil || len(b) != 32 || hex.EncodeToString(b) != sum {
			return fmt.Errorf("sums: %.80q is not a SHA-256 in lower-case hex", sum)
		}
		if i > 0 && m.Sums[i-1] >= sum {
			return fmt.Errorf("sums: not in ascending order")
		}
	}
	return nil
}

func headTexts(list []job.Head) []string {
	var out []string
	for _, h := range list {
		out = append(out, h.String())
	}
	return out
}

func heads(texts []string) ([]job.Head, error) {
	var out []job.Head
	for _, text := range texts {
		h, err := job.ParseHead(text)
		if err != nil {
			return nil, err
		}
		out = append(out, h)
	}
	return out, nil
}

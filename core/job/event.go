package job

import (
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// Limits of one event.
const (
	MaxLine  = 16 << 10 // bytes of a whole event
	MaxBody  = 8 << 10  // bytes of its body
	MaxSup   = 64       // events that one event can supersede
	MaxDepth = 4        // containers within containers, the event itself counts 1
)

// Event is one event, read. The zero Event is not valid. Raw and Hash are what
// [Decode] was given and make the identity of the event; the rest repeats Raw.
type Event struct {
	V      int    // version of this envelope, 1
	ID     string // a name, never an order
	Job    string
	Stream string
	Seq    int    // from 1, without holes within a stream
	Prev   string // hash of the stream's previous event in hex, "" at seq 1
	Lam    int    // from 1; above every event its author had seen
	At     string // RFC 3339: what the phone's clock claimed
	By     string // p1
	Open   *Open  // at seq 1 only
	Type   string // "set/1"
	Field  string // a key as text, or ""
	Body   Body
	Sup    []string // ids of the events that this one supersedes

	Known bool // false: a kind or version from a newer app, kept as it is
	Raw   []byte
	Hash  [32]byte
}

// Open begins a stream.
type Open struct {
	Dev   string // the public key's DER in base64; it drops into a PEM unchanged
	Soft  bool   // the key can be copied out of its store
	App   string // which program wrote, "lugmark 0.1.0"
	After []Head // the frontier of the job as it was seen
}

// Body is what an event of one type holds.
type Body interface {
	Type() string
	Validate() error
	append(b []byte) []byte
}

// bodies is the list of types and of who reads each. A type that is not here
// is kept unread; "grant/1" is reserved and stays so.
var bodies = map[string]func(*reader) (Body, error){
	"job/1":    readStart,
	"set/1":    readSet,
	"choose/1": readChoose,
	"void/1":   readVoid,
	"note/1":   readNote,
	"photo/1":  readPhoto,
	"sign/1":   readSign,
	"seal/1":   readSeal,
}

// Hash is the identity of an event: SHA-256 of the line "1", a line feed, and
// the exact bytes.
func Hash(raw []byte) [32]byte {
	h := sha256.New()
	h.Write([]byte("1\n"))
	h.Write(raw)
	return [32]byte(h.Sum(nil))
}

// Encode makes the bytes of e from its members; Raw and Hash are not looked at.
// What it returns, [Decode] reads back.
func Encode(e Event) ([]byte, error) {
	if e.Body == nil {
		return nil, fmt.Errorf("job: encode %s: no body", e.ID)
	}
	o := object{}
	o.whole("v", e.V)
	o.text("id", e.ID)
	o.text("job", e.Job)
	o.text("stream", e.Stream)
	o.whole("seq", e.Seq)
	o.text("prev", e.Prev)
	o.whole("lam", e.Lam)
	o.text("at", e.At)
	o.text("by", e.By)
	if e.Open != nil {
		o.raw("open", e.Open.append(nil))
	}
	o.text("type", e.Type)
	o.optText("field", e.Field)
	o.raw("body", e.Body.append(nil))
	if len(e.Sup) > 0 {
		o.texts("sup", e.Sup)
	}
	raw := o.end()
	if e.Type != e.Body.Type() {
		return nil, fmt.Errorf("job: encode %s: type %s with the body of a %s", e.ID, e.Type, e.Body.Type())
	}
	if _, err := Decode(raw); err != nil {
		return nil, fmt.Errorf("job: encode %s: %w", e.ID, err)
	}
	return raw, nil
}

func (o *Open) append(b []byte) []byte {
	w := object{b: b}
	w.text("dev", o.Dev)
	w.raw("soft", fmt.Append(nil, o.Soft))
	w.text("app", o.App)
	w.texts("after", headTexts(o.After))
	return w.end()
}

// validate checks what concerns the members of an envelope one by one and
// against each other.
func (e *Event) validate() error {
	switch {
	case e.V < 1:
		return fmt.Errorf("v: less than 1")
	case !isUUID(e.ID):
		return fmt.Errorf("id: %q is not a UUID in lower case", e.ID)
	case !isUUID(e.Job):
		return fmt.Errorf("job: %q is not a UUID in lower case", e.Job)
	case !isStream(e.Stream):
		return fmt.Errorf("stream: %q is not 16 signs of base32 in lower case", e.Stream)
	case e.Seq == 1 && e.Prev != "":
		return fmt.Errorf("prev: the first event of a stream has none")
	case e.Seq > 1 && !isSum(e.Prev):
		return fmt.Errorf("prev: %q is not a SHA-256 in lower-case hex", e.Prev)
	case !isTime(e.At):
		return fmt.Errorf("at: %q is not a time with its offset", e.At)
	case !isPerson(e.By):
		return fmt.Errorf("by: %q is not p and a number", e.By)
	case e.Seq == 1 && e.Open == nil:
		return fmt.Errorf("open: missing on the first event of a stream")
	case e.Seq > 1 && e.Open != nil:
		return fmt.Errorf("open: stands on the first event of a stream only")
	case !isType(e.Type):
		return fmt.Errorf("type: %q is not a word and a version", e.Type)
	}
	if e.Field != "" {
		if _, err := ParseKey(e.Field); err != nil {
			return fmt.Errorf("field: %q is not visit/part/field", e.Field)
		}
	}
	if len(e.Sup) > MaxSup {
		return fmt.Errorf("sup: more than %d items", MaxSup)
	}
	for i, id := range e.Sup {
		if !isUUID(id) {
			return fmt.Errorf("sup: %q is not a UUID in lower case", id)
		}
		if id == e.ID {
			return fmt.Errorf("sup: names the event itself")
		}
		for _, before := range e.Sup[:i] {
			if id == before {
				return fmt.Errorf("sup: names %s twice", id)
			}
		}
	}
	return nil
}

// fits checks what a type asks of its envelope.
func (e *Event) fits() error {
	switch body := e.Body.(type) {
	case Set:
		if e.Field == "" {
			return fmt.Errorf("field: missing on a set")
		}
	case Choose:
		if e.Field == "" {
			return fmt.Errorf("field: missing on a choose")
		}
		if !slices.Contains(e.Sup, body.Of) {
			return fmt.Errorf("sup: a choose supersedes every rival, %s among them", body.Of)
		}
	case Void:
		if len(e.Sup) == 0 {
			return fmt.Errorf("sup: a void names at least one event")
		}
	case Unread:
	default:
		if e.Field != "" {
			return fmt.Errorf("field: not on a %s", e.Type)
		}
	}
	return nil
}

func (o *Open) validate() error {
	dev, err := base64.StdEncoding.Strict().DecodeString(o.Dev)
	switch {
	case err != nil || len(dev) == 0 || len(dev) > 1024 || strings.ContainsAny(o.Dev, "\r\n"):
		return fmt.Errorf("open.dev: not a public key in base64")
	case !isPlain(o.App):
		return fmt.Errorf("open.app: %q is not the name of a program", o.App)
	}
	return checkHeads("open.after", o.After)
}

// isText: UTF-8 that holds something.
func isText(s string) bool { return s != "" && utf8.ValidString(s) }

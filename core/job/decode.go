package job

import (
	"fmt"
	"unicode/utf8"
)

// members of an event, in the order in which they stand.
var members = []string{"v", "id", "job", "stream", "seq", "prev", "lam", "at", "by", "open", "type", "field", "body", "sup"}

const (
	mV = 1 << iota
	mID
	mJob
	mStream
	mSeq
	mPrev
	mLam
	mAt
	mBy
	mOpen
	mType
	mField
	mBody
	mSup

	mAlways = mV | mID | mJob | mStream | mSeq | mPrev | mLam | mAt | mBy | mType | mBody
)

// Decode reads one event. It is strict: whatever is not exactly the one shape
// is an error that says where. A well-formed event of an unknown type or
// version is no error: Known is false and its body is an [Unread].
//
// The event keeps raw; the caller must not change it afterwards.
func Decode(raw []byte) (Event, error) {
	e, err := decode(raw)
	if err != nil {
		return Event{}, fmt.Errorf("job: event: %w", err)
	}
	e.Raw, e.Hash = raw, Hash(raw)
	return e, nil
}

func decode(raw []byte) (e Event, err error) {
	if len(raw) > MaxLine {
		return e, fmt.Errorf("%d bytes, at most %d", len(raw), MaxLine)
	}
	if !utf8.Valid(raw) {
		return e, fmt.Errorf("not UTF-8 text")
	}
	r := &reader{raw: raw, deepest: MaxDepth}
	seen, err := r.fields(members, func(i int) error { return r.member(&e, 1<<i) })
	if err != nil {
		return e, err
	}
	if err := r.end(); err != nil {
		return e, err
	}
	for i, name := range members {
		if mAlways&^seen&(1<<i) != 0 {
			return e, fmt.Errorf("%s: missing", name)
		}
	}
	// There is one way to say "none": to leave the member out.
	switch {
	case seen&mField != 0 && e.Field == "":
		return e, fmt.Errorf("field: empty")
	case seen&mSup != 0 && len(e.Sup) == 0:
		return e, fmt.Errorf("sup: empty")
	}
	if err := e.validate(); err != nil {
		return e, err
	}
	return e, e.fits()
}

func (r *reader) member(e *Event, m int) (err error) {
	switch m {
	case mV:
		e.V, err = r.whole(1)
	case mID:
		e.ID, err = r.text()
	case mJob:
		e.Job, err = r.text()
	case mStream:
		e.Stream, err = r.text()
	case mSeq:
		e.Seq, err = r.whole(1)
	case mPrev:
		e.Prev, err = r.text()
	case mLam:
		e.Lam, err = r.whole(1)
	case mAt:
		e.At, err = r.text()
	case mBy:
		e.By, err = r.text()
	case mOpen:
		e.Open, err = r.open()
	case mType:
		e.Type, err = r.text()
	case mField:
		e.Field, err = r.text()
	case mBody:
		err = r.body(e)
	case mSup:
		e.Sup, err = r.texts(MaxSup)
	}
	if err != nil {
		for i, name := range members {
			if m == 1<<i {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	return err
}

func (r *reader) body(e *Event) error {
	start := r.at
	read, known := bodies[e.Type]
	var err error
	if known && e.V == 1 {
		e.Known = true
		e.Body, err = read(r)
	} else {
		var raw []byte
		raw, err = r.skip()
		e.Body = Unread{Kind: e.Type, Raw: raw}
	}
	if err != nil {
		return err
	}
	if n := r.at - start; n > MaxBody {
		return fmt.Errorf("%d bytes, at most %d", n, MaxBody)
	}
	if err := e.Body.Validate(); err != nil {
		return fmt.Errorf("byte %d: %w", start+1, err)
	}
	return nil
}

func (r *reader) open() (*Open, error) {
	o := &Open{}
	seen, err := r.fields([]string{"dev", "soft", "app", "after"}, func(i int) (err error) {
		switch i {
		case 0:
			o.Dev, err = r.text()
		case 1:
			o.Soft, err = r.truth()
		case 2:
			o.App, err = r.text()
		case 3:
			o.After, err = r.heads()
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	if seen != 15 {
		return nil, r.fail("it has dev, soft, app and after")
	}
	return o, o.validate()
}

package job

import "encoding/json"

// Unread is the body of an event that a newer app wrote. It is kept as it is,
// counted and shown; what it supersedes is superseded, and the fields that it
// names stay open.
type Unread struct {
	Kind string
	Raw  json.RawMessage
}

func (u Unread) Type() string           { return u.Kind }
func (u Unread) Validate() error        { return nil }
func (u Unread) append(b []byte) []byte { return append(b, u.Raw...) }

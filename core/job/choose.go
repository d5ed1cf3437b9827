package job

import "fmt"

// Choose settles a conflict: a copy of one rival's value, and which it was. The
// event's sup names every rival, the chosen one too.
type Choose struct {
	Value Value
	Of    string // the id of the event that was chosen
}

func (Choose) Type() string { return "choose/1" }

func (c Choose) Validate() error {
	if !isUUID(c.Of) {
		return fmt.Errorf("of: %q is not a UUID in lower case", c.Of)
	}
	return c.Value.Validate()
}

func (c Choose) append(b []byte) []byte {
	o := object{b: b}
	c.Value.members(&o)
	o.text("of", c.Of)
	return o.end()
}

func readChoose(r *reader) (Body, error) {
	var of string
	v, err := r.value(&of)
	return Choose{v, of}, err
}

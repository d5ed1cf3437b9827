package job

// Set puts a value into a field: a reading, a choice, a skip, an override. The
// event's sup names every value of the field that its author saw.
type Set struct{ Value Value }

func (Set) Type() string             { return "set/1" }
func (s Set) Validate() error        { return s.Value.Validate() }
func (s Set) append(b []byte) []byte { return s.Value.append(b) }
func readSet(r *reader) (Body, error) {
	v, err := r.value(nil)
	return Set{v}, err
}

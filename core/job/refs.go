package job

// Refs returns the blobs that an event names, in the order in which they stand
// in it: what has to travel with it, and what can be erased without it. An
// unread event names none that this app knows of. The pieces of a photo are in
// its Chunks.
func Refs(e Event) []Ref {
	var all []Ref
	switch body := e.Body.(type) {
	case Set:
		all = []Ref{body.Value.X, body.Value.File}
	case Choose:
		all = []Ref{body.Value.X, body.Value.File}
	case Void:
		all = []Ref{body.X}
	case Note:
		all = []Ref{body.X}
	case Photo:
		all = []Ref{body.Blob}
	case Sign:
		all = []Ref{body.Ink}
	case Seal:
		all = []Ref{body.Results}
	}
	var out []Ref
	for _, x := range all {
		if x != (Ref{}) {
			out = append(out, x)
		}
	}
	return out
}

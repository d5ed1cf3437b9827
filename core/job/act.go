package job

// Signed is one event as it is stored and sent: its exact bytes, never
// re-encoded, and the signature over them. Job, Stream and Seq repeat what
// stands in Raw, as the key under which a store keeps it.
type Signed struct {
	Job    string
	Stream string
	Seq    int
	Raw    []byte
	Sig    []byte // Ed25519, 64 bytes
}

// Blob is what an event names by hash: personal text and, later, photos.
// Sum is the SHA-256 of Data in lower-case hex.
type Blob struct {
	Sum  string
	Type string // "text/plain", "image/jpeg"
	Data []byte
}

// Act is what one act of a person makes: it is kept whole or not at all.
type Act struct {
	Job     string
	Events  []Signed
	Blobs   []Blob
	Summary []byte // the job's cached line for the list of jobs, JSON; nil leaves it as it is
	Draft   string // key of the draft that this act makes needless; "" none
}

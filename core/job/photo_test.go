package job

import (
	"slices"
	"testing"
	"time"
)

// The sums of so many zero bytes; from: sha256sum of coreutils 9.
const (
	oneZero   = "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d"
	pieceFull = "8a39d2abd3999ab73c34db2476849cddf303ce389b35826850f9a700589b4a90" // 262144
	pieceMore = "b27a032984ea8a6bec700c3d6f63f8fcfbf8ff8ef87e972891feda4eea4aad0c" // 262145
)

// A photo travels in pieces of 256 KiB; from: hand, 256 × 1024 = 262144.
func TestPhotoPieces(t *testing.T) {
	for _, row := range []struct {
		bytes  int
		sum    string
		chunks []string
	}{
		{1, oneZero, []string{oneZero}},
		{262144, pieceFull, []string{pieceFull}},
		{262145, pieceMore, []string{pieceFull, oneZero}},
	} {
		blob, p := NewPhoto("b1", "condition", "image/jpeg", make([]byte, row.bytes))
		if blob.Sum != row.sum || len(blob.Data) != row.bytes || blob.Type != "image/jpeg" {
			t.Errorf("%d bytes: blob %s of %d bytes, %s", row.bytes, blob.Sum, len(blob.Data), blob.Type)
		}
		if want := (Ref{row.sum, row.bytes, "image/jpeg"}); p.Blob != want || p.Part != "b1" || p.Field != "condition" {
			t.Errorf("%d bytes: %+v", row.bytes, p)
		}
		if !slices.Equal(p.Chunks, row.chunks) {
			t.Errorf("%d bytes: pieces %v, want %v", row.bytes, p.Chunks, row.chunks)
		}
		if err := p.Validate(); err != nil {
			t.Errorf("%d bytes: %v", row.bytes, err)
		}
	}
}

func TestPhotoIsKeptAndTakenAway(t *testing.T) {
	s := New(testID(9))
	w := NewWriter(Author{By: "p1", Key: []byte("key"), App: "lugmark 0.1.0"}, [16]byte{1}, s)
	at := func(n int) Stamp {
		return Stamp{Now: time.Date(2026, 11, 25, 12, 0, n, 0, time.UTC), ID: testID(n)}
	}
	_, p := NewPhoto("b3", "", "image/jpeg", []byte("a picture"))
	kept, err := w.Photo(at(1), p)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Apply(kept.Event); err != nil {
		t.Fatal(err)
	}
	if got := s.Photos(); len(got) != 1 || got[0].Body.Blob != p.Blob || got[0].Body.Part != "b3" {
		t.Errorf("photos in view: %+v", got)
	}
	gone, err := w.Void(at(2), Key{}, "wrong-part", Ref{}, []string{kept.Event.ID})
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Apply(gone.Event); err != nil {
		t.Fatal(err)
	}
	if got := s.Photos(); len(got) != 0 {
		t.Errorf("still in view: %+v", got)
	}
}

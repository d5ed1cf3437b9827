package exchange

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"lugmark/core/job"
)

// Piece is what travels of a blob: a photo in chunks of [job.Chunk], anything
// else whole.
type Piece struct {
	Sum  string
	Type string // media type of the blob
}

// MaxPiece is the size [bytes] of the largest piece. Texts, strokes and lists of
// results have no chunks and must stay below it.
const MaxPiece = MaxBytes

// Pieces returns the pieces that an event names, in the order in which they
// stand in it.
func Pieces(e job.Event) []Piece {
	if p, ok := e.Body.(job.Photo); ok {
		out := make([]Piece, len(p.Chunks))
		for i, sum := range p.Chunks {
			out[i] = Piece{sum, p.Blob.Type}
		}
		return out
	}
	var out []Piece
	for _, x := range job.Refs(e) {
		out = append(out, Piece{x.Sum, x.Type})
	}
	return out
}

// Cut parts a photo into its pieces, which is how it is kept.
func Cut(photo job.Blob) (pieces []job.Blob, sums []string) {
	for rest := photo.Data; len(rest) > 0; {
		n := min(len(rest), job.Chunk)
		piece, ref := job.NewBlob(photo.Type, rest[:n])
		pieces, sums, rest = append(pieces, piece), append(sums, ref.Sum), rest[n:]
	}
	return pieces, sums
}

// Join returns the photo whose pieces are at hand; false when one is missing or
// they are not the photo.
func Join(p job.Photo, pieces job.Blobs) ([]byte, bool) {
	var out []byte
	for _, sum := range p.Chunks {
		data, ok := pieces[sum]
		if !ok {
			return nil, false
		}
		out = append(out, data...)
	}
	return out, sumOf(out) == p.Blob.Sum
}

// CheckPiece asks of bytes that arrive under a sum whether they are it. Both
// sides ask before anybody can see the piece.
func CheckPiece(sum string, data []byte) error {
	if len(data) > MaxPiece {
		return fmt.Errorf("exchange: piece %s: %d bytes, at most %d", sum, len(data), MaxPiece)
	}
	if got := sumOf(data); got != sum {
		return fmt.Errorf("exchange: piece %s: its bytes have the sum %s", sum, got)
	}
	return nil
}

func sumOf(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:])
}

package store

import (
	"crypto/ed25519"
	"crypto/rand"
	"fmt"
)

// Key is the device's own Ed25519 key pair. What it signs was written here.
type Key struct {
	PublicDER []byte // SubjectPublicKeyInfo, 44 bytes: drops into a PEM unchanged
	Soft      bool   // the private half can be copied out of this device's storage
	New       bool   // it was made by this call
	sign      func(message []byte) ([]byte, error)
}

// Sign returns the 64 bytes of the signature of message. It may wait for the
// browser, so it is never called inside a transaction of the store.
func (k Key) Sign(message []byte) ([]byte, error) { return k.sign(message) }

// spkiHead stands before the 32 bytes of an Ed25519 public key in a
// SubjectPublicKeyInfo (RFC 8410, section 4 and the example of section 10.1).
// It is written out because crypto/x509 would add a megabyte to the phone app.
var spkiHead = []byte{0x30, 0x2a, 0x30, 0x05, 0x06, 0x03, 0x2b, 0x65, 0x70, 0x03, 0x21, 0x00}

// newSeed makes the private half of a soft key.
func newSeed() ([]byte, error) {
	seed := make([]byte, ed25519.SeedSize)
	if _, err := rand.Read(seed); err != nil {
		return nil, fmt.Errorf("store: make a key: %w", err)
	}
	return seed, nil
}

// softKey is the key of a seed.
func softKey(seed []byte) Key {
	private := ed25519.NewKeyFromSeed(seed)
	public := private.Public().(ed25519.PublicKey)
	return Key{
		PublicDER: append(append([]byte{}, spkiHead...), public...),
		Soft:      true,
		sign:      func(message []byte) ([]byte, error) { return ed25519.Sign(private, message), nil },
	}
}

// Package seal signs and verifies events, and says in 26 signs which record a
// sheet of paper speaks of.
//
//	hash := seal.Hash(raw)
//	sig := seal.Sign(key, hash)
//	faults := seal.VerifyChain(jobID, events) // none: nothing was changed, nothing is missing
//
// It shows that a record is what a device wrote, whole and in that order. It
// cannot show that what was typed is true, nor that a device held nothing
// back at the end of a stream that nobody else had seen.
//
// It makes no keys and reads no files; see core/record for the file.
package seal

import (
	"crypto/ed25519"
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"lugmark/core/job"
)

// Hash is the identity of an event: SHA-256 of "1", a line feed, and its bytes.
// The first line parts it from whatever else the same key might sign.
func Hash(raw []byte) [32]byte { return job.Hash(raw) }

// Sign returns the Ed25519 signature (RFC 8032) of key over the 32 bytes of
// hash; 64 bytes.
func Sign(key ed25519.PrivateKey, hash [32]byte) []byte {
	return ed25519.Sign(key, hash[:])
}

// Verify reports whether sig is key's signature over hash.
func Verify(key ed25519.PublicKey, hash [32]byte, sig []byte) bool {
	return len(key) == ed25519.PublicKeySize && len(sig) == ed25519.SignatureSize &&
		ed25519.Verify(key, hash[:], sig)
}

// Digest returns the SHA-256 of a list of results in lower-case hex, as
// sha256sum prints it: what signatures and the seal name.
func Digest(results []byte) string {
	h := sha256.Sum256(results)
	return hex.EncodeToString(h[:])
}

// A public key as SubjectPublicKeyInfo: a sequence of 42 bytes holding the
// algorithm 1.3.101.112 (RFC 8410, section 3) and a bit string without unused
// bits. There is one spelling, so crypto/x509, which would bring the network
// into the phone app, is not needed.
const derPrefix = "\x30\x2a\x30\x05\x06\x03\x2b\x65\x70\x03\x21\x00"

// EncodeKey returns key as DER, 44 bytes.
func EncodeKey(key ed25519.PublicKey) []byte {
	return append([]byte(derPrefix), key...)
}

// ParseKey reads what EncodeKey writes.
func ParseKey(der []byte) (ed25519.PublicKey, error) {
	if len(der) != len(derPrefix)+ed25519.PublicKeySize || string(der[:len(derPrefix)]) != derPrefix {
		return nil, fmt.Errorf("seal: not an Ed25519 public key in DER")
	}
	return ed25519.PublicKey(der[len(derPrefix):]), nil
}

package main

import (
	"crypto/ed25519"
	"crypto/sha512"

	"lugmark/core/seal"
)

// signer signs as the product does, or with a hash in its place: as long, as
// unlike for other bytes and other keys, and a hundred times as quick. What
// nobody here tries is to forge one.
type signer struct{ real bool }

// keys makes a pair from 32 random bytes.
func (s signer) keys(random [32]byte) (ed25519.PrivateKey, ed25519.PublicKey) {
	if s.real {
		key := ed25519.NewKeyFromSeed(random[:])
		return key, key.Public().(ed25519.PublicKey)
	}
	return random[:], random[:]
}

func (s signer) sign(key ed25519.PrivateKey, hash [32]byte) []byte {
	if s.real {
		return seal.Sign(key, hash)
	}
	return mac(key, hash)
}

func (s signer) verify(key ed25519.PublicKey, hash [32]byte, sig []byte) bool {
	if s.real {
		return seal.Verify(key, hash, sig)
	}
	return string(mac(key, hash)) == string(sig)
}

func mac(key []byte, hash [32]byte) []byte {
	sum := sha512.Sum512(append(append([]byte(nil), key...), hash[:]...))
	return sum[:]
}

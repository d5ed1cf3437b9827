package seal

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"crypto/x509"
	"encoding/hex"
	"testing"
)

func unhex(t testing.TB, s string) []byte {
	t.Helper()
	b, err := hex.DecodeString(s)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// RFC 8032, section 7.1, TEST 1 to 3; the same lines stand in the test vectors
// that Go ships with crypto/ed25519 (sign.input, from ed25519.cr.yp.to).
var rfc8032 = []struct{ name, secret, public, message, signature string }{
	{"TEST 1",
		"9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
		"d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a", "",
		"e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"},
	{"TEST 2",
		"4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
		"3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c", "72",
		"92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"},
	{"TEST 3",
		"c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
		"fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025", "af82",
		"6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a"},
}

func TestTheSignatureIsThePublishedOne(t *testing.T) {
	for _, v := range rfc8032 {
		key := ed25519.NewKeyFromSeed(unhex(t, v.secret))
		if got := key.Public().(ed25519.PublicKey); !bytes.Equal(got, unhex(t, v.public)) {
			t.Errorf("%s: public key %x", v.name, got)
		}
		if got := ed25519.Sign(key, unhex(t, v.message)); !bytes.Equal(got, unhex(t, v.signature)) {
			t.Errorf("%s: signature %x", v.name, got)
		}
	}
}

func TestTheHashIsThePublishedOne(t *testing.T) {
	// FIPS 180-4 with the example of one block, "abc".
	const abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	if got := Digest([]byte("abc")); got != abc {
		t.Errorf("digest of abc: %s", got)
	}
	// The same by another way: printf '1\nabc' | sha256sum
	if got := Hash([]byte("abc")); got != sha256.Sum256([]byte("1\nabc")) || hex.EncodeToString(got[:]) == abc {
		t.Errorf("hash of abc: %x; the first line must be in it", got)
	}
}

func TestAKeyIsWrittenAsX509WritesIt(t *testing.T) {
	key := ed25519.PublicKey(unhex(t, rfc8032[0].public))
	want, err := x509.MarshalPKIXPublicKey(key)
	if err != nil {
		t.Fatal(err)
	}
	der := EncodeKey(key)
	if !bytes.Equal(der, want) || len(der) != 44 {
		t.Errorf("%x, want %x", der, want)
	}
	if back, err := ParseKey(der); err != nil || !back.Equal(key) {
		t.Errorf("%x, %v", back, err)
	}
	for i := range derPrefix {
		broken := bytes.Clone(der)
		broken[i] ^= 1
		if _, err := ParseKey(broken); err == nil {
			t.Errorf("byte %d changed and nobody noticed", i)
		}
	}
	if _, err := ParseKey(der[:43]); err == nil {
		t.Error("one byte short")
	}
}

func TestAnyFlippedBitSpoilsASignature(t *testing.T) {
	key := ed25519.NewKeyFromSeed(unhex(t, rfc8032[1].secret))
	public := key.Public().(ed25519.PublicKey)
	hash := Hash([]byte("an event"))
	sig := Sign(key, hash)
	if !Verify(public, hash, sig) {
		t.Fatal("a good signature")
	}
	for bit := range 8 * len(sig) {
		sig[bit/8] ^= 1 << (bit % 8)
		if Verify(public, hash, sig) {
			t.Errorf("bit %d of the signature", bit)
		}
		sig[bit/8] ^= 1 << (bit % 8)
	}
	for bit := range 8 * len(hash) {
		hash[bit/8] ^= 1 << (bit % 8)
		if Verify(public, hash, sig) {
			t.Errorf("bit %d of the hash", bit)
		}
		hash[bit/8] ^= 1 << (bit % 8)
	}
	if Verify(public[:31], hash, sig) || Verify(public, hash, sig[:63]) {
		t.Error("too short")
	}
}

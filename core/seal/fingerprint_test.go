package seal

import (
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestFingerprintsWorkedByHand(t *testing.T) {
	ones := [32]byte{}
	for i := range ones {
		ones[i] = 0xff
	}
	rows := []struct {
		name string
		hash [32]byte
		want string
		from string
	}{
		{"nothing but zeros", [32]byte{}, strings.Repeat("0", 26), "hand"},
		{"nothing but ones", ones, strings.Repeat("Z", 26), "hand: 31 is Z"},
		// 0x08 0x42 0x10 0x84 0x21 = 00001 00001 00001 00001 00001 00001 00001 00001
		{"eight times one", [32]byte{0x08, 0x42, 0x10, 0x84, 0x21}, "11111111" + strings.Repeat("0", 18), "hand"},
		// Five bytes are eight signs.
		{"Hello", [32]byte{'H', 'e', 'l', 'l', 'o'}, "91JPRV3F" + strings.Repeat("0", 18), "public descriptions of the code print 91JPRV3F for Hello"},
		// Bits 125 to 129 are the last three of byte 15 and the first two of byte 16.
		{"the last sign", [32]byte{15: 0x05, 16: 0x40}, strings.Repeat("0", 25) + "N", "hand: 101 01 = 21 = N"},
		{"bit 130 is not in it", [32]byte{16: 0x20}, strings.Repeat("0", 26), "hand"},
	}
	for _, r := range rows {
		if got := Fingerprint(r.hash); string(got) != r.want {
			t.Errorf("%s: %s, want %s (%s)", r.name, string(got), r.want, r.from)
		}
	}
}

// The same by another way: the hash as one big number in base 32.
func TestFingerprintIsTheFirst130Bits(t *testing.T) {
	const base32 = "0123456789abcdefghijklmnopqrstuv" // math/big's digits, in the order of our signs
	rapid.Check(t, func(rt *rapid.T) {
		hash := [32]byte(rapid.SliceOfN(rapid.Byte(), 32, 32).Draw(rt, "hash"))
		n := new(big.Int).Rsh(new(big.Int).SetBytes(hash[:]), 256-130)
		text := n.Text(32)
		text = strings.Repeat("0", 26-len(text)) + text
		want := strings.Map(func(c rune) rune { return rune(signs[strings.IndexRune(base32, c)]) }, text)
		got := Fingerprint(hash)
		if string(got) != want {
			rt.Fatalf("%s, want %s", string(got), want)
		}
		back, err := ParsePrint(strings.ToLower(got.String()))
		if err != nil || back != got || !back.Of(hash) {
			rt.Fatalf("%s read back as %s, %v", got, back, err)
		}
	})
}

func TestAPrintIsReadAsPeopleCopyIt(t *testing.T) {
	const want = Print("0123456789ABCDEFGHJKMNPQ10")
	for _, text := range []string{
		"012345 6789ABC\nDEFGHJ KMNPQ10",
		"o12345-6789abc-defghj-kmnpqlo",
		"OI23456789ABCDEFGHJKMNPQI0",
		"ol23456789abcdefghjkmnpqLO\n",
		"\ufeff012345\u202f6789ABC \u2013 DEFG\u00adHJ\u200b\tKMNPQ\u00a010\r\n", // pasted from a letter
	} {
		if got, err := ParsePrint(text); err != nil || got != want {
			t.Errorf("%q: %s, %v", text, string(got), err)
		}
	}
	if want.Rows() != [2]string{"012345 6789ABC", "DEFGHJ KMNPQ10"} {
		t.Errorf("rows %q", want.Rows())
	}
	for text, says := range map[string]string{
		"012345 6789ABC\nDEFGHJ KMNPQ1":   "26 signs, this one has 25",
		"012345 6789ABC\nDEFGHJ KMNPQ100": "26 signs, this one has 27",
		"012345 6789ABU\nDEFGHJ KMNPQ10":  `sign 13 of the fingerprint is 'U'`,
		"":                                "has 0",
	} {
		if _, err := ParsePrint(text); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v; it should say %q", text, err, says)
		}
	}
}

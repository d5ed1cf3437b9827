package seal

import (
	"fmt"
	"strings"
	"unicode"
)

// Print is what a sheet shows of the seal that it was printed from: the first
// 130 bits of its hash as 26 signs. The zero Print stands for no seal.
type Print string

// Digits and capitals without I, L, O and U, as Douglas Crockford described
// them in "Base 32" (crockford.com/base32.html): none is taken for another when
// read aloud or copied by hand.
const signs = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

const printLen = 26

// Fingerprint returns the print of a hash.
func Fingerprint(hash [32]byte) Print {
	var out [printLen]byte
	for i := range out {
		at := i * 5 // the five bits from here; they reach at most into the next byte
		pair := uint(hash[at/8])<<8 | uint(hash[at/8+1])
		out[i] = signs[pair>>(11-at%8)&31]
	}
	return Print(out[:])
}

// Rows returns p for printing: two rows of a group of six and one of seven.
func (p Print) Rows() [2]string {
	if len(p) != printLen {
		return [2]string{string(p)}
	}
	return [2]string{string(p[:6] + " " + p[6:13]), string(p[13:19] + " " + p[19:])}
}

// String returns the rows, one below the other.
func (p Print) String() string {
	rows := p.Rows()
	return strings.TrimSuffix(rows[0]+"\n"+rows[1], "\n")
}

// Of reports whether p is the print of hash.
func (p Print) Of(hash [32]byte) bool { return p == Fingerprint(hash) }

// ParsePrint reads a print that a person copied: capitals or not, O for 0, I or
// L for 1, with blanks, hyphens, line ends and signs that cannot be seen anywhere.
func ParsePrint(text string) (Print, error) {
	var out strings.Builder
	for _, c := range strings.ToUpper(text) {
		switch {
		case unicode.IsSpace(c), unicode.In(c, unicode.Pd, unicode.Cf): // gaps, hyphens, what cannot be seen
			continue
		case c == 'O':
			c = '0'
		case c == 'I' || c == 'L':
			c = '1'
		}
		if !strings.ContainsRune(signs, c) {
			return "", fmt.Errorf("seal: sign %d of the fingerprint is %q, which none has", out.Len()+1, c)
		}
		out.WriteRune(c)
	}
	if out.Len() != printLen {
		return "", fmt.Errorf("seal: a fingerprint has %d signs, this one has %d", printLen, out.Len())
	}
	return Print(out.String()), nil
}

package bank

import "strings"

// part is an id taken apart.
type part struct {
	kind     Kind
	owner    string // see [OwnerOf]; the id itself for blocks, strings and groups
	number   int    // block number, index of a letter, running number, or conductor; -1 for the main fuse
	sign     string // "p" or "n"
	from, to string // ends of a link
	at       string // end at which a joint lies
	word     string // word before a running number, or stage
}

// end is what a link can land on. Its kind is that of the owner.
type end struct {
	kind   Kind
	owner  string
	number int // block number, or index of the letter
	sign   string
}

func parse(id string) (part, bool) {
	if link, at, ok := strings.Cut(id, "@"); ok {
		p, ok := parseLink(link)
		p.kind, p.owner, p.at = KindJoint, link, at
		return p, ok && (at == p.from || at == p.to)
	}
	if strings.Contains(id, "~") {
		return parseLink(id)
	}
	if kind, ok := single[id]; ok {
		return part{kind: kind}, true
	}
	if e := splitEnd(id); e.kind != "" {
		p := part{kind: KindEnd, owner: e.owner, number: e.number, sign: e.sign}
		switch e.kind {
		case KindBlock:
			p.kind = KindPost
		case KindBar:
			p.kind = KindBar
		}
		return p, true
	}
	if p, ok := parseUnit(id); ok {
		return p, true
	}
	if head, tail, ok := strings.Cut(id, "."); ok {
		return parseDotted(head, tail)
	}
	return parseNumbered(id)
}

// parseUnit reads a block, string or group.
func parseUnit(id string) (part, bool) {
	if n, ok := blockNumber(id); ok {
		return part{kind: KindBlock, owner: id, number: n}, true
	}
	if len(id) == 2 {
		i, ok := letterIndex(id[1:], maxAcross)
		switch id[0] {
		case 's':
			return part{kind: KindString, owner: id, number: i}, ok
		case 'g':
			return part{kind: KindGroup, owner: id, number: i}, ok
		}
	}
	return part{}, false
}

// splitEnd reads what a link can land on; its kind is empty when s is no end.
func splitEnd(s string) end {
	owner, sign, ok := strings.Cut(s, ".")
	if !ok || sign != "p" && sign != "n" {
		return end{}
	}
	if owner == "bar" {
		return end{kind: KindBar, owner: owner, sign: sign}
	}
	p, ok := parseUnit(owner)
	if !ok {
		return end{}
	}
	return end{kind: p.kind, owner: owner, number: p.number, sign: sign}
}

func parseLink(id string) (part, bool) {
	from, rest, ok := strings.Cut(id, "~")
	to, second, more := strings.Cut(rest, "~")
	p := part{kind: KindLink, owner: id, from: from, to: to, number: 1}
	if more {
		p.number, ok = count(second)
		ok = ok && p.number >= 2 && p.number <= 9
	}
	a, b := splitEnd(from), splitEnd(to)
	return p, ok && a.kind != "" && b.kind != "" && a.owner != b.owner && endBefore(from, to)
}

func parseDotted(head, tail string) (part, bool) {
	switch head {
	case "lead":
		return part{kind: KindLead, sign: tail}, tail == "p" || tail == "n"
	case "stage":
		return part{kind: KindStage, word: tail}, isWord(tail)
	case "fuse":
		if tail == "main" {
			return part{kind: KindFuse, number: -1}, true
		}
		i, ok := letterIndex(tail, maxAcross)
		return part{kind: KindFuse, number: i}, ok
	}
	run, ok := parseNumbered(head)
	switch run.kind {
	case KindRest, KindCharge, KindCapacity, KindLoad:
		p := part{kind: KindSample, owner: head, number: run.number, word: run.word}
		return p, ok && isSampleID(tail)
	}
	return part{}, false
}

func parseNumbered(id string) (part, bool) {
	i := strings.IndexAny(id, "123456789")
	if i < 1 {
		return part{}, false
	}
	kind, known := numbered[id[:i]]
	n, ok := count(id[i:])
	return part{kind: kind, number: n, word: id[:i]}, known && ok
}

func isWord(s string) bool {
	return s != "" && strings.Trim(s, "abcdefghijklmnopqrstuvwxyz-") == "" && s[0] != '-'
}

func isSampleID(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if !(c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '-') {
			return false
		}
	}
	return s != ""
}

// endOrder puts posts before bus bars before groups before strings.
var endOrder = map[Kind]int{KindBlock: 0, KindBar: 1, KindGroup: 2, KindString: 3}

// endBefore orders the two ends of a link id: kind, then number or letter, then
// plus before minus.
func endBefore(a, b string) bool {
	x, y := splitEnd(a), splitEnd(b)
	if x.kind != y.kind {
		return endOrder[x.kind] < endOrder[y.kind]
	}
	if x.number != y.number {
		return x.number < y.number
	}
	return x.sign == "p" && y.sign == "n"
}

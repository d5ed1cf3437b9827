package bank

import (
	"strconv"
	"strings"
)

// Kind is what a part id names.
type Kind string

const (
	KindBlock    Kind = "block"  // b3
	KindPost     Kind = "post"   // b3.p
	KindString   Kind = "string" // sA
	KindGroup    Kind = "group"  // gA
	KindEnd      Kind = "end"    // sA.p, gB.n: the end of a string or group
	KindBar      Kind = "bar"    // bar.p
	KindLink     Kind = "link"   // b1.n~b2.p, second conductor b1.n~b2.p~2
	KindJoint    Kind = "joint"  // b1.n~b2.p@b1.n
	KindBank     Kind = "bank"
	KindSite     Kind = "site"
	KindHouse    Kind = "house"
	KindStage    Kind = "stage" // stage.wire
	KindLead     Kind = "lead"  // lead.p
	KindFuse     Kind = "fuse"  // fuse.main, fuse.A
	KindSwitch   Kind = "switch"
	KindShunt    Kind = "shunt"
	KindCharger  Kind = "charger"
	KindInverter Kind = "inverter"
	KindSheet    Kind = "sheet"
	KindCable    Kind = "cable"
	KindMeter    Kind = "meter"    // m1
	KindWrench   Kind = "wrench"   // w1
	KindPerson   Kind = "person"   // p1
	KindRest     Kind = "rest"     // rest1
	KindCharge   Kind = "charge"   // charge1
	KindCapacity Kind = "capacity" // capacity1
	KindLoad     Kind = "load"     // load1
	KindSample   Kind = "sample"   // charge1.<event id>
)

// numbered are the words before a running number. Longest first is not needed:
// the number must begin where the word ends.
var numbered = map[string]Kind{
	"charger": KindCharger, "inverter": KindInverter, "sheet": KindSheet, "cable": KindCable,
	"m": KindMeter, "w": KindWrench, "p": KindPerson,
	"rest": KindRest, "charge": KindCharge, "capacity": KindCapacity, "load": KindLoad,
}

var single = map[string]Kind{
	"bank": KindBank, "site": KindSite, "house": KindHouse, "switch": KindSwitch, "shunt": KindShunt,
}

// PartKind tells what an id names, in any layout. False means: no part id.
func PartKind(id string) (Kind, bool) {
	p, ok := parse(id)
	return p.kind, ok
}

// Exists reports whether a part is in this layout. Parts that no layout can
// deny (site, meters, sheets, charges) always exist when their id is well formed.
func Exists(l Layout, id string) bool {
	p, ok := parse(id)
	if !ok {
		return false
	}
	switch p.kind {
	case KindBlock, KindPost:
		_, _, ok = l.Position(p.owner)
	case KindString:
		ok = l.Join == JoinStrings && p.number < l.Parallel
	case KindGroup:
		ok = l.Join == JoinGroups && p.number < l.Series
	case KindEnd:
		ok = Exists(l, p.owner)
	case KindBar:
		ok = l.Join == JoinStrings && l.Bars()
	case KindLink, KindJoint:
		_, _, ok = l.drawn(p.from, p.to)
	case KindFuse:
		ok = p.number < 0 || l.Join == JoinStrings && l.Parallel > 1 && p.number < l.Parallel
	}
	return ok
}

// LinkOf gives the link and the end of a joint id.
func LinkOf(joint string) (link, at string, ok bool) {
	p, ok := parse(joint)
	if !ok || p.kind != KindJoint {
		return "", "", false
	}
	return p.owner, p.at, true
}

// EndsOf gives the two ends of a link id, drawn or not.
func EndsOf(link string) (from, to string, ok bool) {
	p, ok := parse(link)
	if !ok || p.kind != KindLink {
		return "", "", false
	}
	return p.from, p.to, true
}

// OwnerOf gives the block of a post, the string or group of an end, the run a
// sample belongs to and the link of a joint; "" for parts that have no owner.
func OwnerOf(id string) string {
	p, ok := parse(id)
	if !ok || p.owner == id {
		return ""
	}
	return p.owner
}

// BlockNumber gives the number on the tape of a block, from a block or post id.
func BlockNumber(id string) (int, bool) {
	return blockNumber(strings.TrimSuffix(strings.TrimSuffix(id, ".p"), ".n"))
}

func blockNumber(id string) (int, bool) {
	if !strings.HasPrefix(id, "b") {
		return 0, false
	}
	n, ok := count(id[1:])
	return n, ok && n <= maxBlock
}

// count reads a running number: from 1, no sign, no leading zero.
func count(s string) (int, bool) {
	if s == "" || s[0] < '1' || s[0] > '9' || len(s) > 6 {
		return 0, false
	}
	n, err := strconv.Atoi(s)
	return n, err == nil
}

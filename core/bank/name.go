package bank

import (
	"strconv"

	"lugmark/core/say"
)

// Names of parts. The capital ones stand alone, the small ones inside them.
var (
	nameBlock = say.Phrase{Key: "bank.name-block", English: "Block {block}"}
	namePostP = say.Phrase{Key: "bank.name-post-plus", English: "Block {block}, plus post"}
	namePostN = say.Phrase{Key: "bank.name-post-minus", English: "Block {block}, minus post"}

	nameString = say.Phrase{Key: "bank.name-string", English: "String {letter}"}
	nameGroup  = say.Phrase{Key: "bank.name-group", English: "Group {letter}"}
	nameStrP   = say.Phrase{Key: "bank.name-string-plus", English: "String {letter}, plus end"}
	nameStrN   = say.Phrase{Key: "bank.name-string-minus", English: "String {letter}, minus end"}
	nameGrpP   = say.Phrase{Key: "bank.name-group-plus", English: "Group {letter}, plus end"}
	nameGrpN   = say.Phrase{Key: "bank.name-group-minus", English: "Group {letter}, minus end"}
	nameBarP   = say.Phrase{Key: "bank.name-bar-plus", English: "Plus bus bar"}
	nameBarN   = say.Phrase{Key: "bank.name-bar-minus", English: "Minus bus bar"}

	nameLink       = say.Phrase{Key: "bank.name-link", English: "Link, {from} to {to}"}
	nameLinkSecond = say.Phrase{Key: "bank.name-link-second", English: "Link, {from} to {to}, conductor {number}"}
	nameJoint      = say.Phrase{Key: "bank.name-joint", English: "Joint at {at}, link to {other}"}
	nameJoint2     = say.Phrase{Key: "bank.name-joint-second", English: "Joint at {at}, link to {other}, conductor {number}"}

	endBlockP  = say.Phrase{Key: "bank.end-block-plus", English: "block {block} plus"}
	endBlockN  = say.Phrase{Key: "bank.end-block-minus", English: "block {block} minus"}
	endStringP = say.Phrase{Key: "bank.end-string-plus", English: "string {letter} plus"}
	endStringN = say.Phrase{Key: "bank.end-string-minus", English: "string {letter} minus"}
	endGroupP  = say.Phrase{Key: "bank.end-group-plus", English: "group {letter} plus"}
	endGroupN  = say.Phrase{Key: "bank.end-group-minus", English: "group {letter} minus"}
	endBarP    = say.Phrase{Key: "bank.end-bar-plus", English: "plus bus bar"}
	endBarN    = say.Phrase{Key: "bank.end-bar-minus", English: "minus bus bar"}

	nameFuseMain = say.Phrase{Key: "bank.name-fuse-main", English: "Main fuse"}
	nameFuse     = say.Phrase{Key: "bank.name-fuse", English: "Fuse of string {letter}"}
	nameLeadP    = say.Phrase{Key: "bank.name-lead-plus", English: "Main lead, plus"}
	nameLeadN    = say.Phrase{Key: "bank.name-lead-minus", English: "Main lead, minus"}
	nameSample   = say.Phrase{Key: "bank.name-sample", English: "{run}, sample"}
)

var singleNames = map[Kind]say.Phrase{
	KindBank:   {Key: "bank.name-bank", English: "Bank"},
	KindSite:   {Key: "bank.name-site", English: "Site"},
	KindHouse:  {Key: "bank.name-house", English: "House rules"},
	KindSwitch: {Key: "bank.name-switch", English: "Main switch"},
	KindShunt:  {Key: "bank.name-shunt", English: "Shunt"},
}

// firstNames are for things of which a job mostly has one: the first is not
// counted.
var firstNames = map[Kind]say.Phrase{
	KindCharger:  {Key: "bank.name-charger-first", English: "Charger"},
	KindInverter: {Key: "bank.name-inverter-first", English: "Inverter"},
}

var numberedNames = map[Kind]say.Phrase{
	KindCharger:  {Key: "bank.name-charger", English: "Charger {number}"},
	KindInverter: {Key: "bank.name-inverter", English: "Inverter {number}"},
	KindSheet:    {Key: "bank.name-sheet", English: "Block sheet {number}"},
	KindCable:    {Key: "bank.name-cable", English: "Cable {number}"},
	KindMeter:    {Key: "bank.name-meter", English: "Meter {number}"},
	KindWrench:   {Key: "bank.name-wrench", English: "Torque wrench {number}"},
	KindPerson:   {Key: "bank.name-person", English: "Person {number}"},
	KindRest:     {Key: "bank.name-rest", English: "Rest {number}"},
	KindCharge:   {Key: "bank.name-charge", English: "Charge {number}"},
	KindCapacity: {Key: "bank.name-capacity", English: "Capacity test {number}"},
	KindLoad:     {Key: "bank.name-load", English: "Load test {number}"},
}

var stageNames = map[string]say.Phrase{
	"before":       {Key: "bank.stage-before", English: "Before you start"},
	"receive":      {Key: "bank.stage-receive", English: "Receive"},
	"match":        {Key: "bank.stage-match", English: "Match"},
	"wire":         {Key: "bank.stage-wire", English: "Wire"},
	"switch-on":    {Key: "bank.stage-switch", English: "Switch on"},
	"first-charge": {Key: "bank.stage-charge", English: "First charge"},
	"prove":        {Key: "bank.stage-prove", English: "Prove"},
	"hand-over":    {Key: "bank.stage-handover", English: "Hand over"},
	"return":       {Key: "bank.stage-return", English: "Return visit"},
}

var (
	nameStage   = say.Phrase{Key: "bank.stage", English: "Stage {word}"}
	nameUnknown = say.Phrase{Key: "bank.name-unknown", English: "Part {id}"}
)

// Name is the plain name of a part: "Block 3", "Link, block 1 minus to block 2
// plus". An id that names no part comes back as it is, so that it is seen.
func Name(id string) say.Line {
	p, ok := parse(id)
	if !ok {
		return nameUnknown.With("id", id)
	}
	number := strconv.Itoa(p.number)
	switch p.kind {
	case KindBlock:
		return nameBlock.With("block", number)
	case KindPost:
		return bySign(p.sign, namePostP, namePostN).With("block", number)
	case KindString:
		return nameString.With("letter", letter(p.number))
	case KindGroup:
		return nameGroup.With("letter", letter(p.number))
	case KindEnd:
		if p.owner[0] == 'g' {
			return bySign(p.sign, nameGrpP, nameGrpN).With("letter", letter(p.number))
		}
		return bySign(p.sign, nameStrP, nameStrN).With("letter", letter(p.number))
	case KindBar:
		return bySign(p.sign, nameBarP, nameBarN).With()
	case KindLink, KindJoint:
		return conductorName(p)
	case KindFuse:
		if p.number < 0 {
			return nameFuseMain.With()
		}
		return nameFuse.With("letter", letter(p.number))
	case KindLead:
		return bySign(p.sign, nameLeadP, nameLeadN).With()
	case KindSample:
		return nameSample.With("run", Name(p.owner))
	case KindStage:
		if known, ok := stageNames[p.word]; ok {
			return known.With()
		}
		return nameStage.With("word", p.word)
	}
	if alone, ok := singleNames[p.kind]; ok {
		return alone.With()
	}
	if first, ok := firstNames[p.kind]; ok && p.number == 1 {
		return first.With()
	}
	return numberedNames[p.kind].With("number", number)
}

// EndName is the name of a post, string end or bus bar inside a sentence:
// "block 1 minus".
func EndName(id string) say.Line {
	e := splitEnd(id)
	switch e.kind {
	case KindBlock:
		return bySign(e.sign, endBlockP, endBlockN).With("block", strconv.Itoa(e.number))
	case KindString:
		return bySign(e.sign, endStringP, endStringN).With("letter", letter(e.number))
	case KindGroup:
		return bySign(e.sign, endGroupP, endGroupN).With("letter", letter(e.number))
	case KindBar:
		return bySign(e.sign, endBarP, endBarN).With()
	}
	return Name(id)
}

func conductorName(p part) say.Line {
	number := strconv.Itoa(p.number)
	if p.kind == KindLink {
		from, to := EndName(p.from), EndName(p.to)
		if p.number > 1 {
			return nameLinkSecond.With("from", from, "to", to, "number", number)
		}
		return nameLink.With("from", from, "to", to)
	}
	other := p.from
	if p.at == p.from {
		other = p.to
	}
	if p.number > 1 {
		return nameJoint2.With("at", EndName(p.at), "other", EndName(other), "number", number)
	}
	return nameJoint.With("at", EndName(p.at), "other", EndName(other))
}

func bySign(sign string, plus, minus say.Phrase) say.Phrase {
	if sign == "n" {
		return minus
	}
	return plus
}

package checks

import (
	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// base is a limit before the firm's own rule: maker, else standard, else
// practice.
type base[Q unit.Quantity] struct {
	Value  Q
	Kind   finding.Kind
	Source say.Line
}

var (
	sayHouseIgnored = say.Phrase{Key: "note.house-ignored", English: "The firm's own rule ({house}) is looser than this limit and was not used."}
	sayHouseLooser  = say.Phrase{Key: "assumed.house-looser", English: "The firm's rule is looser than practice: {house} where practice has {base}."}
)

// fromMaker is a maker's value with the page that gives it.
func fromMaker[Q unit.Quantity](f *Facts, part string, v Q) base[Q] {
	return base[Q]{v, finding.Maker, f.makerSource(part)}
}

// makerSource names the page of a sheet.
func (f *Facts) makerSource(part string) say.Line {
	var page string
	f.quietly(func() { page, _ = sheetPage.Of(f, part) })
	return cite.Maker(page).Line()
}

// houseField gives the field under which a firm's own limit is kept:
// "voltage-match.spread". Only limits of the list can be set.
func houseField(id string) (Field, bool) {
	for _, h := range HouseLimits {
		if h.Check+"."+h.Name == id {
			return Field{&Spec{ID: id, Kind: Number, Of: []bank.Kind{bank.KindHouse}, Stage: Before, Setup: true, Unit: h.Unit, Label: labelOf("house."+id, h.Check+", "+h.Name)}}, true
		}
	}
	return noField, false
}

// LimitOf names a limit of a check and one place where its value may come from.
type LimitOf struct {
	Name string
	Kind finding.Kind
}

// HouseLimit names a limit that a firm may tighten.
type HouseLimit struct {
	Check, Name string
	Unit        unit.Symbol
}

// HouseLimits lists every limit that a firm may tighten.
var HouseLimits = []HouseLimit{
	{"voltage-match", "spread", "V"}, {"gap-voltage", "gap", "V"}, {"same-temp", "spread", "K"},
	{"rested", "rest", "s"}, {"join-current", "current", "A"}, {"bank-total", "difference", "V"},
	{"top-spread", "spread", "V"}, {"joint-r", "resistance", "Ohm"}, {"precharge", "left", "V"},
	{"charge-rate", "current", "A"}, {"cold-gate", "coldest", "C"}, {"share", "current", "A"},
	{"capacity", "rated", "ratio"}, {"parallel-rest", "rest", "s"}, {"lead-drop", "drop", "V"},
	{"first-close", "current", "A"},
	{"charge-drop", "drop", "V"},
	{"return-ratio", "ratio", "ratio"}, {"cutoff-amps", "current", "A"}, {"own-draw", "current", "A"},
	{"measured-share", "ratio", "ratio"}, {"joint-heat", "difference", "K"}, {"sensor-pair", "difference", "K"},
}

// physical are the checks whose usual limit is what cells bear at a temperature
// and no custom: no firm may loosen it.
var physical = map[string]bool{"charge-rate": true, "cold-gate": true}

// upper gives the limit of a check after the firm's own rule. House replaces
// the base when it is tighter (smaller); when it is looser only if the base is
// practice, which is then said as assumed; otherwise it is ignored and a note
// says so.
func upper[Q unit.Quantity](f *Facts, check, name string, b base[Q]) (finding.Limit, Q, []say.Line) {
	v, kind, source, notes := withHouse(f, check, name, b, func(house, base Q) bool { return house < base })
	return finding.AtMost(name, v, kind, source), v, notes
}

// lower is [upper] for a limit that tightens upward.
func lower[Q unit.Quantity](f *Facts, check, name string, b base[Q]) (finding.Limit, Q, []say.Line) {
	v, kind, source, notes := withHouse(f, check, name, b, func(house, base Q) bool { return house > base })
	return finding.AtLeast(name, v, kind, source), v, notes
}

func withHouse[Q unit.Quantity](f *Facts, check, name string, b base[Q], tighter func(house, base Q) bool) (Q, finding.Kind, say.Line, []say.Line) {
	field, ok := houseField(check + "." + name)
	if !ok {
		return b.Value, b.Kind, b.Source, nil
	}
	show := field.Entry()
	if show == "s" { // nobody counts a rest in seconds
		show = "h"
	}
	var house Q
	var has bool
	f.quietly(func() { house, has = Quantity[Q]{field}.Plain(f, "house") })
	switch {
	case !has || house == b.Value:
		return b.Value, b.Kind, b.Source, nil
	case tighter(house, b.Value):
		return house, finding.House, cite.Firm.Line(), nil
	case b.Kind == finding.Practice && !physical[check]:
		f.assume(sayHouseLooser.With("house", exact(house, show), "base", exact(b.Value, show)))
		return house, finding.House, cite.Firm.Line(), nil
	}
	return b.Value, b.Kind, b.Source, []say.Line{sayHouseIgnored.With("house", exact(house, show))}
}

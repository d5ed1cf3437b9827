package checks

import (
	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// conductorAmps is what a main lead or a drawn link carries for hours, lowest
// and highest over what the resistances may be [A]. Leads, and links between
// groups or of a single string, carry all of it; a link inside a string or to a
// bus bar what its branch carries. A link between two neighbours carries what
// all branches on the far side of it from the take-off carry together:
//
//	I_rung = Σ I_beyond = I − Σ I_near
//
// which is Kirchhoff's current law and needs no resistance of the link itself.
func (f *Facts) conductorAmps(part string) (measure.Interval[unit.Ampere], *finding.Finding) {
	design, gap := f.designAmps()
	whole := measure.Interval[unit.Ampere]{Low: design, High: design}
	l := f.Layout()
	k, drawn := l.Link(part)
	if gap != nil || !drawn || l.Parallel == 1 || k.Kind == bank.Series && k.Of == "bank" {
		return whole, gap
	}
	of := "bank"
	if l.Join == bank.JoinGroups && l.Series > 1 {
		of = k.Of
	}
	// Every link of a bank rests on the same resistances. What was assumed, put
	// aside or in conflict among them is said of each; the long list of what was
	// read stands with the share.
	type flow struct {
		net   network
		spans []measure.Interval[unit.Ampere]
		known bool
	}
	m := f.recall("flow "+of, func() any {
		net, gap := f.network(of)
		if gap != nil {
			return flow{}
		}
		spans, err := net.currents(design)
		return flow{net, spans, err == nil}
	})
	m.reads = nil
	f.replay(m)
	all := m.value.(flow)
	net, spans := all.net, all.spans
	if !all.known {
		net, gap := f.network(of)
		if gap == nil {
			x := finding.CannotTell(sayNetworkOdd.With(), enter(linkR.Field, net.odd))
			gap = &x
		}
		return whole, gap
	}
	at := net.branchAt(k)
	if k.Kind == bank.Series || l.Bars() {
		return spans[at], nil
	}
	takeoff := net.ladder.Plus
	if k.From == bank.OwnerOf(k.From)+".n" {
		takeoff = net.ladder.Minus
	}
	beyond, near := total(spans[at:]), total(spans[:at])
	if takeoff >= at {
		beyond, near = near, beyond
	}
	return measure.Interval[unit.Ampere]{
		Low:  max(beyond.Low, design-near.High, 0),
		High: min(beyond.High, design-near.Low),
	}, nil
}

// branchAt is the column of the branch that a link belongs to; of two
// neighbours the farther one.
func (n network) branchAt(k bank.Link) (at int) {
	for i, id := range n.branches {
		if id == k.Of || id == bank.OwnerOf(k.From) || id == bank.OwnerOf(k.To) {
			at = i
		}
	}
	return at
}

// total adds up what some branches carry.
func total(spans []measure.Interval[unit.Ampere]) (sum measure.Interval[unit.Ampere]) {
	for _, s := range spans {
		sum.Low, sum.High = sum.Low+s.Low, sum.High+s.High
	}
	return sum
}

// needs says on which side of a need of this many amperes, times a factor, a
// conductor lies.
func needs(allowed unit.Ampere, amps measure.Interval[unit.Ampere], factor unit.Ampere) measure.Side {
	plain := measure.Exact(allowed).Interval()
	switch {
	case measure.AtLeast(plain, amps.High*factor) == measure.Inside:
		return measure.Inside
	case measure.AtLeast(plain, amps.Low*factor) == measure.Outside:
		return measure.Outside
	}
	return measure.Across
}

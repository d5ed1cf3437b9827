package checks

import (
	"math"
	"slices"

	"lugmark/core/bank"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/unit"
)

// joint is the resistance of one joint as it was read.
func (f *Facts) joint(part string) (joint, *finding.Finding) {
	s, gap := f.jointShown(part)
	if gap != nil {
		return joint{}, gap
	}
	return f.jointOf(s, false, false), nil
}

// jointShown is what the meters showed at one joint: both drops and the current
// through its link.
type jointShown struct {
	drop, zero measure.Shown[unit.Volt]
	amps       measure.Shown[unit.Ampere]
}

// jointShown reads one joint. The current comes first: whether it is large enough
// for the meter is told before the first drop is read. The reading without current
// takes the contact voltages off; it is never assumed.
func (f *Facts) jointShown(part string) (s jointShown, gap *finding.Finding) {
	var ok bool
	var amps *finding.Finding
	if s.amps, amps = f.linkCurrent(bank.OwnerOf(part)); amps != nil && amps.Verdict() == finding.ToDo { // before anybody reads a drop
		return s, amps
	}
	if s.drop, ok = jointDrop.Of(f, part); !ok || f.openedSince(bank.OwnerOf(part), s.drop.Lam, s.drop.At) {
		x := missing(jointDrop.Field, part)
		return s, &x
	}
	if s.zero, ok = jointZero.Of(f, part); !ok {
		x := missing(jointZero.Field, part)
		return s, &x
	}
	if amps != nil {
		return s, amps
	}
	if s.amps.Value <= 0 {
		x := missing(jointCurrent.Field, "bank")
		return s, &x
	}
	return s, nil
}

// jointOf works out the resistance, without the gain of a meter where that falls
// out of what it is for.
func (f *Facts) jointOf(s jointShown, voltsFall, ampsFall bool) joint {
	value, u := measure.Over(s.drop, s.zero, gainless(specOf(f, s.drop), voltsFall), gainless(specOf(f, s.zero), voltsFall),
		s.amps, gainless(specOf(f, s.amps), ampsFall))
	value = math.Abs(value) // probes the other way round read the same joint
	return joint{measure.Reading[unit.Ohm]{Value: unit.Ohm(value), U: unit.Ohm(u)}, s.amps.Value, max(s.drop.Step, s.zero.Step)}
}

// linkCurrent is the current through a link while the drops were read: clamped
// at the link itself, or that of the bank where the link carries all of it.
func (f *Facts) linkCurrent(link string) (measure.Shown[unit.Ampere], *finding.Finding) {
	own, ok := jointCurrent.Of(f, link)
	if !ok {
		all, entered := jointCurrent.Of(f, "bank")
		switch {
		case f.carriesAll(link) && entered:
			own = all
		case f.carriesAll(link):
			x := missing(jointCurrent.Field, "bank")
			return own, &x
		case entered:
			x := finding.CannotTell(sayJointBank.With(), sayJointClamp.With())
			return own, &x
		default:
			x := missing(jointCurrent.Field, link)
			return own, &x
		}
	}
	own.Value = max(own.Value, -own.Value)
	return own, nil
}

// carriesAll reports whether the whole current of the bank goes through one
// conductor: a series link of a single string, or between groups.
func (f *Facts) carriesAll(link string) bool {
	l := f.Layout()
	k, drawn := l.Link(link)
	alone := drawn && len(f.entered(bank.KindLink, k.From+"~"+k.To+"~")) == 0
	return alone && k.Kind == bank.Series && (k.Of == "bank" || l.Parallel == 1)
}

// likeJoints gives the resistances of the other joints of the same make that
// were measured well enough, in rising order: on a link of the same kind, at an
// end of the same kind.
func (f *Facts) likeJoints(part string) []unit.Ohm {
	type measured struct {
		of     map[string]unit.Ohm   // by joint
		rising map[string][]unit.Ohm // by make
	}
	all := rememberQuietly(f, "joints", func() measured {
		m := measured{map[string]unit.Ohm{}, map[string][]unit.Ohm{}}
		parts, _ := jointParts(f)
		for _, p := range parts {
			f.begin()
			if j, gap := f.joint(p); gap == nil && j.sharp() {
				m.of[p] = j.r.Value
				m.rising[f.makeOf(p)] = append(m.rising[f.makeOf(p)], j.r.Value)
			}
		}
		for _, list := range m.rising {
			slices.Sort(list)
		}
		return m
	})
	like := all.rising[f.makeOf(part)]
	own, measuredToo := all.of[part]
	if !measuredToo {
		return like
	}
	at, _ := slices.BinarySearch(like, own)
	return slices.Delete(slices.Clone(like), at, at+1)
}

// makeOf names what a joint is alike with.
func (f *Facts) makeOf(part string) string {
	link, at, _ := bank.LinkOf(part)
	k, _ := f.Layout().Link(link)
	end, _ := bank.PartKind(at)
	return string(k.Kind) + " " + string(end)
}

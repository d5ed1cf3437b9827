package checks

import (
	"slices"

	"lugmark/core/bank"
	"lugmark/core/cite"
	"lugmark/core/finding"
	"lugmark/core/measure"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// A joint is judged against the others of its kind: a bad one stands out.
//
// With fewer than three like joints there is nothing to stand out from; then
// it is judged by itself. Probes sit on lug barrel and post pad.
var jointResistance = &Check{
	ID: "joint-r", Stage: Prove,
	Title:   say.Phrase{Key: "joint-r.title", English: "Joint resistance"},
	Asks:    say.Phrase{Key: "joint-r.asks", English: "Is every bolted joint as good as its like?"},
	Formula: "R = (U_on − U_off)/I [Ω] ≤ median of the others + max(10 %, 5 µΩ) and ≤ 100 µΩ; n < 3: R ≤ 50 µΩ and I_design²·R ≤ 2 W",
	Limits:  []LimitOf{{"resistance", finding.Standard}, {"resistance", finding.Practice}},
	Sources: []*cite.Source{&cite.IEEEJoint, &cite.OurRule},
	Fields:  []*Field{&jointCurrent.Field, &jointDrop.Field, &jointZero.Field, &designCurrent.Field},
	Parts:   jointParts,
	Eval:    evalJoint,
}

var (
	sayJointGood   = say.Phrase{Key: "joint-r.pass", English: "It has {found}; the other {count} like joints have {median} in the middle, and {limit} is the limit."}
	sayJointBad    = say.Phrase{Key: "joint-r.fail", English: "It has {found}; the other {count} like joints have {median} in the middle. Above {line} a joint is bad."}
	sayJointBurn   = say.Phrase{Key: "joint-r.burning", English: "It has {found}; above {line} no bolted joint is good."}
	sayJointUnk    = say.Phrase{Key: "joint-r.cant-tell", English: "It has {found}; the other {count} like joints have {median} in the middle, and {limit} is the limit. It is not good and not surely bad."}
	sayJointCoarse = say.Phrase{Key: "joint-r.coarse", English: "It has {found}; to tell it from the others the uncertainty must be {half} or less."}
	sayJointWeak   = say.Phrase{Key: "joint-r.low-current", English: "It has {found}, read at {amps}. A meter that shows steps of {step} needs {least} or more."}
	sayJointStep   = say.Phrase{Key: "joint-r.big-step", English: "It has {found}, read in steps of {step}. A joint needs a meter that shows 0.1 mV or finer."}
	sayJointFew    = say.Phrase{Key: "joint-r.few.pass", English: "It has {found}; with fewer than three like joints measured the limit is {limit}. At the largest steady current it gives off {watts}; the limit is {most}."}
	sayJointFewUnk = say.Phrase{Key: "joint-r.few.cant-tell", English: "It has {found}; with fewer than three like joints measured the limit is {limit}. At the largest steady current it may give off {watts}; the limit is {most}."}
	sayJointNoAmps = say.Phrase{Key: "joint-r.few.no-current", English: "It has {found}; with fewer than three like joints measured its heat decides too, and the largest steady current is not entered."}
	sayJointBank   = say.Phrase{Key: "joint-r.bank-current", English: "Only the current of the whole bank is entered. This link carries a part of it, and nobody knows which."}
	sayJointRedo   = say.Phrase{Key: "joint-r.redo", English: "Load and charger off, main open. Then undo, clean, tighten to the torque, and measure again."}
	sayJointFiner  = say.Phrase{Key: "joint-r.finer", English: "Measure again with more current, or with a meter that shows finer steps."}
	sayJointClamp  = say.Phrase{Key: "joint-r.clamp", English: "Clamp this link itself and enter its current while the drop is read."}
)

const (
	// 10 % or 5 µΩ above like joints, whichever is more: after IEEE 450 and
	// 484 as makers' manuals give them. Like joints are the others, so that a
	// bad joint does not raise its own limit.
	jointRise          = 0.10
	jointStep unit.Ohm = 5e-6

	// Surely bad only beyond 50 % or 10 µΩ: our choice.
	jointFarRise          = 0.50
	jointFarStep unit.Ohm = 10e-6

	// Bolted joints have a few µΩ, less than 100: read.
	jointMost unit.Ohm = 100e-6

	// Where there are fewer than three like joints: our choice.
	jointAlone     unit.Ohm  = 50e-6
	jointAloneHeat unit.Watt = 2
	jointsAlike              = 3
)

// leastCurrents: 50 A where the meter shows 0.1 mV, 10 A where it shows 0.01
// mV. At k = 2 that is 1.6 and 0.8 µΩ.
var leastCurrents = []struct {
	step unit.Volt
	amps unit.Ampere
}{{0.01e-3, 10}, {0.1e-3, 50}}

// LeastJointAmps is the smallest current with which a joint can be judged by a
// meter of these millivolt steps [V]; false when no current is enough.
func LeastJointAmps(step float64) (unit.Ampere, bool) { return joint{step: unit.Volt(step)}.least() }

// jointParts: every joint of the drawing, and those of further conductors that
// were measured.
func jointParts(f *Facts) ([]string, say.Line) {
	parts := f.Layout().Joints()
	for _, l := range f.links {
		for _, k := range f.state.KeysFrom(f.visit, l.ID+"~") {
			if kind, ok := bank.PartKind(k.Part); ok && kind == bank.KindJoint && !slices.Contains(parts, k.Part) {
				parts = append(parts, k.Part)
			}
		}
	}
	if len(parts) == 0 {
		return nil, sayNoJoints.With()
	}
	return parts, say.Line{}
}

var sayNoJoints = say.Phrase{Key: "joint-r.none", English: "One block alone has no links and no joints between blocks."}

// joint is one joint as measured.
type joint struct {
	r    measure.Reading[unit.Ohm]
	amps unit.Ampere
	step unit.Volt // the coarser step of both readings
}

// least is the smallest current that this step allows; false when no current
// does.
func (j joint) least() (unit.Ampere, bool) {
	for _, l := range leastCurrents {
		if j.step <= l.step*(1+1e-9) {
			return l.amps, true
		}
	}
	return 0, false
}

// sharp reports whether the current was large enough for the meter.
func (j joint) sharp() bool {
	least, ok := j.least()
	return ok && j.amps >= least
}

func evalJoint(f *Facts, part string) []finding.Finding {
	j, gap := f.joint(part)
	if gap != nil {
		return one(*gap)
	}
	others := f.likeJoints(part)
	if len(others)+1 < jointsAlike {
		return one(f.judgeJointAlone(j))
	}
	median := middle(others)
	margin := max(median*jointRise, jointStep)
	far := min(median+max(median*jointFarRise, jointFarStep), jointMost)
	limit, most, notes := upper(f, "joint-r", "resistance", base[unit.Ohm]{min(median+margin, jointMost), finding.Standard, cite.IEEEJoint.Line()})
	limit = limit.In("uOhm")
	found := finding.Measured(j.r, "uOhm", limit)
	said := []any{"found", found.Text, "count", exact(unit.Count(len(others)), "1"), "median", rounded(median, "uOhm"),
		"limit", exact(most, "uOhm"), "line", exact(far, "uOhm"), "half", exact(margin/2, "uOhm")}
	var x finding.Finding
	switch {
	case measure.AtMost(j.r.Interval(), far) == measure.Outside:
		x = finding.Fails(sayJointBad.With(said...), sayJointRedo.With())
	case !j.sharp():
		x = j.tooWeak(found)
	case j.r.U > margin/2:
		x = finding.CannotTell(sayJointCoarse.With(said...), sayJointFiner.With())
	case measure.AtMost(j.r.Interval(), most) == measure.Inside:
		x = finding.Passes(sayJointGood.With(said...))
	default:
		x = finding.CannotTell(sayJointUnk.With(said...), sayJointRedo.With())
	}
	return one(x.Value(found).Against(limit).Noting(notes...))
}

// judgeJointAlone judges a joint that has too few like it.
func (f *Facts) judgeJointAlone(j joint) finding.Finding {
	limit, most, notes := upper(f, "joint-r", "resistance", base[unit.Ohm]{jointAlone, finding.Practice, cite.OurRule.Line()})
	limit = limit.In("uOhm")
	found := finding.Measured(j.r, "uOhm", limit)
	said := []any{"found", found.Text, "limit", exact(most, "uOhm"), "line", exact(jointMost, "uOhm"), "most", exact(jointAloneHeat, "W")}
	answer := func(x finding.Finding) finding.Finding { return x.Value(found).Against(limit).Noting(notes...) }
	if measure.AtMost(j.r.Interval(), jointMost) == measure.Outside {
		return answer(finding.Fails(sayJointBurn.With(said...), sayJointRedo.With()))
	}
	if !j.sharp() {
		return answer(j.tooWeak(found))
	}
	design, gap := f.designAmps()
	if gap != nil {
		return answer(finding.CannotTell(sayJointNoAmps.With(said...), enter(designCurrent.Field, "bank")))
	}
	watts := unit.Watt(float64(design) * float64(design) * float64(j.r.Value+j.r.U))
	said = append(said, "watts", rounded(watts, "W"))
	if measure.AtMost(j.r.Interval(), most) == measure.Inside && measure.AtMost(measure.Exact(watts).Interval(), jointAloneHeat) == measure.Inside {
		return answer(finding.Passes(sayJointFew.With(said...)))
	}
	return answer(finding.CannotTell(sayJointFewUnk.With(said...), sayJointRedo.With()))
}

// tooWeak says that the current was too small for the steps of the meter.
func (j joint) tooWeak(found finding.Found) finding.Finding {
	said := []any{"found", found.Text, "step", exact(j.step, "mV"), "amps", exact(j.amps, "A")}
	least, ok := j.least()
	if !ok {
		return finding.CannotTell(sayJointStep.With(said...), sayJointFiner.With())
	}
	return finding.CannotTell(sayJointWeak.With(append(said, "least", exact(least, "A"))...), sayJointFiner.With())
}

// middle is the median of some resistances in rising order, at least one.
func middle(rising []unit.Ohm) unit.Ohm {
	n := len(rising)
	if n%2 == 1 {
		return rising[n/2]
	}
	return (rising[n/2-1] + rising[n/2]) / 2
}

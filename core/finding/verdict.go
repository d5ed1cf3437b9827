// Package finding is what a check says: a verdict with its reason, the next
// action, the figures and the source of the limit.
//
// Findings are never stored: they are computed again from the record, and
// frozen once, in a seal. A Fail without a next action or a Not needed without
// a reason cannot be built.
package finding

// Verdict is one of six states. The zero Verdict is To do: nothing becomes
// Pass by forgetting.
type Verdict uint8

const (
	ToDo Verdict = iota
	Pass
	CantTell
	Fail
	NotNeeded
	Later
)

// codes are the words used outside the screen: files, exports, seals.
var codes = [...]string{ToDo: "to-do", Pass: "pass", CantTell: "cant-tell", Fail: "fail", NotNeeded: "not-needed", Later: "later"}

// Verdicts lists all six, worst first, as drawn parts choose among them.
var Verdicts = []Verdict{Fail, CantTell, ToDo, Later, Pass, NotNeeded}

// Code is the verdict's word in files.
func (v Verdict) Code() string { return codes[v] }

func (v Verdict) String() string { return codes[v] }

// Worse reports whether v stands before other in the order of a drawn part.
func (v Verdict) Worse(other Verdict) bool { return v.rank() < other.rank() }

func (v Verdict) rank() int {
	for i, x := range Verdicts {
		if x == v {
			return i
		}
	}
	return len(Verdicts)
}

// Worst gives the worst of vs; ok is false when there is none.
func Worst(vs ...Verdict) (worst Verdict, ok bool) {
	for i, v := range vs {
		if i == 0 || v.Worse(worst) {
			worst = v
		}
	}
	return worst, len(vs) > 0
}

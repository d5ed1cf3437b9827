package bank

import (
	"encoding/json"
	"fmt"
	"strings"

	"lugmark/core/say"
)

// Takeoff says where the two main leads leave the bank. Beside the three named
// forms it is a pair of places made by [TakeoffAt].
//
// In JSON it is the name, or a list of two: ["A","B"].
type Takeoff string

const (
	OneEnd     Takeoff = "one-end"     // both main leads at the first column
	Diagonal   Takeoff = "diagonal"    // plus at the first column, minus at the far end of the path
	EqualLeads Takeoff = "equal-leads" // every branch has its own pair of leads to two bus bars
)

// TakeoffAt puts the main plus lead at one place and the main minus lead at
// another: letters of strings ("A", "B"), or for groups block ids ("b2", "b6"),
// plus in the first group and minus in the last.
func TakeoffAt(plus, minus string) Takeoff { return Takeoff(plus + "," + minus) }

// Places gives the pair of a [TakeoffAt]; false for the three named forms.
func (t Takeoff) Places() (plus, minus string, ok bool) {
	return strings.Cut(string(t), ",")
}

func (t Takeoff) MarshalJSON() ([]byte, error) {
	if plus, minus, ok := t.Places(); ok {
		return json.Marshal([2]string{plus, minus})
	}
	return json.Marshal(string(t))
}

func (t *Takeoff) UnmarshalJSON(raw []byte) error {
	if strings.HasPrefix(strings.TrimSpace(string(raw)), "[") {
		var pair []string
		if err := json.Unmarshal(raw, &pair); err != nil || len(pair) != 2 {
			return fmt.Errorf("bank: read takeoff %s: want a name or two places", raw)
		}
		*t = TakeoffAt(pair[0], pair[1])
		return nil
	}
	var name string
	if err := json.Unmarshal(raw, &name); err != nil {
		return fmt.Errorf("bank: read takeoff %s: want a name or two places", raw)
	}
	*t = Takeoff(name)
	return nil
}

var (
	slipTakeoff = say.Phrase{Key: "bank.slip-takeoff",
		English: "Take-off: choose one end, diagonal, equal leads, or two places. It says “{word}”."}
	slipTakeoffString = say.Phrase{Key: "bank.slip-takeoff-string",
		English: "Take-off: “{word}” is not a string of this bank. Its strings are A to {last}."}
	slipTakeoffGroup = say.Phrase{Key: "bank.slip-takeoff-group",
		English: "Take-off: “{word}” is not a block of group {group}. Name one of its blocks."}
)

func (l Layout) validateTakeoff() error {
	switch l.Takeoff {
	case OneEnd, Diagonal, EqualLeads:
		return nil
	}
	plus, minus, ok := l.Takeoff.Places()
	if !ok {
		return Slip{slipTakeoff.With("word", string(l.Takeoff))}
	}
	if l.Join == JoinStrings {
		for _, word := range []string{plus, minus} {
			if _, ok := letterIndex(word, l.Parallel); !ok {
				return Slip{slipTakeoffString.With("word", word, "last", letter(l.Parallel-1))}
			}
		}
		return nil
	}
	if row, _, ok := l.Position(plus); !ok || row != 0 {
		return Slip{slipTakeoffGroup.With("word", plus, "group", "A")}
	}
	if row, _, ok := l.Position(minus); !ok || row != l.Series-1 {
		return Slip{slipTakeoffGroup.With("word", minus, "group", letter(l.Series-1))}
	}
	return nil
}

// Bars reports whether the branches end on bus bars instead of on each other.
func (l Layout) Bars() bool { return l.Takeoff == EqualLeads && l.Parallel > 1 }

// LeadColumns gives the columns, from 0, where the main plus lead and the main
// minus lead land. With bus bars no column is meant and ok is false.
func (l Layout) LeadColumns() (plus, minus int, ok bool) {
	if l.Bars() {
		return 0, 0, false
	}
	near, far := l.sides()
	if l.Join == JoinGroups && l.Takeoff == Diagonal && l.Series%2 == 0 {
		return near, near, true // the path snakes: an even number of rows ends where it began
	}
	return near, far, true
}

// GroupLinkColumn gives the column, from 0, at which the link from group i
// (from 0) down to group i+1 is to be fitted: always the same for one end,
// changing sides otherwise, so that every block is on the way of the current.
// ok is false for strings, with bus bars, and where there is no such link.
func (l Layout) GroupLinkColumn(i int) (column int, ok bool) {
	if l.Join != JoinGroups || l.Bars() || i < 0 || i >= l.Series-1 {
		return 0, false
	}
	near, far := l.sides()
	if i%2 == 0 {
		return far, true
	}
	return near, true
}

// sides gives the two columns between which the path runs.
func (l Layout) sides() (near, far int) {
	switch l.Takeoff {
	case Diagonal:
		return 0, l.Parallel - 1
	case OneEnd, EqualLeads:
		return 0, 0
	}
	plus, minus, _ := l.Takeoff.Places()
	if l.Join == JoinStrings {
		near, _ = letterIndex(plus, l.Parallel)
		far, _ = letterIndex(minus, l.Parallel)
		return near, far
	}
	_, near, _ = l.Position(plus)
	_, far, _ = l.Position(minus)
	return near, far
}

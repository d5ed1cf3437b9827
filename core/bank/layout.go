// Package bank is the layout of one battery bank: which blocks stand where,
// how they are joined, and the names of every part that follows from it.
//
// It knows no readings, limits or resistances, and it draws nothing. The bank
// as a resistor network is core/circuit; the picture is core/draw.
//
// Ids made here are for ever: records hang on them.
package bank

import (
	"fmt"
	"strconv"

	"lugmark/core/say"
)

// The drawing and the network take any bank up to this many in series and in
// parallel. What a maker or the law allows is less, and is judged elsewhere.
const maxAcross = 16

// maxBlock is the highest number that can stand on a block's tape. Replaced
// blocks take the next number, so it is counted over the life of the bank.
const maxBlock = maxAcross * maxAcross

// Join says what is joined first.
type Join string

const (
	// JoinStrings: blocks in series make a string, strings stand in parallel.
	JoinStrings Join = "strings"
	// JoinGroups: blocks in parallel make a group, groups stand in series.
	JoinGroups Join = "groups"
)

// Layout is one bank as it is to be wired. The zero Layout is no bank yet and
// does not validate.
type Layout struct {
	Series   int      `json:"series"`   // blocks between bank minus and bank plus, 1 to 16
	Parallel int      `json:"parallel"` // strings, or blocks in each group, 1 to 16
	Join     Join     `json:"join"`
	Takeoff  Takeoff  `json:"takeoff"`
	Place    []string `json:"place"` // block ids from the plus side: down string A, then B; or along group A, then B
}

// New gives a layout with blocks 1, 2, 3 … in place order.
func New(series, parallel int, join Join, takeoff Takeoff) Layout {
	l := Layout{Series: series, Parallel: parallel, Join: join, Takeoff: takeoff}
	for n := 1; n <= series*parallel; n++ {
		l.Place = append(l.Place, BlockID(n))
	}
	return l
}

// BlockID is the id of the block with number n on its tape.
func BlockID(n int) string { return "b" + strconv.Itoa(n) }

// Slip is what is wrong with a layout, as a sentence for the person who
// entered it.
type Slip struct{ Line say.Line }

func (s Slip) Error() string { return say.Voice{}.Say(s.Line) }

var (
	slipSeries = say.Phrase{Key: "bank.slip-series",
		English: "Blocks in series: enter 1 to 16. It says {n}."}
	slipParallel = say.Phrase{Key: "bank.slip-parallel",
		English: "Strings or blocks in parallel: enter 1 to 16. It says {n}."}
	slipJoin = say.Phrase{Key: "bank.slip-join",
		English: "How joined: choose strings or groups. It says “{word}”."}
	slipPlaces = say.Phrase{Key: "bank.slip-places",
		English: "{series} in series times {parallel} in parallel needs {need} blocks. The list has {have}."}
	slipBlock = say.Phrase{Key: "bank.slip-block",
		English: "“{id}” is not a block. Blocks are b1 to b256."}
	slipTwice = say.Phrase{Key: "bank.slip-twice",
		English: "Block {n} stands in two places. Each block has one place."}
)

// Validate reports the first thing that keeps l from being a bank, as a [Slip].
func (l Layout) Validate() error {
	switch {
	case l.Series < 1 || l.Series > maxAcross:
		return Slip{slipSeries.With("n", strconv.Itoa(l.Series))}
	case l.Parallel < 1 || l.Parallel > maxAcross:
		return Slip{slipParallel.With("n", strconv.Itoa(l.Parallel))}
	case l.Join != JoinStrings && l.Join != JoinGroups:
		return Slip{slipJoin.With("word", string(l.Join))}
	case len(l.Place) != l.Series*l.Parallel:
		return Slip{slipPlaces.With(
			"series", strconv.Itoa(l.Series), "parallel", strconv.Itoa(l.Parallel),
			"need", strconv.Itoa(l.Series*l.Parallel), "have", strconv.Itoa(len(l.Place)))}
	}
	seen := make(map[string]bool, len(l.Place))
	for _, id := range l.Place {
		n, ok := blockNumber(id)
		if !ok {
			return Slip{slipBlock.With("id", id)}
		}
		if seen[id] {
			return Slip{slipTwice.With("n", strconv.Itoa(n))}
		}
		seen[id] = true
	}
	return l.validateTakeoff()
}

// Title is the short form of the layout: "2S × 4P".
func (l Layout) Title() string { return fmt.Sprintf("%dS × %dP", l.Series, l.Parallel) }

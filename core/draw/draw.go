// Package draw makes the pictures of Lugmark as SVG text: the bank, its
// miniatures, the span of a reading across a limit, and the plates that show
// where to touch.
//
// Height is voltage: plus is up, minus is down, in every layout. A state is
// always a silhouette and a line style; its colour comes last, from the style
// sheet. No picture carries a style attribute, so that they show under a
// content policy without inline styles.
//
// It decides no verdict and knows no document: it takes states and returns
// text. The buttons laid over a drawing are described by [Hit], not made here.
package draw

import (
	"lugmark/core/bank"
	"lugmark/core/say"
)

// State is one of six, and the class name it has in the style sheet. The zero
// State is drawn as To do: nothing looks done by omission.
type State string

const (
	ToDo      State = "todo"
	Pass      State = "pass"
	Fail      State = "fail"
	CantTell  State = "unk"
	NotNeeded State = "na"
	Later     State = "later"
)

// States lists all six, worst first.
var States = []State{Fail, CantTell, ToDo, Later, Pass, NotNeeded}

// worst gives the worst of several states; To do when there is none.
func worst(list []State) State {
	for _, s := range States {
		for _, x := range list {
			if x == s || x == "" && s == ToDo {
				return s
			}
		}
	}
	return ToDo
}

// Picture is a finished drawing.
type Picture struct {
	SVG           string   // one svg element, hidden from screen readers when Hits lie over it
	Width, Height float64  // in its own units; 336 wide is 336 px on a 360 px phone
	Hits          []Hit    // in the order of a walk along the bank
	Alt           say.Line // what it shows, in one sentence
	Note          say.Line // a sentence to print above it; mostly empty
}

// Hit is the place of a button over a drawing: centre and size in percent of
// the drawing. None is smaller than 44 units.
type Hit struct {
	Part       string // part id
	X, Y, W, H float64
}

// Bank is what a bank drawing shows. The zero value of each field leaves the
// thing out or open.
type Bank struct {
	Layout   bank.Layout
	States   map[string]State  // by part id; a part that is missing is To do
	Readings map[string]string // block id to the digits as typed: "13.282"
	Closed   map[string]bool   // link ids and "switch"
	Volts    float64           // expected volts of one block [V]; 0 leaves the scale out
	MainFuse string            // its size, already said: "200 A"
	Devices  []string          // "charger1", "inverter1": at most two are drawn
	Open     string            // block, string or group to show when the bank is too large for one drawing
	Black    bool              // for a printer without colours
	Voice    say.Voice
}

// Windowed reports whether a bank is too large for one drawing, so that one
// string, or a part of one group, is shown at a time below an overview.
func Windowed(l bank.Layout) bool { return l.Series*l.Parallel > 16 || l.Parallel > 4 }

func (b Bank) state(part string) State {
	if s, ok := b.States[part]; ok && s != "" {
		return s
	}
	return ToDo
}

// stated gives the class of a run that is drawn plain until something is found
// about it: main leads and devices.
func (b Bank) stated(part string) State { return b.States[part] }

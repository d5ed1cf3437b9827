package draw

import (
	"math"
	"strconv"

	"lugmark/core/bank"
	"lugmark/core/say"
)

// Cell is one button of the strip above a large drawing: a string, or a group
// or the part of one that is shown at a time.
type Cell struct {
	Open   string   // what to put into [Bank.Open]
	Label  string   // "A"; "A 4" for the part of group A that begins with its fourth block
	Blocks []string // in place order
	States []State  // of these blocks
	Worst  State    // of them all; shown alone from five strings
}

// Strip lists the cells of a bank in order. A block that is missing from states
// is To do.
func Strip(l bank.Layout, states map[string]State) []Cell {
	var cells []Cell
	for _, u := range l.Units() {
		size := len(u.Blocks)
		if l.Join == bank.JoinGroups && Windowed(l) && size > 1 {
			size = windowColumns
		}
		for first := 0; first < len(u.Blocks); first += size {
			c := Cell{Open: u.ID, Label: u.Letter(), Blocks: u.Blocks[first:min(first+size, len(u.Blocks))]}
			if size < len(u.Blocks) {
				c.Open = c.Blocks[0]
				c.Label += " " + strconv.Itoa(first+1)
			}
			for _, block := range c.Blocks {
				c.States = append(c.States, Bank{States: states}.state(block))
			}
			c.Worst = worst(c.States)
			cells = append(cells, c)
		}
	}
	return cells
}

var (
	altSmall = say.Phrase{Key: "draw.alt-small",
		English: "{series} in series, {parallel} in parallel; open: {fail} Fail, {unk} Can't tell, {todo} To do"}
)

// rack is the bank as silhouettes between two rails.
type rack struct {
	l              bank.Layout
	states         map[string]State
	cell           float64 // side of a silhouette
	pitchX, pitchY float64
	left, top      float64
}

// Miniature is the bank on a card of the Jobs screen, about 80 wide and 94
// high: the silhouettes themselves hung between two rails.
func Miniature(l bank.Layout, states map[string]State) Picture {
	if l.Validate() != nil {
		return Picture{}
	}
	r := rack{l: l, states: states, left: 5, top: 12}
	r.pitchX = math.Min(30, 76/float64(l.Parallel))
	r.pitchY = math.Min(29, 84/float64(l.Series))
	r.cell = math.Min(24, math.Min(r.pitchX, r.pitchY)*0.8)
	if l.Parallel == 1 {
		r.cell = math.Min(r.cell, 20)
		r.pitchY = math.Min(r.pitchY, 25)
	}
	return r.picture("draw small")
}

// Grid is the whole of a bank of up to 16 × 16: silhouettes of 16 under the
// letters of strings, or behind those of groups. Its hits are whole strings or
// groups, narrower than a finger: the strip offers the same at full size.
func Grid(l bank.Layout, states map[string]State) Picture {
	if l.Validate() != nil {
		return Picture{}
	}
	r := rack{l: l, states: states, cell: 16, pitchX: 20.5, pitchY: 21, left: 4, top: 30}
	if l.Join == bank.JoinGroups {
		r.pitchX, r.left, r.top = 19.5, 22, 12
	}
	return r.picture("draw small")
}

func (r rack) picture(class string) Picture {
	rows, cols := r.l.Series, r.l.Parallel
	w := r.left + r.pitchX*float64(cols-1) + r.cell + 5
	h := r.top + r.pitchY*float64(rows-1) + r.cell + 6
	var lines, marks pen
	var hits []Hit
	middleOf := func(col int) float64 { return r.left + float64(col)*r.pitchX + r.cell/2 }
	rail := 3.0
	if r.cell < 12 {
		rail = 2
	}
	railAt := func(y float64) {
		lines.path("str", rail, d("M", middleOf(0)-rail/2, y, "H", middleOf(cols-1)+rail/2))
	}
	groups := r.l.Join == bank.JoinGroups
	for col := 0; col < cols; col++ {
		if cols > 1 || rows > 1 {
			lines.path("str", math.Min(2, r.cell/8), d("M", middleOf(col), r.top-6, "V", h-2))
		}
		if r.top > 20 && !groups {
			marks.text("", middle, 16, middleOf(col), 16, r.l.Strings()[col].Letter())
			hits = append(hits, Hit{r.l.Strings()[col].ID, 100 * middleOf(col) / w, 50, 100 * r.pitchX / w, 100})
		}
	}
	if cols > 1 {
		railAt(r.top - 6)
		railAt(h - 2)
	}
	states := Bank{States: r.states}
	var over pen // what must be seen even where a block is a few pixels wide
	count := map[State]int{}
	for row := 0; row < rows; row++ {
		y := r.top + float64(row)*r.pitchY
		if groups && row > 0 && cols > 1 {
			railAt(y - (r.pitchY-r.cell)/2)
		}
		if groups && r.left > 20 {
			marks.text("", middle, 16, 9, y+r.cell/2+6, r.l.Groups()[row].Letter())
			hits = append(hits, Hit{r.l.Groups()[row].ID, 50, 100 * (y + r.cell/2) / h, 100, 100 * r.pitchY / h})
		}
		for col := 0; col < cols; col++ {
			x := r.left + float64(col)*r.pitchX
			st := states.state(r.l.At(row, col))
			count[st]++
			tall := 0.0
			if st == CantTell { // its limit post stands taller than the grid
				tall = r.cell / 12
			}
			if least := 11.0; r.cell < least && (st == Fail || st == CantTell) {
				off := (least - r.cell) / 2
				over.rect("surf", 0, x-off, y-off, least, least, 0)
				over.smallMark(st, x-off, y-off, least)
				continue
			}
			marks.rect("surf", 0, x, y-tall, r.cell, r.cell+2*tall, 0)
			marks.smallMark(st, x, y, r.cell)
		}
	}
	return Picture{
		SVG: svg(class, w, h, "", lines.String()+marks.String()+over.String()), Width: w, Height: h, Hits: hits,
		Alt: altSmall.With("series", strconv.Itoa(rows), "parallel", strconv.Itoa(cols),
			"fail", strconv.Itoa(count[Fail]), "unk", strconv.Itoa(count[CantTell]), "todo", strconv.Itoa(count[ToDo])),
	}
}

package draw

import (
	"strconv"

	"lugmark/core/say"
)

// Layer is one thing on a post, from the bolt down.
type Layer struct {
	Kind  LayerKind
	Label string // bold, already said: "Thicker lug"
	Under string // beneath it, light: "70 mm², lowest"; may be empty
}

// LayerKind is the shape of a layer.
type LayerKind int

const (
	Bolt LayerKind = iota
	SpringWasher
	FlatWasher
	ThinLug
	ThickLug
	Pad
)

var altStack = say.Phrase{Key: "draw.alt-stack",
	English: "The lugs of one post pulled apart, {count} things from the bolt at the top down to the pad. No washer lies below a lug."}

// room is the height each kind takes in the drawing.
var room = map[LayerKind]float64{Bolt: 88, SpringWasher: 44, FlatWasher: 42, ThinLug: 54, ThickLug: 66, Pad: 84}

// StackPlate shows the order of lugs on one post, pulled apart, with a number
// at each thing. It draws what it is told: the rule that no washer lies below a
// lug and the thickest lug lowest belongs to whoever lists the layers.
func StackPlate(layers []Layer) Picture {
	var line, p pen
	y := 16.0
	for i, l := range layers {
		at := p.layer(l.Kind, y)
		p.path("str", 2, d("M", at.x, at.y, "H", 184))
		p.circle("ink", 0, at.x, at.y, 4)
		p.rect("ink", 0, 184, at.y-12, 24, 24, 2)
		p.text("on-ink", middle, 17, 196, at.y+6, strconv.Itoa(i+1))
		if l.Under == "" {
			p.text("", start, 17, 214, at.y+6, l.Label)
		} else {
			p.text("", start, 17, 214, at.y-2, l.Label)
			p.text("lt", start, 16, 214, at.y+18, l.Under)
		}
		y += room[l.Kind]
	}
	line.WriteString(`<path class="thin" stroke-width="1.5" stroke-dasharray="10 4 2 4" d="` + d("M", 92, 2, "V", y-2) + `"/>`)
	body := line.String() + p.String()
	return Picture{SVG: svg("draw", sheetWidth, y, "", body), Width: sheetWidth, Height: y,
		Alt: altStack.With("count", strconv.Itoa(len(layers)))}
}

// layer draws one thing with its upper edge at y and gives the point at which
// its number is tied.
func (p *pen) layer(kind LayerKind, y float64) point {
	switch kind {
	case Bolt:
		p.rect("sym", 3, 66, y, 52, 30, 0)
		p.path("thin", 1.5, d("M", 82, y, "v", 30, "M", 102, y, "v", 30))
		p.rect("sym", 3, 82, y+30, 20, 26, 0)
		return point{112, y + 15}
	case SpringWasher:
		p.path("sym", 3, d("M", 54, y+12, "l", 76, -10, "v", 12, "l", -76, 10, "z"))
		return point{122, y + 9}
	case FlatWasher:
		p.rect("sym", 3, 46, y+6, 92, 10, 0)
		return point{130, y + 11}
	case ThinLug:
		p.path("sym", 3, d("M", 134, y+11, "H", 44, "l", -14, -9, "H", 2, "v", 34, "h", 28, "l", 14, -9, "h", 90, "z"))
		p.path("str", 2, d("M", 10, y+10, "v", 18, "m", 8, -18, "v", 18))
		return point{126, y + 19}
	case ThickLug:
		p.path("sym", 4, d("M", 140, y+13, "H", 44, "l", -14, -11, "H", 2, "v", 42, "h", 28, "l", 14, -11, "h", 96, "z"))
		p.path("str", 2, d("M", 10, y+11, "v", 24, "m", 8, -24, "v", 24, "m", 8, -24, "v", 24))
		return point{132, y + 23}
	default:
		p.rect("ink", 0, 40, y+14, 104, 18, 0)
		p.rect("blk", 0, 14, y+32, 156, 44, 0)
		return point{144, y + 23}
	}
}

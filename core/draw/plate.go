package draw

import (
	"strconv"

	"lugmark/core/bank"
	"lugmark/core/say"
)

// Plates are line drawings for one act: where to touch, what to keep open, how
// lugs stack. Their words are few; the steps stand beside them as text.

var (
	plateRed   = say.Phrase{Key: "draw.plate-red", English: "red to plus"}
	plateBlack = say.Phrase{Key: "draw.plate-black", English: "black to minus"}
	plateVolts = say.Phrase{Key: "draw.plate-volts", English: "V DC"}
	plateMilli = say.Phrase{Key: "draw.plate-milli", English: "mV DC"}
	plateLug   = say.Phrase{Key: "draw.plate-lug", English: "on the lug"}
	plateStud  = say.Phrase{Key: "draw.plate-stud", English: "on the post"}
	plateOpen  = say.Phrase{Key: "draw.plate-open", English: "stays open"}
	plateLead  = say.Phrase{Key: "draw.plate-lead", English: "thin fused lead"}
	plateTurn  = say.Phrase{Key: "draw.plate-turn", English: "one smooth pull"}
	plateMark  = say.Phrase{Key: "draw.plate-mark", English: "then mark across"}

	altVolts  = say.Phrase{Key: "draw.alt-volts", English: "A block with its plus post up. The red probe touches the plus post, the black probe touches the minus post."}
	altGap    = say.Phrase{Key: "draw.alt-gap", English: "Two blocks. Their minus posts are joined by a thin fused lead. Red and black probe touch the two plus posts; no link is fitted between them."}
	altTorque = say.Phrase{Key: "draw.alt-torque", English: "A torque wrench stands straight on the bolt of a post; it is pulled at the end of its handle. A line is then drawn across bolt, lug and post."}
	altDrop   = say.Phrase{Key: "draw.alt-drop", English: "One probe touches the lug, the other the post beneath it. Both touch metal, and current flows."}
	altKeep   = say.Phrase{Key: "draw.alt-keep", English: "The main switch between the bank and the load is open and carries a tag: keep open."}
)

func finish(p *pen, h float64, alt say.Line) Picture {
	return Picture{SVG: svg("draw", sheetWidth, h, "", p.String()), Width: sheetWidth, Height: h, Alt: alt}
}

// tapeNumber is what stands on the tape of a block.
func tapeNumber(block string) string {
	n, ok := bank.BlockNumber(block)
	if !ok {
		return ""
	}
	return strconv.Itoa(n)
}

// Plate gives the drawing of a kind of reading, without numbers, in English:
// "posts", "gap", "steps", "switch", "torque" or "joint". False: there is none.
func Plate(kind string) (Picture, bool) { return PlateFor(say.Screen, kind, "", "") }

// PlateFor is [Plate] in the reader's language, with the number of the block
// that a block or post id names; beside is the block against which a gap is
// read.
func PlateFor(v say.Voice, kind, part, beside string) (Picture, bool) {
	switch block := blockOf(part); kind {
	case "posts":
		return VoltsPlate(v, block, "13.282"), true
	case "gap":
		return GapPlate(v, beside, block), true
	case "steps":
		return StepsPlate(v), true
	case "switch":
		return SwitchPlate(v), true
	case "torque":
		return TorquePlate(v, part, ""), true
	case "joint":
		return DropPlate(v), true
	}
	return Picture{}, false
}

// blockOf gives the block of a block or post id, or "".
func blockOf(part string) string {
	if kind, _ := bank.PartKind(part); kind == bank.KindBlock {
		return part
	} else if kind == bank.KindPost {
		return bank.OwnerOf(part)
	}
	return ""
}

// probe draws a test probe with its tip at a point, turned by degrees: 0 lies
// to the right of the tip. The filled one is red, by its word.
func (p *pen) probe(tip point, degrees float64, red bool) {
	p.WriteString("<g")
	p.attr("transform", "translate("+num(tip.x)+" "+num(tip.y)+") rotate("+num(degrees)+")")
	p.WriteString(">")
	p.path("str", 4, "M0 0H34")
	class := "sym"
	if red {
		class = "ink edge"
	}
	p.rect(class, 3, 34, -9, 62, 18, 3)
	p.path("str", 4, "M42 -13v26")
	p.WriteString("</g>")
}

// meter draws a meter with a figure in its window and its range below.
func (p *pen) meter(b box, shows, unit string) {
	p.rect("sym", 4, b.x, b.y, b.w, b.h, 4)
	p.rect("surf edge", 2, b.x+9, b.y+9, b.w-18, 30, 0)
	p.text("val", middle, 17, b.centre(), b.y+31, shows)
	p.text("lt", middle, 17, b.centre(), b.y+61, unit)
}

// VoltsPlate shows where to touch for the voltage of one block. Shows is the
// figure in the meter's window, as an example of its decimals.
func VoltsPlate(v say.Voice, block, shows string) Picture {
	var p pen
	b := box{8, 54, 116, 128}
	p.rect("blk", 0, b.x, b.y, b.w, b.h, 3)
	p.text("", middle, 44, b.centre(), b.y+80, tapeNumber(block))
	p.plusPost(b.plus(), 17)
	p.minusPost(b.minus(), 17)
	p.path("str", 4, "M174 24C236 4 294 20 294 84M174 212C236 232 294 216 294 152")
	p.probe(point{82, 46}, -14, true)
	p.probe(point{82, 190}, 14, false)
	p.meter(box{246, 82, 88, 72}, v.Digits(shows), v.Say(plateVolts.With()))
	p.text("", start, 17, 138, 68, v.Say(plateRed.With()))
	p.text("", start, 17, 138, 182, v.Say(plateBlack.With()))
	return finish(&p, 236, altVolts.With())
}

// GapPlate shows how to read the volts across an open gap between two plus
// posts: minus posts joined by a thin fused lead, plus to plus on the meter.
func GapPlate(v say.Voice, a, b string) Picture {
	var p pen
	left, right := box{8, 132, 98, 84}, box{230, 132, 98, 84}
	// The thin lead with its fuse comes first, so that the posts lie over it.
	p.path("str", 2.5, d("M", left.centre(), left.bottom(), "V", 250, "H", right.centre(), "V", right.bottom()))
	p.rect("sym", 2.5, 153, 243, 30, 14, 0)
	p.path("str", 2.5, "M153 250h30")
	p.text("lt", middle, 17, 168, 280, v.Say(plateLead.With()))
	for _, x := range []struct {
		box
		id string
	}{{left, a}, {right, b}} {
		p.rect("blk", 0, x.x, x.y, x.w, x.h, 3)
		p.text("", middle, 34, x.centre(), x.y+54, tapeNumber(x.id))
		p.plusPost(x.plus(), 14)
		p.minusPost(x.minus(), 14)
	}
	p.path("str", 4, "M96 26C102 6 112 44 124 44M240 26C234 6 224 44 212 44")
	p.probe(point{left.centre() + 8, left.y - 12}, -72, true)
	p.probe(point{right.centre() - 8, right.y - 12}, -108, false)
	p.meter(box{124, 8, 88, 72}, v.Digits("2.4"), v.Say(plateMilli.With()))
	// What must not be there: the link, struck through.
	p.path("wire todo", 0, d("M", left.centre()+14, left.y, "H", right.centre()-14))
	p.cross(point{168, left.y}, 9)
	p.text("lt", middle, 16, 168, left.y+28, v.Say(plateOpen.With()))
	return finish(&p, 290, altGap.With())
}

// TorquePlate shows a torque wrench on the bolt of one post, and the mark.
func TorquePlate(v say.Voice, post, torque string) Picture {
	var p pen
	b := box{14, 120, 150, 76}
	p.rect("blk", 0, b.x, b.y, b.w, b.h, 3)
	p.text("", middle, 34, b.x+112, b.y+52, tapeNumber(blockOf(post)))
	at := point{b.x + 52, b.y}
	p.rect("ink", 0, at.x-22, at.y-14, 44, 14, 0) // pad
	p.rect("sym", 3, at.x-26, at.y-26, 96, 12, 0) // lug
	p.rect("sym", 3, at.x-16, at.y-48, 32, 22, 0) // bolt head
	p.path("thin", 1.5, d("M", at.x-6, at.y-48, "v", 22, "M", at.x+6, at.y-48, "v", 22))
	p.rect("sym", 3, at.x-18, at.y-76, 36, 28, 2) // socket
	p.path("str", 9, d("M", at.x, at.y-82, "H", 250))
	p.rect("ink edge", 3, 250, at.y-92, 74, 20, 4) // handle
	p.path("str", 4, "M287 62v38m-10-12 10 12 10-12")
	p.text("", end, 17, 330, 22, v.Digits(torque))
	p.text("lt", end, 17, 330, 124, v.Say(plateTurn.With()))
	// The bolt seen from above, with the mark drawn across it.
	p.bolt(point{230, 180}, true)
	p.circle("sym", 3, 230, 180, 26)
	p.path("sym", 3, "M212 180l9 -15.6h18l9 15.6l-9 15.6h-18z")
	p.path("str", 5, "M212 208L248 152")
	p.text("lt", start, 17, 172, 228, v.Say(plateMark.With()))
	return finish(&p, 236, altTorque.With())
}

// DropPlate shows where to touch for the millivolts across one joint: lug and
// post, not bolt head, not cable.
func DropPlate(v say.Voice) Picture {
	var p pen
	p.rect("blk", 0, 14, 150, 130, 60, 3)
	p.rect("ink", 0, 46, 132, 60, 18, 0)
	p.path("sym", 3, "M34 112H120l22 -8H190v36H142l-22 -8H34z") // lug with its barrel
	p.path("str", 2, "M164 106v32M174 106v32")
	p.path("wire", 0, "M190 122H330")
	p.rect("sym", 3, 58, 84, 36, 28, 0)
	p.path("thin", 1.5, "M70 84v28M82 84v28")
	p.path("str", 4, "M172 46C200 30 214 30 224 34M170 200C230 196 276 150 284 94")
	p.probe(point{112, 108}, -38, true)
	p.probe(point{110, 152}, 38, false)
	p.meter(box{224, 20, 96, 72}, v.Digits("0.42"), v.Say(plateMilli.With()))
	p.text("", middle, 17, 92, 40, v.Say(plateLug.With()))
	p.text("", start, 17, 196, 228, v.Say(plateStud.With()))
	return finish(&p, 242, altDrop.With())
}

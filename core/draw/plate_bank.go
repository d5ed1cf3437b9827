package draw

import (
	"lugmark/core/bank"
	"lugmark/core/say"
)

var (
	plateStays  = say.Phrase{Key: "draw.plate-stays", English: "black stays"}
	plateClimbs = say.Phrase{Key: "draw.plate-climbs", English: "red climbs"}
	tagKeepOpen = say.Phrase{Key: "draw.keep-open", English: "Keep open"}

	altSteps  = say.Phrase{Key: "draw.alt-steps", English: "A string of three blocks, plus up. The black probe stays on its lowest minus post. The red probe climbs from plus post to plus post, beginning at the lowest."}
	altSwitch = say.Phrase{Key: "draw.alt-switch", English: "The main switch is open, its lever up. One probe touches each of its two terminals."}
)

// StepsPlate shows how the voltage is read up a string: black stays on the
// lowest minus, red climbs from plus to plus.
func StepsPlate(v say.Voice) Picture {
	var p pen
	for i := 0.0; i < 3; i++ {
		b := box{20, 30 + i*84, 92, 56}
		p.rect("blk", 0, b.x, b.y, b.w, b.h, 3)
		if i > 0 {
			p.wire(run{point{b.centre(), b.y - 28}, b.plus()}, "")
		}
	}
	for i := 0.0; i < 3; i++ {
		b := box{20, 30 + i*84, 92, 56}
		p.plusPost(b.plus(), 12)
		p.minusPost(b.minus(), 12)
		p.rect("ink", 0, b.x+10, b.y+18, 24, 24, 2)
		p.text("on-ink", middle, 17, b.x+22, b.y+36, string(rune('3'-int(i))))
	}
	p.path("str", 4, "M174 186C214 178 286 190 286 132M176 276C260 290 304 250 304 132")
	p.probe(point{82, 200}, -6, true)
	p.probe(point{82, 258}, 8, false)
	p.meter(box{242, 60, 88, 72}, v.Digits("13.28"), v.Say(plateVolts.With()))
	p.path("str", 4, "M176 158V32m-9 11 9-11 9 11")
	p.text("", start, 17, 156, 22, v.Say(plateClimbs.With()))
	p.text("", start, 17, 128, 300, v.Say(plateStays.With()))
	return finish(&p, 306, altSteps.With())
}

// SwitchPlate shows the volts read across the open main switch.
func SwitchPlate(v say.Voice) Picture {
	var p pen
	p.path("wire", 0, "M0 60H112M224 60H336")
	p.path("str", 6, "M112 60 216 22")
	p.circle("sym", 3, 112, 60, 9)
	p.circle("sym", 3, 224, 60, 9)
	p.text("", middle, 17, 40, 44, v.Say(bank.Name("bank")))
	p.path("str", 4, "M90 168C90 196 102 200 124 200M246 168C246 196 234 200 212 200")
	p.probe(point{110, 70}, 102, true)
	p.probe(point{226, 70}, 78, false)
	p.meter(box{124, 164, 88, 72}, v.Digits("0.92"), v.Say(plateVolts.With()))
	return finish(&p, 244, altSwitch.With())
}

// KeepOpenPlate is the drawing of a hold point: the main stays open.
func KeepOpenPlate(v say.Voice, load say.Line) Picture {
	var p pen
	p.path("wire", 0, "M74 44H116M196 44H234")
	p.circle("sym", 2.5, 116, 44, 6)
	p.circle("sym", 2.5, 196, 44, 6)
	p.path("str", 6, "M116 44 188 6")
	p.rect("sym", 4, 2, 14, 72, 60, 3)
	p.rect("sym", 4, 234, 14, 100, 60, 3)
	p.text("", middle, 17, 38, 50, v.Say(bank.Name("bank")))
	if load.Empty() {
		load = wordInverter.With()
	}
	p.text("lt", middle, 16, 284, 50, v.Say(load))
	p.path("str", 2, "M164 20 156 64")
	p.path("sym", 3, "M92 70l8 -12h120v46H100l-8 -12z")
	p.circle("ink", 0, 156, 66, 3)
	p.text("", middle, 17, 158, 92, v.Say(tagKeepOpen.With()))
	return finish(&p, 108, altKeep.With())
}

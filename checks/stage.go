package checks

import "lugmark/core/say"

// Stage is one of the nine parts of a job, in the order on site.
type Stage string

const (
	Before      Stage = "before"
	Receive     Stage = "receive"
	Match       Stage = "match"
	Wire        Stage = "wire"
	SwitchOn    Stage = "switch-on"
	FirstCharge Stage = "first-charge"
	Prove       Stage = "prove"
	HandOver    Stage = "hand-over"
	Return      Stage = "return"
)

// Stages lists the stages in the order on site. The order is advised; only the
// hold points are hard.
var Stages = []Stage{Before, Receive, Match, Wire, SwitchOn, FirstCharge, Prove, HandOver, Return}

// Part is the id under which a stage's own entries are kept.
func (s Stage) Part() string { return "stage." + string(s) }

var stageTitles = map[Stage]say.Phrase{
	Before:      {Key: "stage.before", English: "Before you start"},
	Receive:     {Key: "stage.receive", English: "Receive"},
	Match:       {Key: "stage.match", English: "Match"},
	Wire:        {Key: "stage.wire", English: "Wire"},
	SwitchOn:    {Key: "stage.switch-on", English: "Switch on"},
	FirstCharge: {Key: "stage.first-charge", English: "First charge"},
	Prove:       {Key: "stage.prove", English: "Prove"},
	HandOver:    {Key: "stage.hand-over", English: "Hand over"},
	Return:      {Key: "stage.return", English: "Return visit"},
}

// Title is the stage's name on screen and paper.
func (s Stage) Title() say.Phrase { return stageTitles[s] }

// Hazards gives the cautions of a stage, the ones that are read and confirmed
// with a name before work begins; none for stages that cannot hurt.
func (s Stage) Hazards() []say.Phrase { return hazards[s] }

// The cautions are common practice in the trade and defer to the maker's
// manual and the code in force.
var hazards = map[Stage][]say.Phrase{
	Receive: {
		{Key: "hazard.swollen", English: "Swollen, leaking, hot or hissing: stop and leave. Do not move or charge the block. Its smoke is poisonous. Call the fire service."},
		{Key: "hazard.lift", English: "A block is heavy. Two people or a hoist above 23 kg. Never lift by the posts."},
		{Key: "hazard.asleep", English: "Below 8 V the protection is open or the cells are empty. Never bypass the protection. Wake it only by the maker's method."},
	},
	Match: {
		{Key: "hazard.parallel", English: "Before joining in parallel, remove every series link that is not in the drawing: one left on is a dead short of thousands of amperes. Read both polarities first."},
		{Key: "hazard.gap", English: "Gap method: only with all other links open, through a thin lead with a 1 A fuse. Never on a string that is joined elsewhere, never above 60 V."},
		{Key: "hazard.cold-join", English: "Joining charges the lower block. Never join below freezing."},
	},
	Wire: {
		{Key: "hazard.wrench", English: "Insulated wrench, no rings or watch, the other posts covered. A wrench across two posts is a welding arc."},
		{Key: "hazard.polarity", English: "Polarity before every connection. Main fuse out and main switch open until the hold point releases them."},
		{Key: "hazard.volts", English: "Four blocks in series reach 58.4 V while charging: gloves, one post at a time. Above 60 V a licensed person only."},
		{Key: "hazard.insulation", English: "An insulation tester is for cables alone, both ends off. Never across a block or its protection."},
	},
	SwitchOn: {
		{Key: "hazard.precharge", English: "A precharge resistor left on a faulty inverter burns. Keep your eyes on it and a time limit."},
		{Key: "hazard.order", English: "To disconnect: load off, charger off, main open, fuse out, then links. Stop an alternator before the main opens."},
	},
	FirstCharge: {
		{Key: "hazard.cold", English: "Never charge below the maker's lowest temperature. A warm case can hide a cold core. No thermometer, no charge."},
		{Key: "hazard.heater", English: "A heated block judges by its own sensor, not by its coldest cell. Watch the first ten minutes."},
		{Key: "hazard.stay", English: "Stay with a first charge. Stop at any smell, hiss, or a block above 55 °C."},
	},
	Return: {
		{Key: "hazard.live", English: "The bank is on and stays joined: insulated wrench, no rings or watch, one post at a time. A wrench across two posts is a welding arc."},
		{Key: "hazard.look-first", English: "Look and smell before you touch. Swollen, leaking, hot or hissing: stop and leave, and call the fire service."},
		{Key: "hazard.opening", English: "Tighten nothing under load. Before anything is opened: load off, charger off, main open, fuse out, then links; stop an alternator before the main opens. Above 60 V a licensed person only."},
		{Key: "hazard.return-charge", English: "Never charge below the maker's lowest temperature, at any visit. No thermometer, no charge."},
	},
	Prove: {
		{Key: "hazard.test", English: "Capacity and load tests: never alone, fuse fitted, stop at any smell, hiss, 55 °C on a block or 60 °C on a post."},
	},
}

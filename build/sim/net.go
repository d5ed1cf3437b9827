package main

import (
	"time"

	"lugmark/core/exchange"
)

// request is what goes to the office; body is the bytes of a message or a piece.
type request struct {
	kind exchange.Kind
	job  string
	sum  string
	body []byte
}

// patience [ms] is how long a phone waits for an answer.
const patience = 30_000

// sync begins a round, if none is going on.
func (o *opened) sync() {
	if o.asked == 0 {
		o.phone.Begin()
		o.tried = map[string]bool{}
		if o.device.w.rng.IntN(2) == 0 {
			o.askList()
			return
		}
		o.ask()
	}
}

// list is a request for the briefs of all jobs.
const list exchange.Kind = -1

// askList begins a round with what the office has of all jobs.
func (o *opened) askList() {
	w := o.device.w
	w.order++
	number := w.order
	o.asked = number
	w.carry("request", nil, func([]byte) {
		w.office.handle(request{kind: list}, func(status int, body []byte) {
			w.carry("reply", body, func(body []byte) {
				if !o.alive || o.asked != number {
					return
				}
				briefs, err := exchange.DecodeList(body)
				if status != 200 || err != nil {
					o.follow(number, exchange.Step{Wait: true})
					return
				}
				for _, m := range briefs {
					o.phone.Heard(m)
				}
				o.ask()
			})
		})
	})
	o.later(patience, func() {
		if o.asked == number {
			o.follow(number, exchange.Step{Wait: true})
		}
	})
}

// ask sends what the phone wants next, until it wants nothing.
func (o *opened) ask() {
	w := o.device.w
	ask := o.phone.Next()
	if ask.Kind == exchange.Nothing {
		o.asked, o.failed = 0, 0
		return
	}
	w.order++
	number := w.order
	o.asked = number
	req := request{kind: ask.Kind, job: o.job.id, sum: ask.Sum}
	switch ask.Kind {
	case exchange.Put:
		req.body = o.device.disk.job(o.job.id).blobs[ask.Sum].Data
		o.checkEventsFirst()
	case exchange.Send:
		req.body = exchange.Encode(ask.Message)
		for _, e := range ask.Message.Events {
			o.tried[e.Stream] = true
		}
		if ask.Message.Kind == exchange.Have {
			o.checkEventsFirst()
		}
	}
	w.say("%s %s asks %d %s %d events", o.device.name, o.job.kind, ask.Kind, ask.Message.Kind, len(ask.Message.Events))
	sent := w.now
	w.carry("request", req.body, func(body []byte) {
		req := req
		req.body = body
		w.office.handle(req, func(status int, body []byte) {
			w.carry("reply", body, func(body []byte) {
				if o.alive {
					o.answered(number, ask, status, body, w.now-sent)
				}
			})
		})
	})
	o.later(patience, func() {
		if o.asked == number {
			o.follow(number, o.phone.Answer(ask, exchange.Reply{}))
		}
	})
}

// carry takes one message to the other side, or loses, doubles, delays or
// damages it.
func (w *world) carry(what string, body []byte, deliver func([]byte)) {
	w.tally.count("messages")
	times := 1
	switch {
	case w.chance(100):
		w.tally.fault(what + " lost")
		return
	case w.chance(100):
		w.tally.fault(what + " doubled")
		times = 2
	}
	for range times {
		ms := 20 + w.rng.Int64N(150)
		if w.chance(50) {
			w.tally.fault(what + " delayed")
			ms += w.rng.Int64N(40_000)
		}
		sent := body
		if len(body) > 0 && w.chance(8) {
			w.tally.fault(what + " damaged")
			sent = w.damage(body)
		}
		w.in(ms, func() { deliver(sent) })
	}
}

// damage turns one bit. In half of the messages with events it is one of a
// signature, which no chain of hashes covers.
func (w *world) damage(body []byte) []byte {
	out := append([]byte(nil), body...)
	at := w.rng.IntN(len(out))
	if w.rng.IntN(2) == 0 {
		for i := range out[:len(out)-10] {
			if out[i] == '\n' && out[i+1] == 'e' && out[i+2] == ' ' {
				// Another sign of base64, so that the line is still one.
				at = i + 3 + w.rng.IntN(4)
				if out[at] != 'A' {
					out[at] = 'A'
				} else {
					out[at] = 'B'
				}
				return out
			}
		}
	}
	out[at] ^= 1 << w.rng.IntN(8)
	return out
}

// answered takes a reply, also one that comes late or for the second time.
func (o *opened) answered(number int, ask exchange.Ask, status int, body []byte, took int64) {
	reply := exchange.Reply{Status: status, Took: time.Duration(took) * time.Millisecond}
	if ask.Kind == exchange.Get {
		reply.Data = body
	} else if len(body) > 0 {
		reply.Message, _ = exchange.Decode(body) // the zero Message is no answer to anything
	}
	o.follow(number, o.phone.Answer(ask, reply))
}

// follow does what a reply asks for, and goes on with the round if it is the
// one that was waited for.
func (o *opened) follow(number int, step exchange.Step) {
	w := o.device.w
	if step.Trouble > exchange.Away {
		w.tally.count("told: " + [...]string{"", "", "shut", "office full", "forked", "spoilt", "not understood", "damaged"}[step.Trouble])
		w.say("%s %s hears %d", o.device.name, o.job.kind, step.Trouble)
	}
	goOn := func() {
		switch {
		case o.asked != number:
		case !step.Wait:
			o.ask()
		default:
			o.asked = 0
			if o.failed++; o.failed < 3 {
				o.later(exchange.Pause(o.failed, w.rng.Uint64(), 0).Milliseconds(), o.sync)
			} else {
				o.failed = 0
			}
		}
	}
	if step.Keep == nil {
		goOn()
		return
	}
	k := *step.Keep
	o.keep(act{job: o.job.id, events: k.Events, aside: k.Aside, blobs: k.Blobs, cursor: &k.Cursor}, func(err error) {
		if err != nil {
			step.Wait = true // the next round reads it once more
			goOn()
			return
		}
		o.phone.Kept(k)
		o.take(k.Events)
		goOn()
	})
}

// checkEventsFirst: no piece is offered or sent while an event is here that the
// office never had and that this round has not tried to send. What was tried and
// not taken rests.
func (o *opened) checkEventsFirst() {
	w := o.device.w
	for _, m := range w.history.all {
		if m.Job == o.job.id && o.seen.has(m.at) && !m.reached && !o.tried[m.Stream] && !o.device.disk.job(m.Job).hole(m.Event) {
			w.broken("O9: %s offers a piece before event %d, which it could have sent", o.device.name, m.at)
			return
		}
	}
}

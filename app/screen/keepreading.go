package screen

import (
	"cmp"
	"math"
	"slices"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/figure"
	"lugmark/core/finding"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

var (
	sayOutside   = say.Phrase{Key: "screen.read.outside", English: "{value} is outside {low} to {high} for {part}."}
	sayMeant     = say.Phrase{Key: "screen.read.meant", English: "{outside} Did you mean {near}?"}
	sayFar       = say.Phrase{Key: "screen.read.far", English: "{diff} {side} the others. Measure it again before you trust it."}
	sayBelow     = say.Phrase{Key: "screen.read.below", English: "below"}
	sayAbove     = say.Phrase{Key: "screen.read.above", English: "above"}
	sayCoarse    = say.Phrase{Key: "screen.read.coarse", English: "{n} has more digits than {meter} shows. Type what stands on the meter."}
	sayKept      = say.Phrase{Key: "screen.read.kept", English: "{part}: {value} kept."}
	sayKeptFails = say.Phrase{Key: "screen.read.kept-fails", English: "{kept} {reason}"}
	sayFewer     = say.Phrase{Key: "screen.read.fewer", English: "{n} has fewer than two digits after the point. Is one missing?"}
	sayKeptFar   = say.Phrase{Key: "screen.read.kept-far", English: "{part}: {value} kept, far from the others. Measure it once more."}
)

// farApart is how far a block's voltage may stand from the middle of the
// others before it is measured twice: 0.30 V, our choice; a mistyped digit must
// not condemn a block.
const farApart = 0.30

// onePass is how old the others may be to belong to the same pass along the
// bank; older ones were read in another state of charge. Our choice.
const onePass = 3 * time.Hour

// keepReading keeps what stands in the input. Really says that the meter does
// show a value that this thing cannot have.
func (r *root) keepReading(ctx app.Context, really bool) {
	f, part, text := r.read.field, r.read.part, r.text["value"]
	if r.busy {
		return
	}
	n, slip := unit.Parse(text, f.Entry(), f.Signed)
	if slip != nil {
		r.focus = "value"
		return
	}
	if m, limit := r.meterTyped(f, n); m != "" && limit > 0 && n.Step < limit*(1-1e-9) {
		r.read.doubt = sayCoarse.With("n", figure.Typed(n), "meter", r.meterName(m))
		return
	}
	if !really && outside(f, n.Value) {
		r.doubt(f, part, n)
		return
	}
	if !really && f.Unit == "V" && f.Entry() == "V" && f.Whole == usualWhole && n.Decimals < usualDecimals {
		r.read.doubt, r.read.near, r.read.shows = sayFewer.With("n", figure.Typed(n)), "", true
		vibrate(80)
		return
	}
	if d := r.digitsDoubt(f, n); !really && !d.Empty() {
		r.read.doubt, r.read.near, r.read.shows = d, "", true
		vibrate(80)
		return
	}
	_, far := r.farFromOthers(n.Value)
	again := far && !r.read.again
	v := job.Value{Kind: job.KindQuantity, Number: n.Digits, Unit: string(n.Unit), Source: "typed", Moving: r.read.moving, Odd: really && !r.read.shows}
	v.Meter, _ = r.meterTyped(f, n)
	undo, complete := r.undoOf(part, f.ID), r.roundComplete(f)
	value := figure.Typed(n)
	r.keep([]change{{part: part, field: f.ID, value: v}}, r.draftKey(), func(ctx app.Context, kept bool) {
		if !kept {
			return
		}
		vibrate(20)
		r.clearValue()
		r.read.moving, r.read.again = false, again
		says := sayKept
		if again {
			says = sayKeptFar
		}
		r.notice = notice{says: says.With("part", bank.Name(part), "value", value), undo: undo(), round: f.ID}
		if x, failed := r.job.failsBy(finding.Key{Part: part, Field: f.ID}); failed && !again {
			r.notice.says = sayKeptFails.With("kept", r.notice.says, "reason", x.Reason())
			r.notice.grave = true
		}
		if !again {
			r.onward(ctx, f, part, complete)
		}
	})
}

// A block's voltage is two digits, the point, and two or three more on any
// meter that can judge it.
const usualWhole, usualDecimals = 2, 2

// failsBy finds a finding that rests on an entry and fails.
func (j *opened) failsBy(k finding.Key) (finding.Finding, bool) {
	for _, x := range j.findings {
		if x.Verdict() == finding.Fail && slices.Contains(x.Reads(), k) {
			return x, true
		}
	}
	return finding.Finding{}, false
}

// onward goes to the next part of the round that has no value yet; in a round
// that is complete, to the next one along; after the last, back to the stage.
func (r *root) onward(ctx app.Context, f checks.Field, part string, complete bool) {
	at := indexOf(r.read.parts, part)
	for i := 1; i < len(r.read.parts); i++ {
		p := r.read.parts[(at+i)%len(r.read.parts)]
		if !r.job.has(finding.Key{Part: p, Field: f.ID}) {
			ctx.Navigate(r.to("read", f.ID, p))
			return
		}
	}
	if at+1 < len(r.read.parts) && complete {
		ctx.Navigate(r.to("read", f.ID, r.read.parts[at+1]))
		return
	}
	ctx.Navigate(r.to("stage", string(f.Stage)))
}

// roundComplete reports whether every part of the round had a value before.
func (r *root) roundComplete(f checks.Field) bool {
	for _, p := range r.read.parts {
		if !r.job.has(finding.Key{Part: p, Field: f.ID}) {
			return false
		}
	}
	return true
}

// outside reports whether a value cannot be, for this kind of thing.
func outside(f checks.Field, v float64) bool {
	return (f.Low != 0 || f.High != 0) && (v < f.Low || v > f.High)
}

// doubt asks about a value that cannot be, and offers the one that was
// probably meant: the point at another place.
func (r *root) doubt(f checks.Field, part string, n unit.Number) {
	says := sayOutside.With("value", figure.Typed(n), "low", figure.Exact(f.Low, f.Entry()), "high", figure.Exact(f.High, f.Entry()), "part", bank.Name(part))
	r.read.doubt, r.read.near, r.read.shows = says, "", false
	for _, by := range []float64{10, 100, 1000} {
		near := figure.Exact(n.Value/by, f.Entry())
		if !outside(f, n.Value/by) {
			r.read.near = near.Digits
			r.read.doubt = sayMeant.With("outside", says, "near", near)
			break
		}
	}
	vibrate(80)
}

// farFromOthers compares a block's voltage or temperature with the middle of the other blocks
// of the same round.
func (r *root) farFromOthers(v float64) (say.Line, bool) {
	f := r.read.field
	apart, show, within := farApart, unit.Symbol("V"), onePass
	switch {
	case f.Unit == "C" && f.Has(bank.KindBlock):
		apart, show, within = warmApart, "K", sameAir
	case f.Unit != "V" || f.Whole == 0 || !f.Has(bank.KindBlock):
		return say.Line{}, false
	}
	var others []float64
	for _, p := range r.read.parts {
		e, s := r.job.state.Lookup(r.job.visit, p, f.ID, false)
		if p == r.read.part || s != job.One || e.Value.Kind != job.KindQuantity || now().Sub(e.Moment()) > within {
			continue
		}
		if n, ok := unit.Stored(e.Value.Number, unit.Symbol(e.Value.Unit)); ok {
			others = append(others, n.Value)
		}
	}
	if len(others) == 0 {
		return say.Line{}, false
	}
	slices.SortFunc(others, cmp.Compare[float64])
	middle := others[len(others)/2]
	if d := math.Abs(v - middle); d > apart {
		side := sayAbove
		if v < middle {
			side = sayBelow
		}
		return sayFar.With("diff", figure.Exact(math.Round(d*1000)/1000, show), "side", side), true
	}
	return say.Line{}, false
}

// vibrate is a short sign that something was kept; never the only one.
func vibrate(ms int) {
	if nav := app.Window().Get("navigator"); nav.Truthy() && nav.Get("vibrate").Truthy() {
		nav.Call("vibrate", ms)
	}
}

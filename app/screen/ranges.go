package screen

import (
	"strconv"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
)

// sameOfMeter is what stands on the meter itself, whatever its range.
var sameOfMeter = []string{"model", "measures", "due", "rated-voltage"}

// copied is a range that is being added: the new sheet, and the one of the same
// meter whose plate it takes over.
type copied struct{ to, from string }

// anotherRange keeps this sheet and begins one for another range of the same
// meter: what stands on the meter is filled in, the digits and limits of error
// of the range are asked.
func (r *root) anotherRange(keepThen func(ctx app.Context, way string), part string) app.UI {
	return r.button("btn q", r.t("meter.another", "Same meter, another range"), func(ctx app.Context) {
		next := r.job.nextPart("m")
		if n, err := strconv.Atoi(strings.TrimPrefix(part, "m")); err == nil && next == part { // nothing of this sheet is kept yet
			next = "m" + strconv.Itoa(n+1)
		}
		r.copied = copied{next, part}
		keepThen(ctx, r.to("enter", next, string(checks.Before)))
		if len(r.slips) > 0 {
			r.copied = copied{}
		}
	})
}

// fillRange fills in what a further range takes over from its meter.
func (r *root) fillRange(part string) {
	from := r.copied
	r.copied = copied{}
	if from.to == "" || from.to != part {
		return
	}
	for _, id := range sameOfMeter {
		if f, ok := checks.FieldOf(id, part); ok {
			r.text[id] = r.job.inputText(from.from, f)
		}
	}
}

package screen

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/bank"
	"lugmark/core/job"
	"lugmark/core/say"
	"lugmark/core/unit"
)

// copied gives the entries of one part as changes for another: of another
// record, where nothing of this one stands; in the order of their fields. Entries
// that two people disagree on stay out.
func (j *opened) copied(from, to string) (out []change) {
	var fields []string
	for _, k := range j.keysUpTo(from) {
		if k.Part == from {
			fields = append(fields, k.Field)
		}
	}
	slices.Sort(fields)
	for _, field := range slices.Compact(fields) {
		f, known := checks.FieldOf(field, to)
		e, standing := j.state.Lookup(j.visit, from, field, true)
		if !known || !f.Setup || standing != job.One || e.Value.Kind == job.KindSkip {
			continue
		}
		c := change{part: to, field: field, value: e.Value}
		if e.Value.Kind == job.KindPersonal {
			if c.personal, known = job.Text(j.blobs, e.Value.X); !known {
				continue // it was erased
			}
			c.value.X = job.Ref{}
		}
		out = append(out, c)
	}
	return out
}

// isEmpty reports whether nothing is entered about a part.
func (j *opened) isEmpty(part string) bool { return len(j.copied(part, part)) == 0 }

// sameAs reports whether two parts, of one record or of two, hold the same.
func sameAs(a *opened, from string, b *opened, to string) bool {
	one, two := a.copied(from, to), b.copied(to, to)
	if len(one) != len(two) {
		return false
	}
	for i := range one {
		if one[i].field != two[i].field || one[i].personal != two[i].personal || one[i].personal == "" && !job.Agree(one[i].value, two[i].value) {
			return false
		}
	}
	return true
}

// offered lists what the register has for an empty part of a job; of the
// meters first those for what the part usually measures.
func (r *root) offered(part string) []string {
	k, ok := registeredAs(part)
	if !ok || r.job.isRegister() || !r.job.isEmpty(part) {
		return nil
	}
	var first, then []string
	for _, id := range r.inRegister(k) {
		if k.kind == bank.KindMeter && r.register.inputText(id, measuresField()) == usualMeter[part] {
			first = append(first, id)
		} else {
			then = append(then, id)
		}
	}
	return append(first, then...)
}

// fromRegister offers what the register has for an empty form: one tap copies
// all of it.
func (r *root) fromRegister(f form, then string) []app.UI {
	ids := r.offered(f.part)
	if len(ids) == 0 {
		return nil
	}
	out := []app.UI{app.H2().Text(r.t("take.title", "From the register"))}
	for _, id := range ids {
		out = append(out, r.button("btn", r.label(id), func(app.Context) { r.take(f, id, then) }))
	}
	return append(out, app.H2().Text(r.t("take.type", "Or enter it")))
}

// take copies a thing of the register into a part of the job.
func (r *root) take(f form, id, then string) {
	changes := r.register.copied(id, f.part)
	says := say.Phrase{Key: "screen.take.kept", English: "{part}: {n} entries copied from the register."}.With("part", r.partTitle(f.part), "n", itoa(len(changes)))
	r.keep(append(changes, r.usesCopied(f.part, changes)...), r.formDraftKey(f), func(ctx app.Context, kept bool) {
		if kept {
			r.notice = notice{says: says}
			ctx.Navigate(then)
		}
	})
}

// usesCopied makes a meter that was copied the meter of this job, as
// [root.usesMeter] does for one that was typed.
func (r *root) usesCopied(part string, changes []change) []change {
	text := map[string]string{}
	for _, c := range changes {
		text[c.field] = c.value.Text
	}
	use := useOfMeter(part, text["measures"], text["range"])
	if use == "" || r.job.has(key("bank", use)) {
		return nil
	}
	return []change{{part: "bank", field: use, value: job.Value{Kind: job.KindText, Text: part}}}
}

// useOfMeter is the entry that a meter serves, by what it measures and the top
// of its range; "" for none.
func useOfMeter(part, measures, top string) string {
	what := unit.Symbol(measures)
	switch kind, _ := bank.PartKind(part); kind {
	case bank.KindWrench:
		what = "N.m"
	case bank.KindMeter:
	default:
		return ""
	}
	var highest float64
	if n, slip := unit.Parse(top, what, false); slip == nil {
		highest = n.Value
	}
	use, _ := checks.UseOfRange(what, highest)
	return use.ID()
}

// toRegister offers to put what is entered here into the register, unless it is
// there already.
func (r *root) toRegister(part string) []app.UI {
	k, ok := registeredAs(part)
	if !ok || r.job.isRegister() || r.register == nil || r.job.isEmpty(part) {
		return nil
	}
	id, known := "", r.knownBy(r.job, part)
	for _, have := range r.inRegister(k) {
		if sameAs(r.job, part, r.register, have) {
			return []app.UI{note(r.t("put.there", "This stands in the register."))}
		}
		if r.knownBy(r.register, have) == known {
			id = have
		}
	}
	says := r.t("put", "Put into the register")
	if id != "" {
		says = r.t("put.again", "Change it in the register too: {what}", "what", known)
	}
	return []app.UI{r.button("btn", says, func(app.Context) { r.put(k, part, id) })}
}

// put copies a part of the job into the register: as a new thing, or over the
// one that is known by the same name.
func (r *root) put(k registered, part, id string) {
	if id == "" {
		id = k.prefix + freshNumber(func(n string) bool { return slices.Contains(r.register.partsOf(k.prefix), k.prefix+n) })
	}
	known := r.knownBy(r.job, part)
	r.keepIn(r.register, r.job.copied(part, id), "", func(_ app.Context, kept bool) {
		if kept {
			r.notice = notice{says: say.Phrase{Key: "screen.put.kept", English: "In the register: {what}."}.With("what", known)}
		}
	})
}

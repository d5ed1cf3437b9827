package screen

import (
	"encoding/json"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/checks"
	"lugmark/core/say"
)

// A form has no draft in the record: what is typed and not kept lies beside it,
// so that a phone call, the Back key or a killed app costs nobody a sheet.

func (r *root) formDraftKey(f form) string {
	return r.job.id + "/form/" + f.part + "/" + string(f.stage) + "/" + f.topic
}

// saveFormDraft keeps what differs from the record in the form on screen.
func (r *root) saveFormDraft() {
	at := r.route()
	if at.screen != "enter" || r.job == nil {
		return
	}
	f := formAt(at.a, at.b, at.c)
	changed := map[string]string{}
	for _, field := range r.formFields(f) {
		if text := r.text[field.ID]; text != r.job.inputText(r.formSource(f.part), field) {
			changed[field.ID] = text
		}
	}
	draft := ""
	if len(changed) > 0 {
		b, err := json.Marshal(changed)
		if err != nil {
			return
		}
		draft = string(b)
	}
	key := r.formDraftKey(f)
	r.async(func() { r.device.Store.PutDraft(key, draft) })
}

// swellAfter is the entry that is asked only once a block does not look whole, where
// that is what was typed.
func swellAfter(f form, changed map[string]string) []checks.Field {
	swelling, ok := checks.FieldOf("swelling", f.part)
	if _, typed := changed["swelling"]; !ok || !typed {
		return nil
	}
	return []checks.Field{swelling}
}

var sayDraftBack = say.Phrase{Key: "screen.form.draft", English: "What was typed here and not kept stands here again. Keep it, or type over it."}

// loadFormDraft brings back what was typed into a form and not kept.
func (r *root) loadFormDraft(f form) {
	key := r.formDraftKey(f)
	r.async(func() {
		text, there, err := r.device.Store.Draft(key)
		if err != nil || !there || text == "" {
			return
		}
		var changed map[string]string
		if json.Unmarshal([]byte(text), &changed) != nil {
			return
		}
		r.dispatch(func(ctx app.Context) {
			at := r.route()
			if at.screen != "enter" || r.job == nil || r.formDraftKey(formAt(at.a, at.b, at.c)) != key {
				return
			}
			for _, field := range append(r.formFields(f), swellAfter(f, changed)...) {
				kept := r.job.inputText(r.formSource(f.part), field)
				if text, was := changed[field.ID]; was && r.text[field.ID] == kept && text != kept { // nothing newer was typed meanwhile
					r.text[field.ID] = text
					r.notice = notice{says: sayDraftBack.With(), seen: true}
				}
			}
		})
	})
}

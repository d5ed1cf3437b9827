package screen

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// watchKeys takes the keys of a paired keypad into the reading while the focus
// is in no field: after each step it stands on the title, and whoever reads a
// row of meters does not tab back into the field for each block.
func (r *root) watchKeys() {
	app.Window().Call("addEventListener", "keydown", app.FuncOf(func(_ app.Value, args []app.Value) any {
		e := args[0]
		if !r.padShown() || e.Get("ctrlKey").Bool() || e.Get("altKey").Bool() || e.Get("metaKey").Bool() || e.Get("defaultPrevented").Bool() {
			return nil
		}
		tag := strings.ToUpper(e.Get("target").Get("tagName").String())
		key := e.Get("key").String()
		if act := r.keyOfPad(key, tag); act != nil {
			e.Call("preventDefault")
			r.dispatch(act)
		}
		return nil
	}))
}

// padShown reports whether the screen is a reading that waits for digits.
func (r *root) padShown() bool {
	return r.ready && r.job != nil && r.route().screen == "read" && r.read.field.Spec != nil &&
		r.panel != "where" && !r.read.cant && r.read.doubt.Empty()
}

// keyOfPad gives what a key does on a reading when an element of this tag has
// the focus; nil when the key is the element's own.
func (r *root) keyOfPad(key, tag string) func(app.Context) {
	switch tag {
	case "INPUT", "TEXTAREA", "SELECT":
		return nil
	}
	switch {
	case len(key) == 1 && strings.Contains("0123456789", key):
		return func(ctx app.Context) { r.typeKey(ctx, key) }
	case key == "." || key == "," || key == "Decimal":
		return func(ctx app.Context) { r.typeKey(ctx, r.prefs.separator()) }
	case key == "-" && r.read.field.Signed:
		return func(ctx app.Context) { r.typeKey(ctx, "-") }
	case key == "Backspace":
		return r.deleteKey
	case key == "Enter" && tag != "BUTTON" && tag != "A" && tag != "SUMMARY":
		return func(ctx app.Context) { r.keepReading(ctx, false) }
	}
	return nil
}

//go:build js

package store

import (
	"syscall/js"
)

// listen joins the channel on which tabs tell each other what changed.
func (d *DB) listen(name string) {
	channel := js.Global().Get("BroadcastChannel")
	if !channel.Truthy() {
		return // an old browser: the other tab shows the change when it is reloaded
	}
	d.channel = channel.New("lugmark:" + name)
	d.hears = js.FuncOf(func(_ js.Value, args []js.Value) any {
		id := args[0].Get("data").String()
		d.watching.Lock()
		defer d.watching.Unlock()
		for f := range d.watchers {
			go (*f)(id)
		}
		return nil
	})
	d.channel.Set("onmessage", d.hears)
}

func (d *DB) announce(id string) {
	if d.channel.Truthy() {
		catch(func() { d.channel.Call("postMessage", id) }) // closed meanwhile: nobody to tell
	}
}

// Watch implements [Store].
func (d *DB) Watch(f func(job string)) (stop func()) {
	d.watching.Lock()
	defer d.watching.Unlock()
	d.watchers[&f] = true
	return func() {
		d.watching.Lock()
		defer d.watching.Unlock()
		delete(d.watchers, &f)
	}
}

// Persist implements [Store]. Browsers grant it more readily to an app that is
// on the home screen, and after a tap.
func (d *DB) Persist() (granted, known bool) {
	manager := js.Global().Get("navigator").Get("storage")
	if !manager.Truthy() || !manager.Get("persist").Truthy() {
		return false, false
	}
	for _, ask := range []string{"persisted", "persist"} {
		var promise js.Value
		if catch(func() { promise = manager.Call(ask) }) != nil {
			return false, false
		}
		answer, err := awaitPromise(promise)
		if err != nil {
			return false, false
		}
		if answer.Truthy() {
			return true, true
		}
	}
	return false, true
}

// Estimate implements [Store].
func (d *DB) Estimate() (used, quota int64) {
	manager := js.Global().Get("navigator").Get("storage")
	if !manager.Truthy() || !manager.Get("estimate").Truthy() {
		return 0, 0
	}
	var promise js.Value
	if catch(func() { promise = manager.Call("estimate") }) != nil {
		return 0, 0
	}
	answer, err := awaitPromise(promise)
	if err != nil {
		return 0, 0
	}
	return number(answer.Get("usage")), number(answer.Get("quota"))
}

func number(v js.Value) int64 {
	if v.Type() != js.TypeNumber {
		return 0
	}
	return int64(v.Float())
}

//go:build js

package store

import (
	"syscall/js"
	"time"
)

// turnPatience is how long a write waits for other tabs [s]. Then it goes on
// without: what a person did is worth more than the order of two copies.
const turnPatience = 5 * time.Second

// enter waits until nobody else writes to this store or to its mirror, in this
// tab or in another one, and returns what ends the turn. Without a mirror the
// browser's own transactions are order enough.
func (d *DB) enter() (leave func()) {
	if !d.mirror.possible {
		return func() {}
	}
	d.turn.Lock()
	unlock := lockOrigin("lugmark-store:" + d.name)
	return func() {
		unlock()
		d.turn.Unlock()
	}
}

// inTurn runs a write that has no echo in the mirror.
func (d *DB) inTurn(write func() error) error {
	defer d.enter()()
	return write()
}

// lockOrigin takes a lock that all tabs of this address share, and returns what
// gives it back. Where there are no such locks, or none comes, it goes on without.
func lockOrigin(name string) (unlock func()) {
	none := func() {}
	locks := js.Global().Get("navigator").Get("locks")
	promises := js.Global().Get("Promise")
	if !locks.Truthy() || !promises.Get("withResolvers").Truthy() {
		return none
	}
	held := promises.Call("withResolvers")
	give := func() { held.Call("resolve") }
	granted := make(chan struct{}, 1)
	grant := js.FuncOf(func(js.Value, []js.Value) any {
		granted <- struct{}{}
		return held.Get("promise") // the lock is ours until this is resolved
	})
	giveUp := js.Global().Get("AbortController").New()
	var asked js.Value
	err := catch(func() {
		asked = locks.Call("request", name, map[string]any{"signal": giveUp.Get("signal")}, grant)
	})
	if err != nil {
		grant.Release()
		return none
	}
	refused := make(chan struct{}, 1)
	go func() {
		_, err := awaitPromise(asked) // ends when the lock is given back
		grant.Release()
		if err != nil {
			refused <- struct{}{}
		}
	}()
	timer := time.NewTimer(turnPatience)
	defer timer.Stop()
	select {
	case <-granted:
		return give
	case <-refused:
		return none
	case <-timer.C:
		giveUp.Call("abort")
		return give // it may have come at the last moment
	}
}

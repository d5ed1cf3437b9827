//go:build js

package store

import (
	"errors"
	"syscall/js"
)

// transaction is one IndexedDB transaction. It is whole or nothing.
type transaction struct {
	v     js.Value
	ended chan error
	funcs []js.Func
}

// Durabilities: strict returns when the device says that it has written,
// relaxed when the browser has taken it.
const (
	strict  = "strict"
	relaxed = "relaxed"
)

// write begins a transaction that may change the named stores.
func (b *database) write(durability string, stores ...any) (*transaction, error) {
	return b.begin("readwrite", durability, stores)
}

// read begins a transaction that only reads.
func (b *database) read(stores ...any) (*transaction, error) {
	return b.begin("readonly", relaxed, stores)
}

func (b *database) begin(mode, durability string, stores []any) (*transaction, error) {
	if b.closed.Load() {
		return nil, ErrClosed
	}
	t := &transaction{ended: make(chan error, 1)}
	err := catch(func() {
		t.v = b.v.Call("transaction", js.ValueOf(stores), mode, map[string]any{"durability": durability})
	})
	if named(err, "InvalidStateError") {
		return nil, ErrClosed // the browser closed it under us
	}
	if err != nil {
		return nil, err
	}
	complete := js.FuncOf(func(js.Value, []js.Value) any {
		t.ended <- nil
		return nil
	})
	// Errors of single requests end here too: the browser aborts on them.
	abort := js.FuncOf(func(js.Value, []js.Value) any {
		if why := t.v.Get("error"); why.Truthy() {
			t.ended <- fromJS(why)
		} else {
			t.ended <- errAborted
		}
		return nil
	})
	t.funcs = []js.Func{complete, abort}
	t.v.Set("oncomplete", complete)
	t.v.Set("onabort", abort)
	return t, nil
}

var errAborted = errors.New("the transaction was aborted")

// look runs f in a reading transaction.
func (b *database) look(f func(*transaction) error, stores ...any) error {
	t, err := b.read(stores...)
	if err != nil {
		return err
	}
	return b.run(t, f)
}

// change runs f in a strict transaction that may change the named stores.
func (b *database) change(f func(*transaction) error, stores ...any) error {
	t, err := b.write(strict, stores...)
	if err != nil {
		return err
	}
	return b.run(t, f)
}

// run waits for a transaction: for the store as long as it takes, for the
// mirror a while, since nobody is to wait for a copy for ever.
func (b *database) run(t *transaction, f func(*transaction) error) error {
	do := func() error { return t.do(func() error { return f(t) }) }
	if b.slow == nil {
		return do()
	}
	err := within(mirrorPatience, do)
	if errors.Is(err, errSlow) {
		b.slow()
	}
	return err
}

func (t *transaction) store(name string) js.Value { return t.v.Call("objectStore", name) }

// do runs f, which asks things of the transaction, and waits for its end. When
// f fails, nothing of it is kept and f's error is returned.
func (t *transaction) do(f func() error) error {
	defer func() {
		for _, fn := range t.funcs {
			fn.Release()
		}
	}()
	var failed error
	thrown := catch(func() { failed = f() })
	if err := errors.Join(failed, thrown); err != nil {
		catch(func() { t.v.Call("abort") }) // it may be over already
		<-t.ended
		return err
	}
	catch(func() { t.v.Call("commit") }) // only hurries it; older browsers lack it
	return <-t.ended
}

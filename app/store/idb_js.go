//go:build js

package store

import (
	"errors"
	"fmt"
	"syscall/js"

	"lugmark/core/job"
)

// This file makes the browser's store bearable from Go: requests and promises
// are waited for, exceptions become errors.

// await waits for an IDBRequest. Inside a transaction it is safe, for Go goes
// on within the browser's callback; waiting for anything else there is not: the
// browser commits a transaction that has nothing asked of it.
func await(request js.Value) (js.Value, error) {
	type answer struct {
		value js.Value
		err   error
	}
	answers := make(chan answer, 1)
	ok := js.FuncOf(func(js.Value, []js.Value) any {
		answers <- answer{value: request.Get("result")}
		return nil
	})
	defer ok.Release()
	bad := js.FuncOf(func(_ js.Value, args []js.Value) any {
		args[0].Call("preventDefault") // the caller decides what the failure means
		answers <- answer{err: fromJS(request.Get("error"))}
		return nil
	})
	defer bad.Release()
	request.Set("onsuccess", ok)
	request.Set("onerror", bad)
	a := <-answers
	return a.value, a.err
}

// awaitPromise waits for a promise.
func awaitPromise(promise js.Value) (js.Value, error) {
	type answer struct {
		value js.Value
		err   error
	}
	answers := make(chan answer, 1)
	settle := func(make func(js.Value) answer) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			value := js.Undefined()
			if len(args) > 0 {
				value = args[0]
			}
			answers <- make(value)
			return nil
		})
	}
	ok := settle(func(v js.Value) answer { return answer{value: v} })
	defer ok.Release()
	bad := settle(func(v js.Value) answer { return answer{err: fromJS(v)} })
	defer bad.Release()
	promise.Call("then", ok, bad)
	a := <-answers
	return a.value, a.err
}

// catch runs f and returns the JavaScript exception it threw, if any.
func catch(f func()) (err error) {
	defer func() {
		switch r := recover().(type) {
		case nil:
		case js.Error:
			err = fromJS(r.Value)
		default:
			panic(r)
		}
	}()
	f()
	return nil
}

// domError is an exception of the browser, by its name.
type domError struct {
	name, message string
}

func (e domError) Error() string { return e.name + ": " + e.message }

// Is makes the names that a caller branches on equal to our own errors.
func (e domError) Is(target error) bool {
	switch target {
	case ErrFull:
		return e.name == "QuotaExceededError"
	case ErrRefused:
		return e.name == "SecurityError" || e.name == "NotAllowedError"
	}
	return false
}

func fromJS(v js.Value) error {
	if v.Type() != js.TypeObject {
		return errors.New(v.String())
	}
	return domError{v.Get("name").String(), v.Get("message").String()}
}

// named reports whether err is the browser's exception of that name.
func named(err error, name string) bool {
	var dom domError
	return errors.As(err, &dom) && dom.name == name
}

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
func (d *DB) write(durability string, stores ...any) (*transaction, error) {
	return d.begin("readwrite", durability, stores)
}

// read begins a transaction that only reads.
func (d *DB) read(stores ...any) (*transaction, error) {
	return d.begin("readonly", relaxed, stores)
}

func (d *DB) begin(mode, durability string, stores []any) (*transaction, error) {
	if d.closed.Load() {
		return nil, ErrClosed
	}
	t := &transaction{ended: make(chan error, 1)}
	err := catch(func() {
		t.v = d.v.Call("transaction", js.ValueOf(stores), mode, map[string]any{"durability": durability})
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

func bytesToJS(data []byte) js.Value {
	array := js.Global().Get("Uint8Array").New(len(data))
	js.CopyBytesToJS(array, data)
	return array
}

// blobToJS makes a browser's Blob, which it keeps in a file of its own: a photo
// in the browser's log would make each torn end of that log more likely.
func blobToJS(b job.Blob) js.Value {
	return js.Global().Get("Blob").New(js.ValueOf([]any{bytesToJS(b.Data)}), map[string]any{"type": b.Type})
}

func bytesFromJS(array js.Value) []byte {
	data := make([]byte, array.Length())
	js.CopyBytesToGo(data, array)
	return data
}

// wrap adds what was being done to an error.
func wrap(err error, format string, args ...any) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("store: %s: %w", fmt.Sprintf(format, args...), err)
}

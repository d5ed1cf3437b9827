//go:build js

package store

import (
	"errors"
	"fmt"
	"syscall/js"
	"time"

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

// awaitAll waits for requests of one transaction, made one after the other, and
// returns their results: answers come in the order of asking, so it waits for
// the last alone.
func awaitAll(requests []js.Value) ([]js.Value, error) {
	if len(requests) == 0 {
		return nil, nil
	}
	if _, err := await(requests[len(requests)-1]); err != nil {
		return nil, err
	}
	results := make([]js.Value, len(requests))
	for i, request := range requests {
		results[i] = request.Get("result")
	}
	return results, nil
}

// both runs two waits side by side and returns the first error.
func both(one, two func() error) error {
	done := make(chan error, 1)
	go func() { done <- two() }()
	err := one()
	if err2 := <-done; err == nil {
		err = err2
	}
	return err
}

// errSlow is the error of [within].
var errSlow = errors.New("the browser does not answer")

// within waits for f no longer than patience; f itself goes on.
func within(patience time.Duration, f func() error) error {
	done := make(chan error, 1)
	go func() { done <- f() }()
	timer := time.NewTimer(patience)
	defer timer.Stop()
	select {
	case err := <-done:
		return err
	case <-timer.C:
		return errSlow
	}
}

// catch runs f and returns the JavaScript exception it threw, if any.
func catch(f func()) (err error) {
	defer func() {
		switch r := recover().(type) {
		case nil:
		case js.Error:
			err = fromJS(r.Value)
		case *js.ValueError: // something that browsers promise was not there
			err = r
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

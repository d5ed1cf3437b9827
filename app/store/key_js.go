//go:build js

package store

import (
	"crypto/ed25519"
	"fmt"
	"syscall/js"
)

// Key implements [Store]. The private half is made so that the browser never
// hands it out, where the browser can; else it is a seed in the store, soft.
func (d *DB) Key() (Key, error) {
	record, err := keyRecord(d.database, deviceKey)
	if err != nil {
		return Key{}, wrap(err, "read the key")
	}
	made := record.IsUndefined()
	if made {
		if record, err = d.makeKey(); err != nil {
			return Key{}, wrap(err, "make the key")
		}
	}
	if seed := record.Get("seed"); seed.Truthy() {
		data := bytesFromJS(seed)
		if len(data) != ed25519.SeedSize {
			return Key{}, fmt.Errorf("store: read the key: it is %d bytes long", len(data))
		}
		key := softKey(data)
		key.New = made
		return key, nil
	}
	private := record.Get("private")
	return Key{
		PublicDER: bytesFromJS(record.Get("public")),
		New:       made,
		sign: func(message []byte) ([]byte, error) {
			sig, err := subtle("sign", "Ed25519", private, bytesToJS(message))
			if err != nil {
				return nil, wrap(err, "sign")
			}
			return bytesFromJS(js.Global().Get("Uint8Array").New(sig)), nil
		},
	}, nil
}

// makeKey makes a key and keeps it, unless another tab was quicker: then that
// one is the device's.
func (d *DB) makeKey() (js.Value, error) {
	record, err := hardRecord()
	if err == nil {
		err = d.keepKey(record)
	}
	if err != nil && !named(err, "ConstraintError") {
		// The browser has no such key, or cannot store one.
		seed, err := newSeed()
		if err != nil {
			return js.Value{}, err
		}
		if err := d.keepKey(js.ValueOf(map[string]any{"seed": bytesToJS(seed)})); err != nil && !named(err, "ConstraintError") {
			return js.Value{}, err
		}
	}
	return keyRecord(d.database, deviceKey)
}

// keepKey adds the record; ConstraintError means that there is one already.
func (d *DB) keepKey(record js.Value) error {
	return d.first(
		func() error { return mark(d.database, "add", record, deviceKey) },
		func(m *database) error { return mark(m, "put", record, deviceKey) })
}

// hardRecord makes a pair whose private half cannot be read, only used.
func hardRecord() (js.Value, error) {
	pair, err := subtle("generateKey", "Ed25519", false, js.ValueOf([]any{"sign", "verify"}))
	if err != nil {
		return js.Value{}, err
	}
	der, err := subtle("exportKey", "spki", pair.Get("publicKey"))
	if err != nil {
		return js.Value{}, err
	}
	return js.ValueOf(map[string]any{
		"private": pair.Get("privateKey"),
		"public":  js.Global().Get("Uint8Array").New(der),
	}), nil
}

// subtle calls the browser's cryptography and waits for its answer.
func subtle(method string, args ...any) (js.Value, error) {
	crypto := js.Global().Get("crypto")
	if !crypto.Truthy() || !crypto.Get("subtle").Truthy() {
		return js.Value{}, fmt.Errorf("this page has no crypto.subtle")
	}
	var promise js.Value
	if err := catch(func() { promise = crypto.Get("subtle").Call(method, args...) }); err != nil {
		return js.Value{}, err
	}
	return awaitPromise(promise)
}

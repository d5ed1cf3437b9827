//go:build js

package main

import (
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"lugmark/app/screen"
	"lugmark/app/store"
)

// run starts the phone app. It returns only when the app has stopped, which the
// page then says.
func run([]string) int {
	app.RunWhenOnBrowser()
	return 1
}

// openDevice makes the phone ready for the screens: its store and its key.
func openDevice() (screen.Device, error) {
	d := screen.Device{App: "lugmark " + version, Trouble: trouble}
	db, err := store.Open("lugmark")
	if err != nil {
		return d, err
	}
	key, err := db.Key()
	if err != nil {
		return d, err
	}
	if key.New {
		lines, err := db.Summaries()
		if err != nil {
			return d, err
		}
		d.NewKey = len(lines) > 0
	}
	d.Lost, d.Healed = db.Lost, db.Healed
	d.Store, d.PublicKey, d.Soft, d.Sign = db, key.PublicDER, key.Soft, key.Sign
	return d, nil
}

// trouble says what a person can do about an error of the store.
func trouble(err error) screen.Trouble {
	switch {
	case errors.Is(err, store.ErrFull):
		return screen.Full
	case errors.Is(err, store.ErrRefused):
		return screen.Refused
	case errors.Is(err, store.ErrClosed):
		return screen.Elsewhere
	case errors.Is(err, store.ErrForked):
		return screen.Forked
	}
	return screen.Unclear
}

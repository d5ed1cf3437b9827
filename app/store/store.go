// Package store keeps what people did, on the device itself: signed events,
// the texts they name by hash, a line about each job for the list, what is
// being typed, and the device's own key.
//
// An act is kept whole or not at all, and Keep returns only when it is kept;
// nothing else may put a tick on a screen. [DB] keeps in the browser's
// IndexedDB, [Memory] keeps nothing beyond the program: it serves tests and a
// look around where the browser refuses to store.
//
// The package does not understand an event. It neither folds nor verifies nor
// sends one; it hands back the bytes it was given.
package store

import (
	"errors"

	"lugmark/core/job"
)

// Store is what the screens need of a store. Every method may wait for the
// device, so in the phone app each is called from a goroutine, never from a
// JavaScript callback, which would wait for itself. All are safe for use by
// several goroutines.
type Store interface {
	// Keep keeps one act of a person whole or not at all. When it returns nil
	// the act outlives the program. The same event again is no error; another
	// event in the place of one that is there is [ErrForked].
	Keep(job.Act) error
	// Job returns all events of a job, by stream and then by number, and all
	// its blobs whose type begins with "text/". An unknown job has none.
	Job(id string) ([]job.Signed, []job.Blob, error)
	// Blob returns one blob of a job, of any type, and whether it is there.
	Blob(id, sum string) (job.Blob, bool, error)
	// Summaries returns the line of each job for the list, by job.
	Summaries() (map[string][]byte, error)
	// PutDraft keeps what is being typed under a key that begins with its job
	// and a slash; an empty text removes it. It may lose its last seconds when
	// the power goes: a draft was never shown as kept.
	PutDraft(key, text string) error
	// Draft returns what was being typed, and whether there was any.
	Draft(key string) (text string, there bool, err error)
	// Erase removes blobs of a job from this device, all of them or none. The
	// events that name them stay as they are. A sum that is not there is no
	// error. Whoever keeps such a blob again has it again.
	Erase(id string, sums ...string) error
	// Forget removes a job from this device: events, blobs, line, drafts.
	Forget(id string) error
	// Key returns the device's key, which the first call makes.
	Key() (Key, error)
	// Persist asks the browser to keep the store when space gets short. known
	// is false where the browser has no such promise to give.
	Persist() (granted, known bool)
	// Estimate returns the space used and the space there is [bytes]; 0, 0
	// where the browser does not say.
	Estimate() (used, quota int64)
	// Watch calls f with the job whenever another tab has kept or forgotten
	// something of it, until stop is called. f runs in a goroutine of its own.
	Watch(f func(job string)) (stop func())
	// Close ends the use of the store; calls after it return [ErrClosed].
	Close()
}

var (
	// ErrFull means that the device has no more room for this; nothing of the
	// act was kept. What was kept before is safe. The way out is to make room
	// on the device or to remove a job that has reached the office.
	ErrFull = errors.New("no room left on this device")
	// ErrRefused means that the browser lets this page store nothing: private
	// browsing, or storage switched off for the address. Nothing can be kept
	// until that is changed, and the person must hear it before the first job.
	ErrRefused = errors.New("the browser refuses to store")
	// ErrForked means that another event already stands where this one belongs.
	// Two programs wrote one stream, which a copied profile can cause. Nothing
	// of the act was kept; a new stream is the way on.
	ErrForked = errors.New("another event has this place")
	// ErrClosed means that this tab no longer has the store: another tab, with a
	// newer version of the app, is changing its form, or it was closed here.
	// Reloading the tab is the way on.
	ErrClosed = errors.New("the store is closed in this tab")
)

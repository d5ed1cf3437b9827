package store

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"syscall/js"
	"testing"
	"time"

	"lugmark/core/job"
)

// TestMain lets a browser test drive this package from outside, where a test
// alone cannot go: through the death of the browser and the end of its room.
// STORE_DRIVE says what to do; the page reads window.driven.
func TestMain(m *testing.M) {
	drive, driven := map[string]func() error{
		"keep":  keepUntilKilled,
		"count": countWhole,
		"fill":  fillUp,
		"time":  timeKeeping,
	}[os.Getenv("STORE_DRIVE")]
	if !driven {
		os.Exit(m.Run())
	}
	if err := drive(); err != nil {
		tell("error", err.Error())
		os.Exit(1)
	}
	tell("done", true)
}

func tell(name string, value any) {
	driven := js.Global().Get("driven")
	if !driven.Truthy() {
		js.Global().Set("driven", map[string]any{})
		driven = js.Global().Get("driven")
	}
	driven.Set(name, value)
}

// drivenAct is the n-th act: two events, a text, a photo every tenth time, a
// summary. Whole means that all of it is there.
func drivenAct(n int) job.Act {
	act := job.Act{
		Job: "j1",
		Events: []job.Signed{
			signed("j1", "s1", 2*n-1, fmt.Sprintf(`{"act":%d,"half":1}`, n)),
			signed("j1", "s1", 2*n, fmt.Sprintf(`{"act":%d,"half":2}`, n)),
		},
		Blobs:   []job.Blob{blob("text/plain", fmt.Sprint("note ", n))},
		Summary: fmt.Append(nil, n),
	}
	if n%10 == 0 {
		act.Blobs = append(act.Blobs, blob("image/jpeg", strings.Repeat(fmt.Sprint(n, " "), 50000)))
	}
	return act
}

// keepUntilKilled goes on from what is there and says after each act that it is kept.
func keepUntilKilled() error {
	d, err := Open("driven")
	if err != nil {
		return err
	}
	tell("healed", d.Healed())
	events, _, err := d.Job("j1")
	if err != nil {
		return err
	}
	for n := len(events)/2 + 1; ; n++ {
		if err := d.Keep(drivenAct(n)); err != nil {
			return err
		}
		tell("kept", n)
	}
}

// countWhole says how many acts are there, and fails when one is there in part.
// It stays until the mirror has everything too, as a person stays who looks.
func countWhole() error {
	d, err := Open("driven")
	if err != nil {
		return err
	}
	defer d.Close()
	events, texts, err := d.Job("j1")
	if err != nil {
		return err
	}
	lines, err := d.Summaries()
	if err != nil {
		return err
	}
	acts := len(events) / 2
	if len(events)%2 != 0 || len(texts) != acts || acts > 0 && string(lines["j1"]) != fmt.Sprint(acts) {
		return fmt.Errorf("half an act: %d events, %d texts, summary %q", len(events), len(texts), lines["j1"])
	}
	for i, e := range events {
		want := drivenAct(i/2 + 1).Events[i%2]
		if e.Seq != want.Seq || string(e.Raw) != string(want.Raw) || string(e.Sig) != string(want.Sig) {
			return fmt.Errorf("event %d is %+v", i, e)
		}
	}
	for n := 10; n <= acts; n += 10 {
		photo := drivenAct(n).Blobs[1]
		got, there, err := d.Blob("j1", photo.Sum)
		if err != nil || !there || string(got.Data) != string(photo.Data) {
			return fmt.Errorf("photo of act %d: there %v, %d bytes, %v", n, there, len(got.Data), err)
		}
	}
	for end := time.Now().Add(20 * time.Second); d.mirror.possible && !d.Mirrored(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			return errors.New("the mirror does not catch up")
		}
	}
	tell("lost", d.Lost())
	tell("healed", d.Healed())
	tell("found", acts)
	return nil
}

// fillUp keeps photos until there is no room, then looks that what was kept
// before is whole and that the refused act left nothing.
func fillUp() error {
	d, err := Open("driven")
	if err != nil {
		return err
	}
	defer d.Close()
	for n := 1; ; n++ {
		noise := make([]byte, 1<<20) // the store packs what repeats; a photo does not
		rand.NewChaCha8([32]byte{byte(n)}).Read(noise)
		act := job.Act{
			Job:    "full",
			Events: []job.Signed{signed("full", "s1", n, "{}")},
			Blobs:  []job.Blob{blob("image/jpeg", string(noise))},
		}
		err := d.Keep(act)
		if err == nil && n < 100 {
			continue
		}
		if !errors.Is(err, ErrFull) {
			return fmt.Errorf("act %d: got %v, want ErrFull", n, err)
		}
		events, _, err := d.Job("full")
		if err != nil {
			return err
		}
		if len(events) != n-1 {
			return fmt.Errorf("%d acts were kept, %d events are there", n-1, len(events))
		}
		_, there, err := d.Blob("full", act.Blobs[0].Sum)
		if there || err != nil {
			return fmt.Errorf("the refused photo: there %v, %v", there, err)
		}
		tell("kept", n-1)
		return nil
	}
}

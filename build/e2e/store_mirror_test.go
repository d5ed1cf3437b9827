package e2e

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

// Where Chromium keeps what a page stores: its databases, and its buckets.
func storeFolder(b *Browser) string  { return filepath.Join(b.Profile, "Default", "IndexedDB") }
func bucketFolder(b *Browser) string { return filepath.Join(b.Profile, "Default", "WebStorage") }

// keepSome keeps acts for a while in a browser that is then closed in peace,
// and returns how many were shown as kept.
func keepSome(t *testing.T, b *Browser, url string) (shown int) {
	t.Helper()
	phone := NewTab(t, b)
	phone.Load(url + "?env=STORE_DRIVE=keep")
	phone.Until("something was kept", `window.driven && driven.kept`)
	phone.Eval(`driven.kept + 20`, &shown)
	phone.Until("acts were kept", `driven.error || driven.kept > `+strconv.Itoa(shown))
	d, err := phone.driven()
	if err != nil || d.Error != "" {
		t.Fatalf("keep: %v %s", err, d.Error)
	}
	phone.Load("about:blank")
	time.Sleep(6 * time.Second) // the browser writes its other storage within five
	b.Close()
	return d.Kept
}

// spoilLogs changes the logs of the store; change gets the bytes of one.
func spoilLogs(t *testing.T, b *Browser, change func([]byte) []byte) {
	t.Helper()
	logs, err := filepath.Glob(filepath.Join(storeFolder(b), "*.leveldb", "*.log"))
	if err != nil || len(logs) == 0 {
		t.Fatalf("no logs of the store: %v", err)
	}
	for _, log := range logs {
		data, err := os.ReadFile(log)
		if err == nil && len(data) > 0 {
			err = os.WriteFile(log, change(data), 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// The log of the store is spoilt, in the way of a kill in the middle of a write
// and in worse ways. Two starts later everything is there.
func TestSpoiltStoreComesBackFromTheMirror(t *testing.T) {
	for name, change := range map[string]func([]byte) []byte{
		"its tail is cut off": func(log []byte) []byte { return log[:len(log)-len(log)/10-3] },
		"its tail is garbled": func(log []byte) []byte {
			for i := len(log) * 9 / 10; i < len(log); i += 5 {
				log[i] ^= 0x55
			}
			return log
		},
		"its middle is garbled": func(log []byte) []byte {
			for i := len(log) / 3; i < len(log)/2; i++ {
				log[i] ^= 0x55
			}
			return log
		},
	} {
		t.Run(name, func(t *testing.T) {
			url := TestBinary(t, "./app/store")
			browser := Launch(t)
			shown := keepSome(t, browser, url)
			spoilLogs(t, browser, change)
			back := 0
			for start := range 3 {
				browser = Relaunch(t, browser)
				found, n := foundAfter(t, browser, url)
				back += n
				t.Logf("start %d: shown %d, found %d, %d events came back", start, shown, found.Found, n)
				if found.Found < shown || found.Lost {
					t.Fatalf("start %d: %d acts were shown as kept, found %+v", start, shown, found)
				}
				if start < 2 { // goes on behind what was spoilt
					shown = keepSome(t, browser, url)
				}
				browser.Close()
			}
			if back == 0 {
				t.Error("nothing came back: the log was not spoilt")
			}
		})
	}
}

// A mirror that is gone is built again, and then is good for a store that is gone.
func TestMirrorThatIsGoneIsBuiltAgain(t *testing.T) {
	url := TestBinary(t, "./app/store")
	browser := Launch(t)
	shown := keepSome(t, browser, url)
	for _, step := range []struct {
		gone string
		back bool
	}{{bucketFolder(browser), false}, {storeFolder(browser), true}} {
		if _, err := os.Stat(step.gone); err != nil {
			t.Fatal(err)
		}
		if err := os.RemoveAll(step.gone); err != nil {
			t.Fatal(err)
		}
		browser = Relaunch(t, browser)
		found, back := foundAfter(t, browser, url) // waits for the mirror
		if found.Found < shown || found.Lost || (back > 0) != step.back {
			t.Errorf("without %s: shown %d, found %+v, %d events came back", filepath.Base(step.gone), shown, found, back)
		}
		browser.Close()
	}
}

// Where both are gone, the store comes up empty and says that it was not.
func TestStoreAndMirrorThatAreGoneAreNoticed(t *testing.T) {
	url := TestBinary(t, "./app/store")
	browser := Launch(t)
	keepSome(t, browser, url)
	for _, gone := range []string{storeFolder(browser), bucketFolder(browser)} {
		if err := os.RemoveAll(gone); err != nil {
			t.Fatal(err)
		}
	}
	if found, back := foundAfter(t, Relaunch(t, browser), url); found.Found != 0 || back != 0 || !found.Lost {
		t.Errorf("found %+v, %d came back; want nothing, and that it is noticed", found, back)
	}
}

// What keeping costs, printed: acts kept with a mirror, without one, and the
// same bytes put by plain JavaScript, in turns.
func TestWhatKeepingCosts(t *testing.T) {
	url := TestBinary(t, "./app/store")
	phone := NewTab(t, shared)
	phone.Allow("Go program has already exited")
	phone.Load(url + "?env=STORE_DRIVE=time")
	for _, turn := range []string{"50", "100", "150", "200"} { // a slow disk takes its time
		phone.Until("acts were timed", `window.driven && (driven.error || driven.turn >= `+turn+`)`)
	}
	phone.Until("it was timed", `driven.done || driven.error`)
	d, err := phone.driven()
	if err != nil || d.Error != "" {
		t.Fatalf("%+v, %v", d, err)
	}
	for name, what := range map[string]string{
		"mirrored": "an act with a mirror, as kept", "single": "an act without one", "paused": "an act after a pause", "behind": "ten acts without a pause, each", "opened": "opening the store",
	} {
		var said string
		phone.Eval(`driven.`+name, &said)
		t.Logf("%s: %s", what, said)
	}
}

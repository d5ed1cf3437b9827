package e2e

import (
	"context"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
)

func TestStoreInTheBrowser(t *testing.T) {
	url := TestBinary(t, "./app/store")
	NewTab(t, shared).Results(url)
}

// The browser is killed at a random moment, again and again, while acts are
// being kept. Every act that was shown as kept is there afterwards, whole, and
// no act is there in part. It cannot show what a loss of power does: the
// system's own memory of the file survives the browser.
//
// Each round has an origin of its own. A browser that is killed in the middle of
// a write leaves a torn end in its log; some go on behind it and, one start
// later, find it and throw the whole store away. That is theirs to mend; what
// the app can do is to notice, which the next test asks for.
func TestEverythingShownAsKeptSurvivesAKilledBrowser(t *testing.T) {
	const rounds = 20
	browser := Launch(t)
	for round := range rounds {
		url := TestBinary(t, "./app/store")
		phone := NewTab(t, browser)
		phone.Load(url + "?env=STORE_DRIVE=keep")
		phone.Until("something was kept", `window.driven && driven.kept`)
		shown := 0
		until := time.Now().Add(time.Duration(rand.IntN(400)) * time.Millisecond)
		for time.Now().Before(until) {
			d, err := phone.driven()
			if err != nil || d.Error != "" {
				t.Fatalf("round %d: %v %s", round, err, d.Error)
			}
			shown = max(shown, d.Kept)
		}
		browser.Kill()

		browser = Relaunch(t, browser)
		found := foundAfter(t, browser, url)
		if found.Found < shown || found.Lost {
			t.Fatalf("round %d: %d acts were shown as kept, found %+v", round, shown, found)
		}
		t.Logf("round %d: shown %d, found %d", round, shown, found.Found)
	}
}

// foundAfter counts what is there in a browser that was started again.
func foundAfter(t *testing.T, b *Browser, url string) driven {
	t.Helper()
	phone := NewTab(t, b)
	phone.Allow("Go program has already exited") // it ends by itself, with timers left
	phone.Load(url + "?env=STORE_DRIVE=count")
	phone.Until("the acts were counted", `window.driven && (driven.done || driven.error)`)
	d, err := phone.driven()
	if err != nil || d.Error != "" {
		t.Fatalf("count: %v %s", err, d.Error)
	}
	return d
}

// A store that comes up empty where there was one must say so.
func TestStoreThatTheBrowserThrewAwayIsNoticed(t *testing.T) {
	url := TestBinary(t, "./app/store")
	browser := Launch(t)
	phone := NewTab(t, browser)
	phone.Load(url + "?env=STORE_DRIVE=keep")
	phone.Until("something was kept", `window.driven && driven.kept > 5`)
	phone.Load("about:blank")
	time.Sleep(6 * time.Second) // the browser writes its other storage within five
	browser.Close()
	if err := os.RemoveAll(filepath.Join(browser.Profile, "Default", "IndexedDB")); err != nil {
		t.Fatal(err)
	}
	if found := foundAfter(t, Relaunch(t, browser), url); found.Found != 0 || !found.Lost {
		t.Errorf("found %+v, want nothing, and that it is noticed", found)
	}
}

func TestFullStoreSaysSoAndKeepsWhatItHad(t *testing.T) {
	url := TestBinary(t, "./app/store")
	phone := NewTab(t, shared)
	phone.Allow("Go program has already exited")
	// The limit holds for the page that is open, so that one must begin after it.
	phone.Load(url + "?hold&env=STORE_DRIVE=fill")
	phone.Until("the page is there", `window.begin`)
	phone.Do(chromedp.ActionFunc(func(ctx context.Context) error {
		return storage.OverrideQuotaForOrigin(strings.TrimRight(url, "/")).WithQuotaSize(20e6).Do(ctx)
	}))
	phone.Eval(`begin()`, nil)
	phone.Until("the store is full", `window.driven && (driven.done || driven.error)`)
	d, err := phone.driven()
	if err != nil || d.Error != "" || d.Kept < 2 {
		t.Errorf("%+v, %v", d, err)
	}
}
